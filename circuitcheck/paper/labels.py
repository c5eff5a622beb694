"""What is stuck on: a label at each end of every wire, and one on each part."""

from typing import NamedTuple

from circuitcheck.circuit.model import Circuit, Terminal
from circuitcheck.paper.wire_list import wire_list


class WireLabel(NamedTuple):
    """The wire's number, and the terminal that this end belongs to."""

    number: str
    terminal: Terminal


class PartLabel(NamedTuple):
    """A part's name, and what the plan calls it besides ("" where it doesn't)."""

    name: str
    label: str


class Labels(NamedTuple):
    """wires: two for each wire, in soldering order, so that they are peeled off as the work goes on."""

    wires: tuple[WireLabel, ...]
    parts: tuple[PartLabel, ...]


def labels_of(circuit: Circuit) -> Labels:
    """Every label of a prop. An axis is nothing that a label sticks to."""
    wires = [
        WireLabel(line.wire.number, end.terminal) for line in wire_list(circuit).lines for end in (line.start, line.end)
    ]
    parts = [PartLabel(info.name, info.label) for info in circuit.parts.values() if info.kind != "axis"]
    return Labels(tuple(wires), tuple(parts))
