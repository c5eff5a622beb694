"""Boxes and passing wires moved up and down a little, so that as many wires as can be run straight across a channel."""

from typing import Final, NamedTuple

from circuitcheck.drawing.boxes import Shape
from circuitcheck.drawing.stacking import Member, Stacked, room_between

ROUNDS: Final = 6


class Spot(NamedTuple):
    """A point of something that moves: a member of a column, and how far below its upper edge the point lies."""

    member: Member
    column: int
    below: float


Across = tuple[Spot, Spot]
"""The two points at a channel's edges that a wire joins."""


def straighten(stacked: Stacked, shapes: list[Shape], across: list[Across]) -> None:
    """Moves tops and passes; no two neighbours of a column come nearer to each other than they may."""
    beside: dict[tuple[Member, int], list[Across]] = {}
    for one, other in across:
        beside.setdefault(one[:2], []).append((one, other))
        beside.setdefault(other[:2], []).append((other, one))
    for _ in range(ROUNDS):
        moved = False
        for column, members in enumerate(stacked.order):
            for place, member in enumerate(members):
                shift = _best_shift(stacked, shapes, members, place, column, beside.get((member, column), []))
                moved |= shift != 0
                _move(stacked, member, column, shift)
        if not moved:
            return


def _height(stacked: Stacked, member: Member, column: int) -> float:
    return stacked.tops[member.number] if member.kind == "box" else stacked.passes[member.number][column]


def _move(stacked: Stacked, member: Member, column: int, shift: float) -> None:
    if member.kind == "box":
        stacked.tops[member.number] += shift
    else:
        stacked.passes[member.number][column] += shift


def _best_shift(
    stacked: Stacked, shapes: list[Shape], members: list[Member], place: int, column: int, across: list[Across]
) -> float:
    """The smallest that makes more wires straight than are so already; 0 where none does."""
    member = members[place]
    top = _height(stacked, member, column)
    bottom = top + (shapes[member.number].height if member.kind == "box" else 0.0)
    least, most = float("-inf"), float("inf")
    if place:
        above = members[place - 1]
        ends = _height(stacked, above, column) + (shapes[above.number].height if above.kind == "box" else 0.0)
        least = ends + room_between(above, member) - top
    if place + 1 < len(members):
        below = members[place + 1]
        most = _height(stacked, below, column) - room_between(member, below) - bottom
    shifts = [
        round(_height(stacked, there.member, there.column) + there.below - top - here.below, 3)
        for here, there in across
    ]
    within = sorted({shift for shift in shifts if least <= shift <= most}, key=lambda shift: (abs(shift), shift))
    return max([0.0, *within], key=shifts.count)
