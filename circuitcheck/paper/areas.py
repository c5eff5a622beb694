"""Where a prop comes apart: what stays together when every connector is pulled.

A connector's plug side belongs to the parts that its wires lead to, and its socket side likewise.
"""

from typing import NamedTuple

from circuitcheck.analysis.supposed import part_of
from circuitcheck.circuit.model import Circuit, Terminal
from circuitcheck.paper.joints import wires_of

Side = tuple[str, str]
"""A part's name, and of a connector "p" or "s"; else ""."""


class Area(NamedTuple):
    """parts: that lie in it whole, in the plan's order. sides: the halves of connectors that its wires lead to."""

    parts: tuple[str, ...]
    sides: tuple[Side, ...]


def side_of(circuit: Circuit, terminal: Terminal) -> Side:
    """The part that a terminal is on, or the half of a connector."""
    info = part_of(circuit, terminal)
    return info.name, terminal.rpartition(".")[2][0] if info.kind == "connector" else ""


def areas_of(circuit: Circuit) -> tuple[Area, ...]:
    """All areas that have wires: the one with the first supply first, the others in the plan's order."""
    joined: dict[Side, set[Side]] = {}
    for wire in wires_of(circuit):
        ends = (side_of(circuit, wire.tail), side_of(circuit, wire.head))
        together = joined.get(ends[0], {ends[0]}) | joined.get(ends[1], {ends[1]})
        for side in together:
            joined[side] = together
    order = {name: number for number, name in enumerate(circuit.parts)}
    groups = {frozenset(group) for group in joined.values()}
    supplies = {supply.name for supply in circuit.supplies}

    def place(group: frozenset[Side]) -> tuple[bool, int]:
        return not any(name in supplies for name, _ in group), min(order[name] for name, _ in group)

    found = []
    for group in sorted(groups, key=place):
        sides = sorted(group, key=lambda side: (order[side[0]], side[1]))
        found.append(Area(tuple(name for name, half in sides if not half), tuple(side for side in sides if side[1])))
    return tuple(found)
