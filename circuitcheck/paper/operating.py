"""The card for whoever works the prop: what can be done, how it ends, what lamps tell, what happens in trouble."""

from collections.abc import Iterator
from functools import reduce
from typing import NamedTuple

from circuitcheck.analysis.facts import Facts, analyse
from circuitcheck.analysis.hands import OFF, ON
from circuitcheck.analysis.sequels import starts_after
from circuitcheck.analysis.states import States
from circuitcheck.analysis.supposed import never_closing
from circuitcheck.paper.doings import doings, tables_of, words_of
from circuitcheck.paper.handling import Handled, handled
from circuitcheck.paper.signals import Signal, signals

RELEASED, PRESSED = 0, 1


class Still(NamedTuple):
    """What a motor may do at rest in some situation, by its name."""

    motor: str
    words: frozenset[str]


class Stop(NamedTuple):
    """An emergency stop, by its digit: what motors do while it is pressed, and which of them start when it is reset."""

    digit: int
    pressed: tuple[Still, ...]
    starting: tuple[str, ...]


class Card(NamedTuple):
    """controls: their digits. handled: everything but what lamps tell. power_off: what motors do with no supply on.
    starting: the motors that start when power returns. unplugged: connectors, and the motors that nothing holds any
    more with one of them pulled, though it does otherwise."""

    controls: tuple[int, ...]
    handled: tuple[Handled, ...]
    signals: tuple[Signal, ...]
    stops: tuple[Stop, ...]
    power_off: tuple[Still, ...]
    starting: tuple[str, ...]
    unplugged: tuple[tuple[str, tuple[str, ...]], ...]


def operating_card(facts: Facts) -> Card:
    """TooWide or TooManyCases where there is no exact answer, TooManyRows where the truth table is too long."""
    circuit = facts.circuit
    tables = tables_of(facts)
    every = doings(facts, tables)
    told = signals(facts, every)
    lamps = {signal.part for signal in told}
    supplies = frozenset(supply.digit for supply in circuit.supplies)
    dead = reduce(States.__and__, (facts.spaces.where(digit, (OFF,)) for digit in supplies), facts.spaces.all())
    return Card(
        tuple(number for number, digit in enumerate(circuit.digits) if digit.kind == "control"),
        tuple(handled(facts, tables, one) for one in every if one.part not in lamps),
        told,
        tuple(_stops(facts)),
        _still(facts, dead),
        _starting(facts, supplies, ON),
        tuple(_unplugged(facts)),
    )


def _stops(facts: Facts) -> Iterator[Stop]:
    for number, digit in enumerate(facts.circuit.digits):
        info = facts.circuit.parts.get(digit.name)
        if info is not None and info.kind == "estop":
            pressed = _still(facts, facts.spaces.where(number, (PRESSED,)))
            yield Stop(number, pressed, _starting(facts, frozenset({number}), RELEASED))


def _still(facts: Facts, where: States) -> tuple[Still, ...]:
    found = []
    for motor in facts.circuit.motors:
        words = words_of(facts, motor.name).items()
        met = frozenset(word for word, states in words if facts.reached_at_rest(states & where))
        found.append(Still(motor.name, met))
    return tuple(found)


def _starting(facts: Facts, digits: frozenset[int], value: int) -> tuple[str, ...]:
    motors = enumerate(facts.circuit.motors)
    return tuple(motor.name for number, motor in motors if starts_after(facts, number, digits, value))


def _unplugged(facts: Facts) -> Iterator[tuple[str, tuple[str, ...]]]:
    circuit, usual = facts.circuit, _loose(facts)
    for info in circuit.parts.values():
        if info.kind == "connector":
            pins = frozenset(number for number, one in enumerate(circuit.conductors) if one.part == info.name)
            loose = _loose(analyse(never_closing(circuit, pins))) - usual
            if loose:
                yield info.name, tuple(motor.name for motor in circuit.motors if motor.name in loose)


def _loose(facts: Facts) -> frozenset[str]:
    """The motors that come to rest neither driven nor braked."""
    motors = zip(facts.circuit.motors, facts.motors, strict=True)
    return frozenset(motor.name for motor, does in motors if facts.reached_at_rest(does.loose))
