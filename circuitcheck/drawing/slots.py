"""Each wire has a place of its own at its terminal, in the order of where the wires go from there."""

from collections.abc import Iterator
from itertools import pairwise

from circuitcheck.drawing.boxes import SLOT
from circuitcheck.drawing.columns import LEFT, End
from circuitcheck.drawing.stacking import Member, Stacked
from circuitcheck.drawing.straightening import Across, Spot

Pair = tuple[float, float]
"""Something of a wire's tail and its head."""


def places_of(stacked: Stacked) -> list[Pair]:
    """How far below its terminal's middle each of a wire's two ends lies."""
    arriving: dict[End, list[tuple[float, int, int]]] = {}
    for wire, ends in enumerate(stacked.columns.ends):
        for which, end in enumerate(ends):
            arriving.setdefault(end, []).append((_aim(stacked, wire, which), wire, which))
    found = [[0.0, 0.0] for _ in stacked.columns.ends]
    for arrivals in arriving.values():
        for place, (_, wire, which) in enumerate(sorted(arrivals)):
            found[wire][which] = SLOT * (place - (len(arrivals) - 1) / 2)
    return [(tail, head) for tail, head in found]


def slots_of(stacked: Stacked, places: list[Pair]) -> list[Pair]:
    """How high each of a wire's two ends lies."""
    return [
        (stacked.middle(tail) + one, stacked.middle(head) + other)
        for (tail, head), (one, other) in zip(stacked.columns.ends, places, strict=True)
    ]


def across_channels(stacked: Stacked, places: list[Pair]) -> Iterator[Across]:
    """Where wires come to a channel from one column and leave it to the next."""
    columns = stacked.columns
    for wire, ends in enumerate(columns.ends):
        both = sorted(
            zip(ends, places[wire], strict=True), key=lambda pair: (columns.channel(pair[0]), pair[0].side == LEFT)
        )
        first, last = (
            Spot(Member("box", end.box), columns.of[end.box], stacked.shapes[end.box].below(end) + place)
            for end, place in both
        )
        (start, _), (stop, _) = both
        passed = range(columns.channel(start), columns.channel(stop))
        way = [Spot(Member("wire", wire), column, 0.0) for column in passed]
        yield from pairwise([*([first] if start.side != LEFT else []), *way, *([last] if stop.side == LEFT else [])])


def _aim(stacked: Stacked, wire: int, which: int) -> float:
    """How high a wire goes on from one of its ends."""
    end, other = stacked.columns.ends[wire][which], stacked.columns.ends[wire][1 - which]
    near = stacked.columns.channel(end)
    passes = stacked.passes[wire]
    for column in (near - 1, near) if end.side == LEFT else (near, near - 1):
        if column in passes:
            return passes[column]
    return stacked.middle(other)
