"""What a rung is: the ways of current through one load, or one that nobody meant."""

from typing import Final, NamedTuple

from circuitcheck.circuit.model import Circuit
from circuitcheck.ladder.drawn import Series

OPEN: Final = "open"
"""Stands in a rail's place where there is none."""


class Way(NamedTuple):
    """From left to right. left, right: the rails' names, or OPEN; "" where a loop closes on itself.

    kind: "fed" (by conductors alone), "series" (through other loads as well), "sneak" (likewise, or back through a
    contact, and nobody meant it), "braked", "short" or "idle" (never fed). forward: the load's `a` is at the left.
    over: the rail that a loop goes over, "" for none.
    """

    kind: str
    left: str
    drawn: Series
    right: str
    forward: bool = True
    over: str = ""


class Rung(NamedTuple):
    """kind: "load", "sneak" or "short". load: by its index, None for a short. ways: at least one. words: what is told
    of a sneak or a short, "" for others."""

    kind: str
    load: int | None
    ways: tuple[Way, ...]
    words: str = ""


class Ladder(NamedTuple):
    """Rungs from top to bottom; a rung's line number is its place, from 1. idle: the contacts, fuses and diodes (by
    conductor) that stand on no rung."""

    rungs: tuple[Rung, ...]
    idle: tuple[int, ...]


def coil_rungs(circuit: Circuit, ladder: Ladder) -> dict[str, int]:
    """The line number of the rung on which each relay's coil stands, by the relay's name."""
    rungs = {rung.load: number for number, rung in enumerate(ladder.rungs, 1) if rung.kind == "load"}
    return {relay.name: rungs[relay.coil.load] for relay in circuit.relays}
