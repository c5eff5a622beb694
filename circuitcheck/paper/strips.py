"""Terminal strips way by way, splices and ports: where wires meet that end at no other part."""

from typing import NamedTuple

from circuitcheck.circuit.model import Circuit, PartInfo, Terminal
from circuitcheck.paper.crowding import JOINTS
from circuitcheck.paper.joints import WireFacts, wires_at, wires_of


class Way(NamedTuple):
    """One terminal of a strip, a splice or a port, and the wires that meet there."""

    terminal: Terminal
    wires: tuple[WireFacts, ...]

    @property
    def mark(self) -> str:
        """What is marked on it; a splice has its name only."""
        return self.terminal.rpartition(".")[2]


class Strip(NamedTuple):
    """A strip with its ways in order, spare ones too, or a splice or port with its one."""

    part: PartInfo
    ways: tuple[Way, ...]


def strips_of(circuit: Circuit) -> tuple[Strip, ...]:
    """In the plan's order, strips before splices and ports."""
    at = wires_at(wires_of(circuit))
    found = (
        Strip(info, tuple(Way(terminal, at.get(terminal, ())) for terminal in info.terminals))
        for info in circuit.parts.values()
        if info.kind in JOINTS
    )
    return tuple(sorted(found, key=lambda strip: JOINTS.index(strip.part.kind)))
