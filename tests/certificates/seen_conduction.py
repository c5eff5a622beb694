"""What is claimed of any combination, looked at in each state by the judge."""

from collections.abc import Callable
from functools import partial
from itertools import product

import networkx as nx

from circuitcheck.certificates.verifier import FUSED, MATCHED, NO_SHORT, NO_SHORT_MOVING, SUPPRESSED
from circuitcheck.circuit.model import Circuit, Suppressor, Terminal
from tests.certificates.seen import Seen
from tests.judge.changeovers import SIDES, in_the_moment
from tests.judge.one_state import State, gains, view
from tests.judge.steps import Judge


def looks(seen: Seen) -> dict[str, Callable[[], bool]]:
    """How the judge looks at each claim."""
    circuit = seen.circuit
    coils = [circuit.loads[coil.load].name for relay in circuit.relays for coil in relay.inputs]
    return {
        NO_SHORT: lambda: not any(seen.judge.judged(state).shorted for state in seen.judge.every_state()),
        NO_SHORT_MOVING: lambda: not any(_is_shorted_in_a_moment(seen, state) for state in seen.reached),
        **{f"{one.name} {FUSED}": partial(_is_fused, seen, one.name) for one in circuit.supplies},
        **{f"{name} {MATCHED}": partial(_is_matched, seen, name) for name in coils},
        **{f"{one.name} {SUPPRESSED}": partial(_is_suppressed, seen, one.name) for one in circuit.loads},
    }


def _is_shorted_in_a_moment(seen: Seen, state: State) -> bool:
    """Does some position of the poles of relays that may go from here short a supply?"""
    wishes = {wish.digit for wish in seen.judge.judged(state).wishes}
    moving = {relay.name for relay in seen.circuit.relays if relay.digit in wishes}
    poles = {one.tail: None for one in seen.circuit.conductors if one.closed and one.part in moving}
    for places in product(SIDES, repeat=len(poles)):
        then = in_the_moment(seen.judge, dict(zip(poles, places, strict=True)), state)
        if then is not None and then.judged(state).shorted:
            return True
    return False


def _is_fused(seen: Seen, name: str) -> bool:
    """Once all fuses are out and all contacts closed, does nothing lead from + to − of the supply any more?"""
    graph: nx.DiGraph[Terminal] = nx.DiGraph()
    for one in seen.circuit.conductors:
        if one.kind != "fuse":
            graph.add_edges_from([(one.tail, one.head), *([] if one.one_way else [(one.head, one.tail)])])
    for load in seen.circuit.loads:
        graph.add_edges_from([(load.a, load.b), (load.b, load.a)])
    supply = next(one for one in seen.circuit.supplies if one.name == name)
    graph.add_edges_from((one.minus, one.plus) for one in seen.circuit.supplies if one != supply)
    graph.add_nodes_from([supply.plus, supply.minus])
    return not nx.has_path(graph, supply.plus, supply.minus)


def _is_matched(seen: Seen, name: str) -> bool:
    """In every state in which conductors alone make its volts, are these what it operates at or more, and no more than
    110 % of its rated volts?"""
    number = [one.name for one in seen.circuit.loads].index(name)
    coil = next(one for relay in seen.circuit.relays for one in relay.inputs if one.load == number)
    most = 1.1 * seen.circuit.loads[number].volts
    for state in seen.judge.every_state():
        there, volts = view(seen.circuit, state), abs(seen.judge.judged(state).volts[number])
        a, b = there.loads[number]
        alone = any(abs(volts - one) < 1e-6 for one in (*gains(there, a, b), *gains(there, b, a)))
        if alone and volts > 1e-6 and not coil.operate_volts - 1e-6 <= volts <= most + 1e-6:
            return False
    return True


def _is_suppressed(seen: Seen, name: str) -> bool:
    """Is there something straight across the load, and no volts in the direction of a diode there in any state,
    but for what the diodes there take?"""
    number = [one.name for one in seen.circuit.loads].index(name)
    load, every = seen.circuit.loads[number], list(seen.judge.every_state())
    wires = tuple(one for one in seen.circuit.conductors if one.kind == "wire")
    joined = view(seen.circuit._replace(conductors=wires), every[0]).group
    across = [
        one for one in seen.circuit.suppressors if {joined[one.a], joined[one.b]} == {joined[load.a], joined[load.b]}
    ]
    bare = Judge(_without(seen.circuit, across))
    along = [1 if joined[one.a] == joined[load.a] else -1 for one in across if one.kind == "diode"]
    against = any(way * bare.judged(state).volts[number] > 1e-6 for way in along for state in every)
    return len(across) > len(along) or (bool(along) and not against)


def _without(circuit: Circuit, suppressors: list[Suppressor]) -> Circuit:
    ends = {(one.a, one.b) for one in suppressors}
    return circuit._replace(
        conductors=tuple(one for one in circuit.conductors if not one.one_way or (one.tail, one.head) not in ends)
    )
