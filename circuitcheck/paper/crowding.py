"""Terminals at which three wires or more would end, and what helps.

A screw or a solder tag takes two wires well (common practice, no source). Splices and the ways of a terminal strip are
there to take more, and so is a module's port, which is a joint of the builder's choice; they are not counted. A
supply's terminals are: they are screws, not a bar.
"""

from collections.abc import Iterator
from itertools import count
from typing import Final, NamedTuple

from circuitcheck.analysis.supposed import part_of
from circuitcheck.circuit.model import Circuit, Terminal
from circuitcheck.paper.joints import WireFacts, wires_at, wires_of

MOST_ENDS: Final = 2
JOINTS: Final = ("strip", "splice", "port")


class Detour(NamedTuple):
    """A wire that may end at `over` instead, which has room for it and stays joined to the crowded terminal."""

    wire: WireFacts
    over: Terminal


class Crowd(NamedTuple):
    """wires: all that end at the terminal. splice: a free name for one. detours: enough of them that two wires are left
    at the terminal, or none where that can't be had."""

    terminal: Terminal
    wires: tuple[WireFacts, ...]
    splice: str
    detours: tuple[Detour, ...]


def crowds_of(circuit: Circuit) -> tuple[Crowd, ...]:
    """Every terminal with too many wire ends, in the plan's order."""
    at, names = wires_at(wires_of(circuit)), _free_names(circuit)
    return tuple(
        Crowd(terminal, at[terminal], next(names), _detours(circuit, terminal, at))
        for info in circuit.parts.values()
        if info.kind not in JOINTS
        for terminal in info.terminals
        if len(at.get(terminal, ())) > MOST_ENDS
    )


def _free_names(circuit: Circuit) -> Iterator[str]:
    return (name for name in (f"N{number}" for number in count(1)) if name not in circuit.parts)


def _detours(circuit: Circuit, terminal: Terminal, at: dict[Terminal, tuple[WireFacts, ...]]) -> tuple[Detour, ...]:
    """The two thickest wires stay; each other one goes over a neighbour whose wire is no thinner, since that wire then
    carries its current as well."""
    thickest_first = sorted(at[terminal], key=lambda wire: -wire.area_mm2)
    room = {
        far: MOST_ENDS - len(at[far])
        for far in (wire.far_from(terminal) for wire in thickest_first)
        if part_of(circuit, far).kind not in JOINTS
    }
    joined = [wire.far_from(terminal) for wire in thickest_first[:MOST_ENDS]]
    found = []
    for wire in thickest_first[MOST_ENDS:]:
        far = wire.far_from(terminal)
        over = next((one for one in joined if room.get(one, 0) > 0 and one != far), None)
        if over is None:
            return ()
        room[over] -= 1
        joined.append(far)
        found.append(Detour(wire, over))
    return tuple(found)
