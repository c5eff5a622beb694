"""How long each wire is cut, by colour and gauge, and how much wire that takes."""

from typing import Final, NamedTuple

from circuitcheck.circuit.model import Circuit
from circuitcheck.paper.joints import WireFacts, wires_of

SPARE_METRES: Final = 0.1
"""On top of each wire: 5 cm an end for stripping, the bend behind the terminal, and a second try. Common practice, no
source."""


class Roll(NamedTuple):
    """The wires of one colour and gauge, longest first. colour, gauge: "" where the plan doesn't tell."""

    colour: str
    gauge: str
    wires: tuple[WireFacts, ...]

    @property
    def metres(self) -> float:
        """What all those whose length is known are cut to, together."""
        return sum(cut_metres(wire) for wire in self.wires)

    @property
    def unknown(self) -> int:
        """How many have no length in the plan."""
        return sum(not wire.metres for wire in self.wires)


def cut_metres(wire: WireFacts) -> float:
    """The plan's length with the spare; 0 where the plan gives none."""
    return wire.metres + SPARE_METRES if wire.metres else 0.0


def cut_list(circuit: Circuit) -> tuple[Roll, ...]:
    """All wires by colour and gauge: the thickest rolls first, those of unknown gauge last."""
    rolls: dict[tuple[float, str, str], list[WireFacts]] = {}
    for wire in wires_of(circuit):
        rolls.setdefault((-wire.area_mm2, wire.gauge, wire.colour), []).append(wire)
    return tuple(
        Roll(colour, gauge, tuple(sorted(wires, key=lambda wire: -wire.metres)))
        for (_, gauge, colour), wires in sorted(rolls.items())
    )
