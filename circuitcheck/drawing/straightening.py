"""Boxes and passing wires moved up and down a little, so that as many wires as can be run straight across a channel."""

from typing import Final, NamedTuple

from circuitcheck.drawing.stacking import Member, Stacked, room_between

ROUNDS: Final = 6
ASIDE: Final = 6.0
"""Far enough for two lines to be told apart."""


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
            for place in range(len(members)):
                moves = _best_moves(stacked, column, place, beside)
                moved |= bool(moves)
                _move(stacked, column, moves)
        if not moved:
            return


def move_aside(stacked: Stacked, wire: int, channel: int) -> None:
    """Moves a wire a little where it comes to a channel or leaves it, with the box that it comes from if need be."""
    passed = [column for column in (channel, channel - 1) if column in stacked.passes[wire]]
    if passed:
        member, column = Member("wire", wire), passed[0]
    else:
        end = next(end for end in stacked.columns.ends[wire] if stacked.columns.channel(end) == channel)
        member, column = Member("box", end.box), stacked.columns.of[end.box]
    _move(stacked, column, _pushed(stacked, column, stacked.order[column].index(member), ASIDE))


Moves = dict[int, float]
"""How far members of a column move down, by their places in it."""


def _best_moves(stacked: Stacked, column: int, place: int, beside: dict[tuple[Member, int], list[Across]]) -> Moves:
    """Those that make the most wires straight that are not so yet, of several the smallest; none where none does."""
    order = stacked.order[column]
    shifts = {_shift(stacked, across) for across in beside.get((order[place], column), [])}
    best: Moves = {}
    most = 0
    for shift in sorted(shifts - {0.0}, key=lambda shift: (abs(shift), shift)):
        moves = _pushed(stacked, column, place, shift)
        gain = 0
        for one, by in moves.items():
            left = [_shift(stacked, across) for across in beside.get((order[one], column), [])]
            gain += left.count(by) - left.count(0.0)
        if gain > most:
            best, most = moves, gain
    return best


def _shift(stacked: Stacked, across: Across) -> float:
    """How far down the first of two points must move so that the wire between them is straight."""
    here, there = across
    heights = [stacked.height(spot.member, spot.column) + spot.below for spot in (here, there)]
    return round(heights[1] - heights[0], 3)


def _pushed(stacked: Stacked, column: int, place: int, shift: float) -> Moves:
    """A move, and those of neighbours that it pushes away."""
    order, onward = stacked.order[column], 1 if shift > 0 else -1
    moves = {place: shift}
    while 0 <= place + onward < len(order):
        upper, lower = sorted((place, place + onward))
        free = (
            stacked.height(order[lower], column)
            - _bottom(stacked, order[upper], column)
            - room_between(order[upper], order[lower])
        )
        shift = round(onward * max(0.0, abs(shift) - free), 3)
        if not shift:
            break
        place += onward
        moves[place] = shift
    return moves


def _move(stacked: Stacked, column: int, moves: Moves) -> None:
    for place, shift in moves.items():
        member = stacked.order[column][place]
        if member.kind == "box":
            stacked.tops[member.number] += shift
        else:
            stacked.passes[member.number][column] += shift


def _bottom(stacked: Stacked, member: Member, column: int) -> float:
    return stacked.height(member, column) + (stacked.shapes[member.number].height if member.kind == "box" else 0.0)
