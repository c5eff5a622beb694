"""What is claimed of axes that move by themselves and of relays that race, looked at in each state by the judge."""

from collections.abc import Callable, Iterator
from functools import partial

import networkx as nx

from circuitcheck.certificates.verifier import ALIKE, GETS_THERE, NOT_AGAIN, STEADY
from circuitcheck.circuit.model import Axis
from tests.certificates.seen import DRIVEN, Seen, changed, following
from tests.judge.claims import directions
from tests.judge.one_state import State
from tests.judge.steps import with_value


def looks(seen: Seen) -> dict[str, Callable[[], bool]]:
    """How the judge looks at each claim."""
    found: dict[str, Callable[[], bool]] = {}
    for axis in seen.circuit.axes:
        found[f"{axis.name} {STEADY}"] = partial(_is_steady, seen, axis)
        found[f"{axis.name} {GETS_THERE}"] = partial(_gets_there, seen, axis)
        found[f"{axis.name} {NOT_AGAIN}"] = partial(_does_not_chatter, seen, axis)
    return found | {f"{one.name} {ALIKE}": partial(_ends_alike, seen, one.digit) for one in seen.circuit.relays}


def _by_itself(seen: Seen, state: State) -> set[State]:
    """What relays, timers and axes do with all controls and supplies left alone."""
    own = {*(one.digit for one in seen.circuit.relays), *(one.digit for one in seen.circuit.axes)}
    return {there for there in seen.judge.successors(state) - {state} if changed(state, there) in own}


def _is_steady(seen: Seen, axis: Axis) -> bool:
    """Does no round of what moves by itself drive the axis both ways?"""
    graph: nx.DiGraph[State] = nx.DiGraph()
    for state in seen.reached:
        graph.add_edges_from((state, there) for there in _by_itself(seen, state))
    for group in nx.strongly_connected_components(graph):
        moving = [one for one, there in graph.subgraph(group).edges if one[axis.digit] != there[axis.digit]]
        if set().union(*(directions(seen.judge, one, axis) for one in moving)) == {1, -1}:
            return False
    return True


def _gets_there(seen: Seen, axis: Axis) -> bool:
    """Is it driven from the zone before each end to there, in some state that is reached?"""
    first, last = axis.range
    return all(
        any(state[axis.digit] == zone and way in directions(seen.judge, state, axis) for state in seen.rests)
        for zone, way in ((last - 1, 1), (first + 1, -1))
    )


def _does_not_chatter(seen: Seen, axis: Axis) -> bool:
    """From no rest at which nothing holds it does the axis go one zone off a limit, and what then moves by itself lead
    back to the same state?"""
    motors = [one.name for one in seen.circuit.motors if one.axis is not None and seen.circuit.axes[one.axis] is axis]
    holding = {*DRIVEN} if axis.springs_back else {*DRIVEN, "braked"}
    for state in seen.rests:
        touched = any(
            one.springs_to not in (None, value) for one, value in zip(seen.circuit.digits, state, strict=True)
        )
        if not touched and not any(seen.word(motor, state) in holding for motor in motors):
            for zone in _off_a_limit(seen, axis, state[axis.digit]):
                begun = with_value(state, axis.digit, zone)
                if state in following({begun}, partial(_by_itself, seen)):
                    return False
    return True


def _off_a_limit(seen: Seen, axis: Axis, zone: int) -> Iterator[int]:
    first, last = axis.range
    for limit in seen.circuit.limits:
        if seen.circuit.axes[limit.axis] is axis and zone in limit.zones:
            beside = ((zone + way) % (last + 1) if axis.turning else zone + way for way in (1, -1))
            yield from (one for one in beside if first <= one <= last and one not in limit.zones)


def _ends_alike(seen: Seen, digit: int) -> bool:
    """From power-up, and after each change, do all orders that relays' times leave end with the relay at one value?"""
    for graph in seen.changes:
        ends = {one.state[digit] for one in graph if not seen.judge.relays_moved(one.state)}
        if len(ends) > 1:
            return False
    return True
