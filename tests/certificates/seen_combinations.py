"""What is claimed of some combination, looked for in each state by the judge."""

from collections.abc import Callable, Iterator
from functools import partial
from itertools import pairwise

import networkx as nx

from circuitcheck.certificates.verifier import (
    APART,
    CAN_BE_OFF,
    CAN_OPERATE,
    FED,
    FED_OR_BRAKES,
    MATTERS,
    ON_A_LOOP,
    OWN_NAMES,
    WIRED,
)
from circuitcheck.circuit.model import Circuit, Closed, Conductor, Load, PartInfo
from tests.certificates.seen import DRIVEN, Seen
from tests.judge.one_state import State, leads, view
from tests.judge.steps import Judge


def looks(seen: Seen) -> dict[str, Callable[[], bool]]:
    """How the judge looks at each claim."""
    circuit = seen.circuit
    coils = [circuit.loads[coil.load].name for relay in circuit.relays for coil in relay.inputs]
    lamps = [one.part for one in circuit.loads if one.kind in ("lamp", "buzzer", "solenoid")]
    switched = [*(one.name for one in circuit.motors), *(one.name for one in circuit.relays), *lamps]
    return {
        **{f"{name} {CAN_BE_OFF}": partial(_can_be_off, seen, name) for name in switched},
        **{f"{name} {CAN_OPERATE}": partial(_can_operate, seen, name) for name in coils},
        **{f"{one.name} {APART}": partial(_has_ends_apart, seen, one) for one in circuit.loads},
        **{f"{name} {FED}": partial(_is_fed, seen, name) for name in circuit.parts},
        **{f"{name} {FED_OR_BRAKES}": partial(_is_fed_or_brakes, seen, name) for name in circuit.parts},
        **{f"{name} {ON_A_LOOP}": partial(_is_on_a_loop, circuit, name) for name in circuit.parts},
        **{f"{name} {MATTERS}": partial(_matters, seen, name) for name in circuit.parts},
        OWN_NAMES: lambda: not circuit.repeated,
        WIRED: lambda: not any(_lacks_a_wire(circuit, part) for part in circuit.parts.values()),
    }


def _proper(seen: Seen) -> Iterator[State]:
    return filter(seen.judge.is_proper, seen.judge.every_state())


def _can_be_off(seen: Seen, name: str) -> bool:
    """With all supplies on?"""
    supplies = [supply.digit for supply in seen.circuit.supplies]
    return any(all(one[digit] == 1 for digit in supplies) and not _is_on(seen, name, one) for one in _proper(seen))


def _is_on(seen: Seen, name: str, state: State) -> bool:
    verdict = seen.judge.judged(state)
    if name in (motor.name for motor in seen.circuit.motors):
        return seen.word(name, state) in DRIVEN
    for relay in seen.circuit.relays:
        working = relay.control or relay.coil
        if relay.name == name:
            return abs(verdict.volts[working.load]) >= working.operate_volts - 1e-9
    return any(verdict.lamps.get(number) == "lit" for number, one in enumerate(seen.circuit.loads) if one.part == name)


def _can_operate(seen: Seen, name: str) -> bool:
    number = [one.name for one in seen.circuit.loads].index(name)
    coil = next(one for relay in seen.circuit.relays for one in relay.inputs if one.load == number)
    return any(abs(seen.judge.judged(state).volts[number]) >= coil.operate_volts - 1e-9 for state in _proper(seen))


def _has_ends_apart(seen: Seen, load: Load) -> bool:
    seen_by_current = (view(seen.circuit, state) for state in _proper(seen))
    return not all(leads(one, load.a, load.b) and leads(one, load.b, load.a) for one in seen_by_current)


def _gets_volts(seen: Seen, number: int) -> bool:
    return any(abs(seen.judge.judged(state).volts[number]) > 1e-9 for state in _proper(seen))


def _is_fed(seen: Seen, name: str) -> bool:
    """Each load of its own."""
    loads = [(number, one) for number, one in enumerate(seen.circuit.loads) if one.part == name]
    return all(_gets_volts(seen, number) for number, one in loads if one.kind != "resistor" or one.name == name)


def _is_fed_or_brakes(seen: Seen, name: str) -> bool:
    (load,) = (one for one in seen.circuit.loads if one.name == name)
    if _is_fed(seen, name):
        return True
    windings = [winding for motor in seen.circuit.motors for winding in motor.windings]
    ends = ((load.a, load.b), (load.b, load.a))
    return _is_on_a_loop(seen.circuit, name) and any(
        leads(one, winding.plus, high) and leads(one, low, winding.minus)
        for one in (view(seen.circuit, state) for state in _proper(seen))
        for winding in windings
        for high, low in ends
    )


def _is_on_a_loop(circuit: Circuit, name: str) -> bool:
    """Each branch is cut in two, so that those side by side make a loop."""
    branches = [(one.name, one.plus, one.minus) for one in circuit.supplies]
    branches += [(one.part, one.a, one.b) for one in circuit.loads]
    branches += [(one.part, one.tail, one.head) for one in circuit.conductors]
    graph: nx.Graph[str | int] = nx.Graph()
    for number, (_, a, b) in enumerate(branches):
        graph.add_edges_from(pairwise((a, number, b)))
    supplies = {supply.name for supply in circuit.supplies}
    for block in nx.biconnected_component_edges(graph):
        within = {end for way in block for end in way if isinstance(end, int)}
        names = {branches[one][0] for one in within}
        if len(within) > 1 and name in names and names & supplies:
            return True
    return False


def _ends_of_wires(circuit: Circuit) -> set[str]:
    return {end for one in circuit.conductors if one.kind == "wire" for end in (one.tail, one.head)}


def _lacks_a_wire(circuit: Circuit, part: PartInfo) -> bool:
    bare = set(part.terminals) - _ends_of_wires(circuit)
    return bool(bare) and (not bare <= part.optional or len(bare) == len(part.terminals))


def _matters(seen: Seen, name: str) -> bool:
    """Each contact of a part that is wired, with those that stand side by side with it and close when it does."""
    wired = _ends_of_wires(seen.circuit)
    contacts = [one for one in seen.circuit.conductors if one.kind == "contact" and {one.tail, one.head} <= wired]
    own = (one for one in contacts if one.part == name)
    return all(_changes_something(seen, _alike(seen.circuit, contacts, one)) for one in own)


def _alike(circuit: Circuit, contacts: list[Conductor], contact: Conductor) -> list[Conductor]:
    always: nx.Graph[str] = nx.Graph()
    always.add_nodes_from(terminal for part in circuit.parts.values() for terminal in part.terminals)
    always.add_edges_from((one.tail, one.head) for one in circuit.conductors if one.closed is None and not one.one_way)

    def ends(one: Conductor) -> list[frozenset[str]]:
        found = [frozenset(nx.node_connected_component(always, end)) for end in (one.tail, one.head)]
        return found if one.one_way else sorted(found, key=min)

    mark = (contact.closed, contact.one_way, ends(contact))
    return [one for one in contacts if (one.closed, one.one_way, ends(one)) == mark]


def _changes_something(seen: Seen, contacts: list[Conductor]) -> bool:
    circuit = seen.circuit
    held_open = Judge(
        circuit._replace(
            conductors=tuple(
                one._replace(closed=Closed(one.closed.digit, frozenset())) if one in contacts and one.closed else one
                for one in circuit.conductors
            )
        )
    )
    closed = contacts[0].closed
    return any(
        _is_other(seen.judge, held_open, state)
        for state in _proper(seen)
        if closed is None or state[closed.digit] in closed.values
    )


def _is_other(before: Judge, after: Judge, state: State) -> bool:
    was, now = before.judged(state), after.judged(state)
    return (
        was.shorted != now.shorted
        or was.motors != now.motors
        or any(abs(one - other) > 1e-6 for one, other in zip(was.volts, now.volts, strict=True))
        or _braking(before.circuit, state) != _braking(after.circuit, state)
    )


def _braking(circuit: Circuit, state: State) -> list[bool]:
    """Which resistors stand across which brushes."""
    now = view(circuit, state)
    return [
        leads(now, winding.plus, high) and leads(now, low, winding.minus)
        for motor in circuit.motors
        for winding in motor.windings
        for load in circuit.loads
        if load.kind == "resistor"
        for high, low in ((load.a, load.b), (load.b, load.a))
    ]
