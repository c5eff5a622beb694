"""Where wires turn up or down in the channel between two columns: each on a track of its own, crossing few others.

A wire comes into a channel from its left or right edge at some height and leaves it likewise. With track a to the left
of track b, b's pieces to the left edge cross a where they lie within its span, and a's to the right edge cross b. So
which of two wires lies further left decides how often those two cross, and an order with few crossings is searched for.
"""

from collections.abc import Sequence
from itertools import pairwise
from typing import Final, NamedTuple

from circuitcheck.drawing.columns import LEFT, RIGHT
from circuitcheck.drawing.stacking import TRACK

OVERLAP: Final = 1000
"""What two wires that would lie on each other count as, in crossings."""
NEAR: Final = 5.0
"""Pieces so near to each other can't be told apart."""
ROUNDS: Final = 8


class Pin(NamedTuple):
    """Where a wire meets the edge of a channel."""

    side: str
    height: float


Turn = tuple[Pin, Pin]
"""A wire's way through a channel: where it comes in and where it leaves."""


class Channel(NamedTuple):
    """track: of each wire that turns, how far right its upright piece lies. width: of the whole channel. clashing:
    wires that would lie on another one in any order, as two that change heights with each other."""

    track: dict[int, float]
    width: float
    clashing: list[int]


def span(turn: Turn) -> tuple[float, float]:
    """From how high to how low a wire's upright piece reaches."""
    heights = sorted((turn[0].height, turn[1].height))
    return heights[0], heights[1]


def is_straight(turn: Turn) -> bool:
    """Does it run straight from edge to edge?"""
    return turn[0].side != turn[1].side and turn[0].height == turn[1].height


def route_channel(turns: dict[int, Turn]) -> Channel:
    """Tracks for the wires of a channel. Those that no other reaches are dealt with by themselves."""
    turning = {wire: turn for wire, turn in turns.items() if not is_straight(turn)}
    place: dict[int, int] = {}
    clashing: list[int] = []
    for wires in _stretches(turning):
        cost = {(a, b): _cost(turning[a], turning[b]) for a in wires for b in wires if a != b}
        order = _ordered(sorted(wires, key=lambda wire: _first_guess(turning[wire])), cost)
        for number, wire in enumerate(order):
            before = [place[other] + 1 for other in order[:number] if _bound(turning, cost, other, wire)]
            place[wire] = max(before, default=0)
        clashing += [b for number, b in enumerate(order) if any(cost[a, b] >= OVERLAP for a in order[:number])]
    tracks = max(place.values(), default=-1) + 1
    return Channel({wire: (one + 1) * TRACK for wire, one in place.items()}, (tracks + 1) * TRACK, clashing)


def _stretches(turning: dict[int, Turn]) -> list[list[int]]:
    """The wires from top to bottom, parted wherever no upright piece reaches."""
    found: list[list[int]] = []
    reach = float("-inf")
    for wire in sorted(turning, key=lambda wire: span(turning[wire])):
        top, bottom = span(turning[wire])
        if top > reach + TRACK:
            found.append([])
        found[-1].append(wire)
        reach = max(reach, bottom)
    return found


def _first_guess(turn: Turn) -> tuple[bool, float]:
    """Wires that go down lie in the opposite order of those that go up."""
    left = next((pin.height for pin in turn if pin.side == LEFT), turn[0].height)
    right = next((pin.height for pin in turn if pin.side == RIGHT), turn[1].height)
    return right < left, right if right < left else -right


def _cost(a: Turn, b: Turn) -> int:
    """How often two wires cross where a lies to the left of b."""
    (a_top, a_bottom), (b_top, b_bottom) = span(a), span(b)
    to_left = [pin.height for pin in b if pin.side == LEFT]
    to_right = [pin.height for pin in a if pin.side == RIGHT]
    cost = sum(a_top < height < a_bottom for height in to_left) + sum(b_top < height < b_bottom for height in to_right)
    return cost + OVERLAP * sum(abs(one - other) < NEAR for one in to_left for other in to_right)


def _bound(turning: dict[int, Turn], cost: dict[tuple[int, int], int], a: int, b: int) -> bool:
    """Must b, which follows a in the order, lie on a track further right?"""
    (a_top, a_bottom), (b_top, b_bottom) = span(turning[a]), span(turning[b])
    return (a_top < b_bottom + TRACK and b_top < a_bottom + TRACK) or cost[a, b] != cost[b, a]


def _ordered(order: list[int], cost: dict[tuple[int, int], int]) -> list[int]:
    """Moves single wires to where they cross least, until none is better placed elsewhere."""
    for _ in range(ROUNDS):
        moved = False
        for wire in tuple(order):
            others = [other for other in order if other != wire]
            here = order.index(wire)
            costs = [sum(cost[wire, other] for other in others)]
            for other in others:
                costs.append(costs[-1] + cost[other, wire] - cost[wire, other])
            best = costs.index(min(costs))
            if costs[best] < costs[here]:
                order = [*others[:best], wire, *others[best:]]
                moved = True
        if not moved:
            break
    return order


def crossings(wires: Sequence[Sequence[tuple[float, float]]]) -> int:
    """How often right-angled ways cross each other, touching ends not counted."""
    flat, upright = [], []
    for wire, points in enumerate(wires):
        for (x, y), (to_x, to_y) in pairwise(points):
            if y == to_y:
                flat.append((wire, y, min(x, to_x), max(x, to_x)))
            else:
                upright.append((wire, x, min(y, to_y), max(y, to_y)))
    return sum(
        one != other and left < x < right and top < y < bottom
        for one, y, left, right in flat
        for other, x, top, bottom in upright
    )
