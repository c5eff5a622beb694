"""The wires of a circuit as lists tell them, and which of them meet at a terminal."""

from typing import NamedTuple

from circuitcheck.circuit.model import Circuit, Terminal
from circuitcheck.circuit.wire_numbers import wire_numbers
from circuitcheck.sizing.around import wires_lying


class WireFacts(NamedTuple):
    """A wire as lists tell it. gauge, colour: "" where the plan doesn't tell; area_mm2, metres: 0."""

    number: str
    tail: Terminal
    head: Terminal
    colour: str
    gauge: str
    area_mm2: float
    metres: float

    def far_from(self, terminal: Terminal) -> Terminal:
        """Its other end."""
        return self.head if terminal == self.tail else self.tail


def wires_of(circuit: Circuit) -> tuple[WireFacts, ...]:
    """Every wire of a circuit, in its order."""
    numbers = wire_numbers(circuit)
    found = []
    for number, lying in zip(numbers, wires_lying(circuit), strict=True):
        conductor = circuit.conductors[lying.info.conductor]
        area = lying.gauge.area_mm2 if lying.gauge else lying.strange
        gauge = lying.gauge.name if lying.gauge else f"{area:g} mm²" if area else ""
        found.append(WireFacts(number, conductor.tail, conductor.head, lying.info.colour, gauge, area, lying.metres))
    return tuple(found)


def wires_at(wires: tuple[WireFacts, ...]) -> dict[Terminal, tuple[WireFacts, ...]]:
    """The wires of each terminal that has any."""
    found: dict[Terminal, list[WireFacts]] = {}
    for wire in wires:
        for terminal in (wire.tail, wire.head):
            found.setdefault(terminal, []).append(wire)
    return {terminal: tuple(ends) for terminal, ends in found.items()}
