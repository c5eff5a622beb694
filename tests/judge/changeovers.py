"""A moment of a changeover, put before the judge: the contacts of moving relays stand where the example says."""

from itertools import permutations

from circuitcheck.circuit.model import Circuit, Conductor, Relay
from tests.judge.one_state import State
from tests.judge.steps import Judge

SIDES = {
    "on its released side": {0},
    "on its operated side": {1},
    "between its sides": set[int](),
    "on both sides": {0, 1},
}
"""Where a pole can be told to be, and what it then touches: what it touches released (0), or operated (1)."""


def in_the_moment(judge: Judge, example: dict[str, str], state: State) -> Judge | None:
    """A judge of the circuit as it is in that moment; None where a pole stands where it cannot be.

    Poles that the example does not name stand where their relay is; of a force-guided relay, open where one that it
    does name is closed on the other side. Only poles of relays that want to move may be anywhere else.
    """
    circuit = judge.circuit
    by_name = {relay.name: relay for relay in circuit.relays}
    touched: dict[int, set[int]] = {}
    for number, one in enumerate(circuit.conductors):
        relay = by_name.get(one.part)
        if relay is not None and one.closed is not None:
            told = example.get(one.tail)
            if told is not None and not may_stand(judge, relay, state, told):
                return None
            touched[number] = SIDES[told] if told is not None else {1 if state[relay.digit] == 1 else 0}
    closed = {number for number, sides in touched.items() if closing_side(circuit.conductors[number]) in sides}
    if (guided := as_guided(circuit, example, closed)) is None:
        return None
    conductors = [
        one._replace(closed=None) if number in guided else one
        for number, one in enumerate(circuit.conductors)
        if number not in touched or number in guided
    ]
    return Judge(circuit._replace(conductors=tuple(conductors)))


def closing_side(contact: Conductor) -> int:
    """1 for a contact that its relay closes when it operates."""
    return 1 if contact.closed is not None and 1 in contact.closed.values else 0


def as_guided(circuit: Circuit, example: dict[str, str], closed: set[int]) -> set[int] | None:
    """Those of the closed contacts that are closed all the same where their relay is force-guided (EN 50205): opposite
    ones never are. None where two that the example names are."""
    guided = [number for number in closed if "force-guided" in circuit.parts[circuit.conductors[number].part].features]
    left = set(closed)
    for one, other in permutations(guided, 2):
        here, there = circuit.conductors[one], circuit.conductors[other]
        if here.part == there.part and closing_side(here) != closing_side(there) and here.tail in example:
            if there.tail in example:
                return None
            left.discard(other)
    return left


def may_stand(judge: Judge, relay: Relay, state: State, told: str) -> bool:
    """Is the pole where its relay is, or is the relay about to move? Only a make-before-break pole touches both."""
    here = {1 if state[relay.digit] == 1 else 0}
    if SIDES[told] == here:
        return True
    moves = any(after[relay.digit] != state[relay.digit] for after in judge.successors(state))
    return moves and (SIDES[told] != {0, 1} or relay.make_before_break)
