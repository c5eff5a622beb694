"""What is at work in one state: what motors and lamps do, and which way each load's current takes."""

from collections.abc import Iterator
from typing import NamedTuple

from circuitcheck.analysis.devices import WEAK_SHARE
from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.single_state import State, current_path
from circuitcheck.analysis.states import States
from circuitcheck.circuit.model import Load, Terminal


class AtWork(NamedTuple):
    """motors: a word for each by its name; lamps: for each lamp, buzzer and solenoid.

    ways: of each load that is fed, from a supply's + through it to a supply's −, by the load's name; in a shorted state
    the way of the short, by the name "short".
    """

    motors: dict[str, str]
    lamps: dict[str, str]
    ways: dict[str, tuple[Terminal, ...]]


def at_work(facts: Facts, state: State) -> AtWork:
    """What a state shows; `state` has a value for every digit. In a shorted one nothing can be said but the short."""
    circuit = facts.circuit
    if state in facts.shorted:
        motors = dict.fromkeys((motor.name for motor in circuit.motors), "shorted")
        lamps = dict.fromkeys((circuit.loads[number].name for number in facts.lamps), "shorted")
        return AtWork(motors, lamps, dict(_shorts(facts, state)))
    here = facts.spaces.all()
    for digit, value in state.items():
        here = here & facts.spaces.where(digit, (value,))
    motors = {
        motor.name: _word(does.named(here), state) for motor, does in zip(circuit.motors, facts.motors, strict=True)
    }
    lamps = {
        circuit.loads[number].name: _lamp_word(circuit.loads[number], _word(does._asdict(), state))
        for number, does in facts.lamps.items()
    }
    return AtWork(motors, lamps, dict(_ways(facts, state)))


def _word(sets: dict[str, States], state: State) -> str:
    """The name of the set that a state belongs to."""
    return next(name for name, states in sets.items() if state in states).replace("_", " ")


def _lamp_word(load: Load, word: str) -> str:
    """A lamp's own word; what gives no light is on, weak or off."""
    return word if load.kind == "lamp" else {"lit": "on", "glowing": "weak", "dark": "off"}[word]


def _ways(facts: Facts, state: State) -> Iterator[tuple[str, tuple[Terminal, ...]]]:
    for number, load in enumerate(facts.circuit.loads):
        for fed in facts.volts[number] if load.volts else ():
            if fed.volts >= WEAK_SHARE * load.volts and (state in fed.forward or state in fed.backward):
                ends = (load.a, load.b) if state in fed.forward else (load.b, load.a)
                way = _way(facts, state, number, *ends)
                if way:
                    yield load.name, way


def _way(facts: Facts, state: State, number: int, enters: Terminal, leaves: Terminal) -> tuple[Terminal, ...]:
    """Through conductors alone where that is possible, else through other loads as well."""
    circuit = facts.circuit
    others = [other for other in range(len(circuit.loads)) if other != number]
    live = [supply for supply in circuit.supplies if state[supply.digit] == 1]
    pairs = [(one, one) for one in live] + [(one, other) for one in live for other in live if one != other]
    for through in ((), others):
        for first, last in pairs:
            there = current_path(circuit, state, first.plus, enters, through)
            back = current_path(circuit, state, leaves, last.minus, through)
            if there and back:
                return there + back
    return ()


def _shorts(facts: Facts, state: State) -> Iterator[tuple[str, tuple[Terminal, ...]]]:
    """The way of the first short that the state is in."""
    nets = facts.conduction.network.nets
    known = {nets[end]: end for supply in facts.circuit.supplies for end in (supply.minus, supply.plus)}
    for short in facts.shorts:
        if state in short.states:
            stretches = [current_path(facts.circuit, state, known[a], known[b]) for a, b in short.stretches]
            yield "short", tuple(terminal for stretch in stretches for terminal in stretch)
            return
