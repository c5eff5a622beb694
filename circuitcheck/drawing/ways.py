"""The way of each wire, at right angles: out of its box, up or down in channels, past columns, and into its box."""

from typing import NamedTuple

from circuitcheck.drawing.channels import Pin, Turn, route_channel
from circuitcheck.drawing.columns import LEFT, RIGHT, End
from circuitcheck.drawing.slots import Pair
from circuitcheck.drawing.stacking import Stacked

Corner = tuple[float, float]


class Ways(NamedTuple):
    """lefts: each box's left edge. corners: each wire's, from its tail to its head. width: of the whole. clashing: each
    wire that lies on another one, with the channel where it does."""

    lefts: list[float]
    corners: list[list[Corner]]
    width: float
    clashing: list[tuple[int, int]]


def ways_of(stacked: Stacked, slots: list[Pair]) -> Ways:
    """Tracks in each channel, and from them how far right everything lies."""
    turns = [_turns(stacked, wire, slots[wire]) for wire in range(len(slots))]
    tracks: list[dict[int, float]] = [{} for _ in slots]
    lefts = [0.0] * len(stacked.shapes)
    clashing: list[tuple[int, int]] = []
    x = 0.0
    for number in range(stacked.columns.total + 1):
        channel = route_channel({wire: mine[number] for wire, mine in enumerate(turns) if number in mine})
        clashing += [(wire, number) for wire in channel.clashing]
        for wire, across in channel.track.items():
            tracks[wire][number] = x + across
        x = _stand(stacked, number, x + channel.width, lefts)
    corners = [_corners(stacked, wire, turns[wire], tracks[wire], lefts) for wire in range(len(slots))]
    return Ways(lefts, corners, x, clashing)


def _turns(stacked: Stacked, wire: int, heights: Pair) -> dict[int, Turn]:
    """A wire's way through each channel, tail to head."""
    tail, head = stacked.columns.ends[wire]
    first, last = stacked.columns.channel(tail), stacked.columns.channel(head)
    onward = last >= first
    pin = Pin(RIGHT if tail.side == LEFT else LEFT, heights[0])
    found = {}
    for channel in range(first, last, 1 if onward else -1):
        height = stacked.passes[wire][channel if onward else channel - 1]
        found[channel] = (pin, Pin(RIGHT if onward else LEFT, height))
        pin = Pin(LEFT if onward else RIGHT, height)
    found[last] = (pin, Pin(RIGHT if head.side == LEFT else LEFT, heights[1]))
    return found


def _stand(stacked: Stacked, column: int, x: float, lefts: list[float]) -> float:
    """Puts the boxes of a column that begins at x on one middle; where it ends."""
    shapes = {box: stacked.shapes[box] for box in stacked.columns.boxes_in(column)}
    middle = x + max((shape.stubs[0] + shape.width / 2 for shape in shapes.values()), default=0.0)
    for box, shape in shapes.items():
        lefts[box] = middle - shape.width / 2
    return middle + max((shape.stubs[1] + shape.width / 2 for shape in shapes.values()), default=0.0)


def _corners(
    stacked: Stacked, wire: int, turns: dict[int, Turn], tracks: dict[int, float], lefts: list[float]
) -> list[Corner]:
    start, stop = (_edge(stacked, lefts, end) for end in stacked.columns.ends[wire])
    pins = list(turns.values())
    inner = [(tracks[channel], pin.height) for channel, turn in turns.items() if channel in tracks for pin in turn]
    return [(start, pins[0][0].height), *inner, (stop, pins[-1][1].height)]


def _edge(stacked: Stacked, lefts: list[float], end: End) -> float:
    return lefts[end.box] + (0.0 if end.side == LEFT else stacked.shapes[end.box].width)
