"""What a drawing shows of a state: which contacts are closed, and what carries current."""

from typing import NamedTuple

from circuitcheck.analysis.devices import WEAK_SHARE
from circuitcheck.analysis.facts import analyse
from circuitcheck.analysis.held import held_in
from circuitcheck.analysis.lit import Lit
from circuitcheck.analysis.single_state import State, conducts
from circuitcheck.circuit.model import Circuit


class Shown(NamedTuple):
    """closed: the conductors that are closed. conductors, loads: "lit", "brake" or "short" for those that carry a
    current of a fed load, of a braked motor, or of a short."""

    closed: frozenset[int]
    conductors: dict[int, str]
    loads: dict[int, str]


def at_rest(circuit: Circuit, state: State) -> Shown:
    """The contacts of a state in which nothing is fed."""
    closed = frozenset(number for number, one in enumerate(circuit.conductors) if conducts(one, state))
    return Shown(closed, {}, {})


def shown_in(circuit: Circuit, state: State) -> Shown:
    """What a state shows. Raises TooManyCases where what flows has no exact answer within reach."""
    facts = analyse(held_in(circuit, state))
    lit, closed = Lit(facts), at_rest(circuit, state).closed
    words = {number: word for number in closed if (word := lit[number].word_in(state))}
    loads = {}
    for number, load in enumerate(circuit.loads):
        fed = (one for one in facts.volts[number] if state in one.forward or state in one.backward)
        if any(one.volts >= WEAK_SHARE * load.volts for one in fed) and state not in facts.shorted:
            loads[number] = "lit"
    for motor, does in zip(circuit.motors, facts.motors, strict=True):
        if state in does.braked and state not in facts.shorted:
            loads |= {winding.load: "brake" for winding in motor.windings}
    return Shown(closed, words, loads)
