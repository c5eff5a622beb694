"""The resistance of wires and contacts that a motor's current passes, in every state of a set.

One way of current through the closed contacts of a state is an upper bound for it: what lies beside it only helps. So a
way is found for one state, all states in which its contacts are closed are covered by it, and so on until none is left.
"""

from collections.abc import Iterator
from itertools import pairwise
from typing import NamedTuple

from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.resistances import Setting, conductor_ohms
from circuitcheck.analysis.single_state import State, conducts, current_path
from circuitcheck.analysis.states import States
from circuitcheck.circuit.model import Conductor, Terminal


class Loop(NamedTuple):
    """ohms: the most that wires and contacts on the way have. unmeasured: wires on the way of which the plan gives no
    length or no gauge, by name; they count for nothing."""

    ohms: float
    unmeasured: tuple[str, ...]


def loop_of(facts: Facts, start: Terminal, end: Terminal, states: States, celsius: float) -> Loop:
    """The way of current from one terminal to another in those of the states in which conductors alone lead there, at
    a temperature of the wires."""
    ohms = conductor_ohms(facts.circuit, Setting(wire_celsius=celsius))
    worst, unmeasured = 0.0, dict[str, None]()
    for way in _ways(facts, start, end, states):
        worst = max(worst, sum(ohms[number] for number in way))
        wires = (facts.circuit.conductors[number] for number in way if not ohms[number])
        unmeasured |= {wire.name: None for wire in wires if wire.kind == "wire"}
    return Loop(worst, tuple(unmeasured))


def together(loops: list[Loop]) -> Loop:
    """Loops one after the other."""
    return Loop(sum(one.ohms for one in loops), tuple(dict.fromkeys(name for one in loops for name in one.unmeasured)))


def _ways(facts: Facts, start: Terminal, end: Terminal, states: States) -> Iterator[list[int]]:
    """Ways, as conductors by number, of which every state of the set has one."""
    digits = range(len(facts.circuit.digits))
    left = (states & facts.conduction.leads(start, end)).tight()
    while left:
        state = dict.fromkeys(digits, 0) | left.space.values((left.bits & -left.bits).bit_length() - 1)
        path = current_path(facts.circuit, state, start, end)
        way = [_between(facts.circuit.conductors, state, *ends) for ends in pairwise(path)]
        covered = facts.spaces.all()
        for number in way:
            closed = facts.circuit.conductors[number].closed
            if closed is not None:
                covered = covered & facts.spaces.where(closed.digit, closed.values)
        yield way
        left = (left - covered).tight()


def _between(conductors: tuple[Conductor, ...], state: State, tail: Terminal, head: Terminal) -> int:
    """The closed conductor between two terminals."""
    return next(
        number
        for number, one in enumerate(conductors)
        if conducts(one, state) and (tail, head) in ((one.tail, one.head), (one.head, one.tail))
    )
