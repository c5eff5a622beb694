"""What is claimed of ways for current that nobody drew, looked at in each state by the judge."""

from collections.abc import Callable, Iterator
from functools import partial
from itertools import product

import networkx as nx

from circuitcheck.certificates.verifier import NO_LINK, OWN_DRIVE
from circuitcheck.circuit.model import Circuit, Conductor, Load, Terminal
from tests.certificates.seen import Seen
from tests.judge.one_state import State, View, gains, leads, view

SHARES = {"motor": 0.02, "lamp": 0.05, "buzzer": 0.05, "solenoid": 0.05}
NEGLIGIBLE = 1e-6


def looks(seen: Seen) -> dict[str, Callable[[], bool]]:
    """How the judge looks at each claim."""
    circuit = seen.circuit
    parts = {one.part for one in circuit.conductors if _switches(one)}
    loads = enumerate(circuit.loads)
    return {
        **{f"{one.name} {OWN_DRIVE}": partial(_is_worked_by_itself, seen, number) for number, one in loads},
        **{f"{part} {NO_LINK}": partial(_carries_one_way, seen, part) for part in parts},
    }


def _switches(one: Conductor) -> bool:
    return one.closed is not None or one.one_way


def _is_worked_by_itself(seen: Seen, number: int) -> bool:
    """Where conductors and resistors drive the load in some state, do they in each that is reached and in which it
    does something?"""
    every = (state for state in seen.judge.every_state() if not seen.judge.judged(state).shorted)
    if not any(_is_driven(seen.circuit, state, number) for state in every):
        return True
    return not any(
        _does_something(seen, state, number) and not _is_driven(seen.circuit, state, number) for state in seen.reached
    )


def _is_driven(circuit: Circuit, state: State, number: int) -> bool:
    """Do conductors and resistors lead from a net to the load and on to one that supplies hold lower?"""
    there, load = view(circuit, state), circuit.loads[number]
    graph = there.conduction.copy()
    for one in circuit.loads:
        graph.add_edges_from([(one.a, one.b), (one.b, one.a)] if one.kind == "resistor" else [])
    over = there._replace(conduction=graph)
    rails = [end for one in circuit.supplies if state[one.digit] == 1 for end in (one.plus, one.minus)]
    return any(
        leads(over, high, enter) and leads(over, leave, low)
        for high, low in product(rails, rails)
        if max(gains(there._replace(diodes=()), there.group[low], there.group[high]), default=0.0) > NEGLIGIBLE
        for enter, leave in ((load.a, load.b), (load.b, load.a))
    )


def _does_something(seen: Seen, state: State, number: int) -> bool:
    """Does the load's relay operate, or stay so at rest? Does the load turn, glow, sound or pull at rest?"""
    load, volts = seen.circuit.loads[number], abs(seen.judge.judged(state).volts[number])
    least = SHARES.get(load.kind, float("inf")) * load.volts
    coils = [(relay.digit, one) for relay in seen.circuit.relays for one in relay.inputs if one.load == number]
    if any(volts >= coil.operate_volts - 1e-9 for _, coil in coils):
        return True
    holds = any(volts >= coil.release_volts - 1e-9 and state[digit] == 1 for digit, coil in coils)
    return (holds or volts >= least - 1e-9) and seen.is_rest(state)


def _carries_one_way(seen: Seen, part: str) -> bool:
    """Between no two nets of the part does some rest need current one way and some rest the other way?"""
    net = _nets(seen.circuit)
    pairs = {frozenset((net[one.tail], net[one.head])) for one in seen.circuit.conductors if one.part == part}
    loads = [number for number, load in enumerate(seen.circuit.loads) if _is_fed_one_way(seen, number, load)]
    for one, other in (sorted(pair) for pair in pairs if len(pair) == 2):
        needing = (_needing(seen, net, ends, loads) for ends in ((one, other), (other, one)))
        if all(any(True for _ in states) for states in needing):
            return False
    return True


def _nets(circuit: Circuit) -> dict[Terminal, Terminal]:
    """Each terminal by the first of those that are always joined to it both ways."""
    graph: nx.Graph[Terminal] = nx.Graph()
    graph.add_nodes_from(terminal for part in circuit.parts.values() for terminal in part.terminals)
    graph.add_edges_from((one.tail, one.head) for one in circuit.conductors if not _switches(one))
    return {terminal: min(joined) for joined in nx.connected_components(graph) for terminal in joined}


def _is_fed_one_way(seen: Seen, number: int, load: Load) -> bool:
    """In all states in which conductors alone make the volts of a load that is no motor and no resistor."""
    signs = set()
    for state in seen.judge.every_state() if load.kind not in ("motor", "resistor") else ():
        volts = seen.judge.judged(state).volts[number]
        alone = any(abs(abs(volts) - one) < NEGLIGIBLE for one in _straight(view(seen.circuit, state), number))
        signs |= {volts > 0} if alone and abs(volts) > NEGLIGIBLE else set()
    return len(signs) == 1


def _straight(there: View, number: int) -> set[float]:
    """What a load gains over conductors and supplies, either way."""
    a, b = there.loads[number]
    return gains(there, a, b) | gains(there, b, a) if a != b else set()


def _needing(
    seen: Seen, net: dict[Terminal, Terminal], ends: tuple[Terminal, Terminal], loads: list[int]
) -> Iterator[State]:
    """The rests at which a load is fed over what leads from net to net, and not without it."""
    between = [one for one in seen.circuit.conductors if {net[one.tail], net[one.head]} == {*ends}]
    others = tuple(one for one in seen.circuit.conductors if one not in between)
    onward = [one if net[one.tail] == ends[0] else one._replace(tail=one.head, head=one.tail) for one in between]
    passing = [
        turned._replace(one_way=True)
        for turned, one in zip(onward, between, strict=True)
        if turned == one or not one.one_way
    ]
    for state in seen.rests:
        over = view(seen.circuit._replace(conductors=(*others, *passing)), state)
        without = view(seen.circuit._replace(conductors=others), state)
        for number in loads:
            if max(_straight(over, number), default=0.0) > NEGLIGIBLE >= max(_straight(without, number), default=0.0):
                yield state
