"""Boxes and passing wires moved up and down a little, so that as many wires as can be run straight across a channel."""

from typing import Final, NamedTuple

from circuitcheck.drawing.stacking import Member, Stacked, room_between

ROUNDS: Final = 6


class Spot(NamedTuple):
    """A point of something that moves: a member of a column, and how far below its upper edge the point lies."""

    member: Member
    column: int
    below: float


Across = tuple[Spot, Spot]
"""The two points at a channel's edges that a wire joins."""


def straighten(stacked: Stacked, across: list[Across]) -> None:
    """Moves tops and passes; no two neighbours of a column come nearer to each other than they may."""
    beside: dict[tuple[Member, int], list[Across]] = {}
    for one, other in across:
        beside.setdefault(one[:2], []).append((one, other))
        beside.setdefault(other[:2], []).append((other, one))
    for _ in range(ROUNDS):
        moved = False
        for column, members in enumerate(stacked.order):
            for place, member in enumerate(members):
                shift = _best_shift(stacked, column, place, beside.get((member, column), []))
                moved |= shift != 0
                if member.kind == "box":
                    stacked.tops[member.number] += shift
                else:
                    stacked.passes[member.number][column] += shift
        if not moved:
            return


def _best_shift(stacked: Stacked, column: int, place: int, across: list[Across]) -> float:
    """The smallest that makes more wires straight than are so already; 0 where none does."""
    least, most = _room(stacked, column, place)
    top = stacked.height(stacked.order[column][place], column)
    shifts = [
        round(stacked.height(there.member, there.column) + there.below - top - here.below, 3) for here, there in across
    ]
    within = sorted({shift for shift in shifts if least <= shift <= most}, key=lambda shift: (abs(shift), shift))
    return max([0.0, *within], key=shifts.count)


def _room(stacked: Stacked, column: int, place: int) -> tuple[float, float]:
    """How far a member of a column can move up (less than 0) and down."""
    members = stacked.order[column]
    least, most = float("-inf"), float("inf")
    if place:
        above, member = members[place - 1 : place + 1]
        room = room_between(above, member)
        least = _bottom(stacked, above, column) + room - stacked.height(member, column)
    if place + 1 < len(members):
        member, below = members[place : place + 2]
        room = room_between(member, below)
        most = stacked.height(below, column) - room - _bottom(stacked, member, column)
    return least, most


def _bottom(stacked: Stacked, member: Member, column: int) -> float:
    return stacked.height(member, column) + (stacked.shapes[member.number].height if member.kind == "box" else 0.0)
