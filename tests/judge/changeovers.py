"""A moment of a changeover, put before the judge: the contacts of moving relays stand where the example says."""

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


def in_the_moment(circuit: Circuit, example: dict[str, str], state: State) -> Judge | None:
    """The judge of the circuit as it is in that moment; None where a pole stands where it cannot be.

    Poles that the example does not name stand where their relay is. Only poles of relays that want to move may be
    anywhere else.
    """
    judge = Judge(circuit)
    by_name = {relay.name: relay for relay in circuit.relays}
    conductors: list[Conductor] = []
    for one in circuit.conductors:
        relay = by_name.get(one.part)
        if relay is None or one.closed is None:
            conductors.append(one)
            continue
        told = example.get(one.tail)
        if told is not None and not may_stand(judge, relay, state, told):
            return None
        touched = SIDES[told] if told is not None else {1 if state[relay.digit] == 1 else 0}
        closed_side = 1 if 1 in one.closed.values else 0
        if closed_side in touched:
            conductors.append(one._replace(closed=None))
    return Judge(circuit._replace(conductors=tuple(conductors)))


def may_stand(judge: Judge, relay: Relay, state: State, told: str) -> bool:
    """Is the pole where its relay is, or is the relay about to move? Only a make-before-break pole touches both."""
    here = {1 if state[relay.digit] == 1 else 0}
    if SIDES[told] == here:
        return True
    moves = any(after[relay.digit] != state[relay.digit] for after in judge.successors(state))
    return moves and (SIDES[told] != {0, 1} or relay.make_before_break)
