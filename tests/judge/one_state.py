"""One state of a circuit: which conductors are closed, where they lead, and whether a supply is shorted."""

from collections import deque
from collections.abc import Iterable
from itertools import product
from typing import NamedTuple

import networkx as nx

from circuitcheck.circuit.model import Circuit, Conductor, Terminal

State = tuple[int, ...]
"""A value for each of the circuit's digits, in their order."""
Group = int
"""Terminals between which current can pass both ways, through conductors alone."""


class Joined(NamedTuple):
    """`low` to `high` gains `volts`; a supply that is on."""

    low: Group
    high: Group
    volts: float


class View(NamedTuple):
    """A state as the current sees it.

    conduction: the closed conductors, terminal to terminal, in their directions. group: of each terminal.
    rails: of each supply, the terminals always joined to its + and to its −. diodes: (from, to) between groups, where
    current can pass one way only. supplies: those that are on. loads: the groups of each load's `a` and `b`.
    """

    conduction: "nx.DiGraph[Terminal]"
    rails: tuple[tuple[frozenset[Terminal], frozenset[Terminal]], ...]
    group: dict[Terminal, Group]
    diodes: tuple[tuple[Group, Group], ...]
    supplies: tuple[Joined, ...]
    loads: tuple[tuple[Group, Group], ...]


def is_closed(conductor: Conductor, state: State) -> bool:
    """Does this conductor conduct?"""
    return conductor.closed is None or state[conductor.closed.digit] in conductor.closed.values


def conduction_graph(circuit: Circuit, state: State) -> "nx.DiGraph[Terminal]":
    """Every terminal, with an edge where a closed conductor lets current pass."""
    graph: nx.DiGraph[Terminal] = nx.DiGraph()
    for part in circuit.parts.values():
        graph.add_nodes_from(part.terminals)
    for conductor in circuit.conductors:
        if is_closed(conductor, state):
            graph.add_edge(conductor.tail, conductor.head)
            if not conductor.one_way:
                graph.add_edge(conductor.head, conductor.tail)
    return graph


def view(circuit: Circuit, state: State) -> View:
    """The state as the current sees it."""
    graph = conduction_graph(circuit, state)
    group = {
        terminal: number
        for number, members in enumerate(nx.strongly_connected_components(graph))
        for terminal in members
    }
    diodes = {(group[tail], group[head]) for tail, head in graph.edges if group[tail] != group[head]}
    supplies = tuple(
        Joined(group[one.minus], group[one.plus], one.volts) for one in circuit.supplies if state[one.digit] == 1
    )
    loads = tuple((group[load.a], group[load.b]) for load in circuit.loads)
    return View(graph, supply_rails(circuit), group, tuple(sorted(diodes)), supplies, loads)


def supply_rails(circuit: Circuit) -> tuple[tuple[frozenset[Terminal], frozenset[Terminal]], ...]:
    """The terminals that wires, fuses and pins always join to each supply's + and −."""
    always: nx.Graph[Terminal] = nx.Graph()
    always.add_nodes_from(terminal for one in circuit.supplies for terminal in (one.plus, one.minus))
    always.add_edges_from((one.tail, one.head) for one in circuit.conductors if one.closed is None and not one.one_way)
    joined = [frozenset(nx.node_connected_component(always, one.plus)) for one in circuit.supplies]
    back = [frozenset(nx.node_connected_component(always, one.minus)) for one in circuit.supplies]
    return tuple(zip(joined, back, strict=True))


def leads(seen: View, start: Terminal, end: Terminal) -> bool:
    """Can current pass from one terminal to the other through conductors alone?

    A way may go over a rail, but not over both rails of one supply: with the supply on that is a short, or runs against
    it; with the supply off it leads through half the box, and is nothing to count on.
    """
    if start == end or not nx.has_path(seen.conduction, start, end):
        return start == end
    for shut in product(*(pair for pair in seen.rails if pair[0] != pair[1])):
        closed_off = frozenset().union(*shut)
        if not closed_off & {start, end}:
            open_part = seen.conduction.subgraph(seen.conduction.nodes - closed_off)
            if nx.has_path(open_part, start, end):
                return True
    return False


def bridges_a_supply_that_is_off(circuit: Circuit, state: State, seen: View) -> bool:
    """Do conductors join + and − of a supply that is off, beside one that is on?"""
    if not seen.supplies:
        return False
    off = [(one.plus, one.minus) for one in circuit.supplies if state[one.digit] == 0]
    return any(nx.has_path(seen.conduction, a, b) or nx.has_path(seen.conduction, b, a) for a, b in off)


def gains(seen: View, start: Group, end: Group, without: int | None = None, loads: Iterable[int] = ()) -> set[float]:
    """The volts that current can gain on its ways from start to end, each supply passed once at most, up or down.

    without: a supply that must not be passed. loads: those that may be passed, either way.
    """
    plain = list(seen.diodes)
    for number in loads:
        plain += [seen.loads[number], seen.loads[number][::-1]]
    unused = frozenset(range(len(seen.supplies))) - {without}
    begun = (start, unused, 0.0)
    known, waiting = {begun}, deque([begun])
    while waiting:
        here, left, volts = waiting.popleft()
        onward = [(head, left, volts) for tail, head in plain if tail == here]
        for number in left:
            supply = seen.supplies[number]
            if here == supply.low:
                onward.append((supply.high, left - {number}, volts + supply.volts))
            if here == supply.high:
                onward.append((supply.low, left - {number}, volts - supply.volts))
        for one in onward:
            if one not in known:
                known.add(one)
                waiting.append(one)
    return {volts for here, _, volts in known if here == end}


def is_shorted(seen: View) -> bool:
    """Do conductors close a loop through supplies whose volts don't cancel, but drive a current round it?"""
    for number, supply in enumerate(seen.supplies):
        if any(gain + supply.volts > 1e-9 for gain in gains(seen, supply.high, supply.low, number)):
            return True
        if any(gain - supply.volts > 1e-9 for gain in gains(seen, supply.low, supply.high, number)):
            return True
    return False
