"""The volts across a load in one state.

Where conductors join a load to a supply and nothing else could raise its volts, they are the supply's (a diode's drop
doesn't count). Otherwise the whole network is solved by nodal analysis in exact fractions: what supplies and conductors
hold together is one body with one unknown; each choice of conducting diodes is tried until one agrees with itself.
"""

from fractions import Fraction
from functools import cache
from itertools import combinations
from typing import NamedTuple

import networkx as nx

from circuitcheck.circuit.model import Circuit
from tests.judge.one_state import Group, View, gains

DIODE_VOLTS = Fraction(7, 10)
DIODE_OHMS = Fraction(1, 100)
LEAK_SIEMENS = Fraction(1, 10**18)
"""Every body leaks a little to ground, so that one on which nothing pulls has volts at all."""


class Branch(NamedTuple):
    """Between two groups: `volts` at no current, `ohms` in series."""

    tail: Group
    head: Group
    volts: Fraction
    ohms: Fraction


def load_volts(circuit: Circuit, seen: View, number: int) -> float:
    """Positive where the load's `a` is the positive end. The state must not be shorted."""
    a, b = seen.loads[number]
    if a == b:
        return 0.0
    others = [other for other in range(len(circuit.loads)) if other != number]
    straight = max(gains(seen, b, a), default=0.0), max(gains(seen, a, b), default=0.0)
    most = max(gains(seen, b, a, loads=others) | gains(seen, a, b, loads=others), default=0.0)
    if most <= 0:
        return 0.0
    if max(straight) >= most:
        return straight[0] if straight[0] >= straight[1] else -straight[1]
    volts = network_volts(circuit, seen)
    return float(volts[a] - volts[b])


def network_volts(circuit: Circuit, seen: View) -> dict[Group, Fraction]:
    """The volts of each group against a ground of no importance."""
    loads = tuple(
        Branch(*ends, Fraction(0), Fraction(load.ohms).limit_denominator(10**6))
        for ends, load in zip(seen.loads, circuit.loads, strict=True)
        if ends[0] != ends[1]
    )
    sources = tuple((one.low, one.high, Fraction(one.volts).limit_denominator(10**6)) for one in seen.supplies)
    return solve(frozenset(seen.group.values()), loads, seen.diodes, sources)


@cache
def solve(
    groups: frozenset[Group],
    loads: tuple[Branch, ...],
    diodes: tuple[tuple[Group, Group], ...],
    sources: tuple[tuple[Group, Group, Fraction], ...],
) -> dict[Group, Fraction]:
    """The one distribution of volts with which every load, diode and source agrees."""
    body, offset = bodies(groups, sources)
    between = [one for one in diodes if body[one[0]] != body[one[1]]]
    for count in range(len(between) + 1):
        for conducting in combinations(between, count):
            branches = loads + tuple(Branch(*one, DIODE_VOLTS, DIODE_OHMS) for one in conducting)
            level = body_volts(body, offset, branches)
            volts = {group: level[body[group]] + offset[group] for group in groups}
            if all((volts[a] - volts[b] >= DIODE_VOLTS) == ((a, b) in conducting) for a, b in between):
                return volts
    raise AssertionError("no choice of conducting diodes agrees with its own volts")


def bodies(
    groups: frozenset[Group], sources: tuple[tuple[Group, Group, Fraction], ...]
) -> tuple[dict[Group, int], dict[Group, Fraction]]:
    """What sources hold together: the body of each group, and its volts above the body's own level."""
    held: nx.Graph[Group] = nx.Graph()
    held.add_nodes_from(sorted(groups))
    for low, high, volts in sources:
        held.add_edge(low, high, high=high, volts=volts)
    body: dict[Group, int] = {}
    offset: dict[Group, Fraction] = {}
    for number, members in enumerate(nx.connected_components(held)):
        first = min(members)
        body[first], offset[first] = number, Fraction(0)
        for here, there in nx.bfs_edges(held, first):
            edge = held.edges[here, there]
            body[there] = number
            offset[there] = offset[here] + (edge["volts"] if edge["high"] == there else -edge["volts"])
    return body, offset


def body_volts(body: dict[Group, int], offset: dict[Group, Fraction], branches: tuple[Branch, ...]) -> list[Fraction]:
    """Each body's level: the currents out of each body add up to nothing."""
    count = len(set(body.values()))
    rows = [[Fraction(0)] * (count + 1) for _ in range(count)]
    for number in range(count):
        rows[number][number] = LEAK_SIEMENS
    for one in branches:
        tail, head = body[one.tail], body[one.head]
        if tail == head:
            continue
        siemens = 1 / one.ohms
        driving = (offset[one.tail] - offset[one.head] - one.volts) * siemens
        for here, there, current in ((tail, head, driving), (head, tail, -driving)):
            rows[here][here] += siemens
            rows[here][there] -= siemens
            rows[here][-1] -= current
    return eliminate(rows)


def eliminate(rows: list[list[Fraction]]) -> list[Fraction]:
    """Solves the equations, exactly: the last column is the right-hand side."""
    for number in range(len(rows)):
        pivot = next(row for row in range(number, len(rows)) if rows[row][number])
        rows[number], rows[pivot] = rows[pivot], rows[number]
        top = [value / rows[number][number] for value in rows[number]]
        rows = [
            top if row == number else [a - line[number] * b for a, b in zip(line, top, strict=True)]
            for row, line in enumerate(rows)
        ]
    return [row[-1] for row in rows]
