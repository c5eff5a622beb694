"""Connectors pin by pin: which wires go in at the back of the plug, and which at the back of the socket."""

from typing import NamedTuple

from circuitcheck.circuit.model import Circuit, PartInfo
from circuitcheck.paper.joints import WireFacts, wires_at, wires_of


class Pin(NamedTuple):
    """number: from 1. plug, socket: the wires soldered to that half of the pair."""

    number: int
    plug: tuple[WireFacts, ...]
    socket: tuple[WireFacts, ...]


class PinOut(NamedTuple):
    """A connector with its pins by number. Behind a plug they count from left to right, seen from where its wires go
    in; behind the socket, which faces it, the same row counts from right to left."""

    part: PartInfo
    pins: tuple[Pin, ...]


def pin_outs(circuit: Circuit) -> tuple[PinOut, ...]:
    """Every connector, in the plan's order."""
    at = wires_at(wires_of(circuit))
    found = []
    for info in circuit.parts.values():
        if info.kind == "connector":
            ways = range(1, len(info.marks) // 2 + 1)
            ends = [tuple(at.get(f"{info.name}.{half}{number}", ()) for half in "ps") for number in ways]
            found.append(PinOut(info, tuple(Pin(number, *pair) for number, pair in zip(ways, ends, strict=True))))
    return tuple(found)
