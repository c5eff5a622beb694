"""A wiring drawing, laid out: boxes and wires with their places. All sizes are in the drawing's own units, y downward."""

from collections.abc import Iterator
from itertools import pairwise
from typing import Final, NamedTuple

from circuitcheck.circuit.model import Circuit, Terminal
from circuitcheck.drawing.boxes import SLOT, Shape, labels_of, shapes_of, width_of
from circuitcheck.drawing.channels import Pin, Turn, crossings, route_channel
from circuitcheck.drawing.columns import LEFT, RIGHT, Columns, End, ways_into_columns
from circuitcheck.drawing.content import Content, WireContent, contents_of, wires_of
from circuitcheck.drawing.stacking import Member, Stacked, channel_of, row_of, stack
from circuitcheck.drawing.straightening import Across, Spot, straighten

Corner = tuple[float, float]


PAPER: Final = (277.0, 190.0)
"""Millimetres of an A4 sheet across, between margins of 10 mm."""
READABLE: Final = 0.18
"""Millimetres for a unit at which letters are 2 mm high."""
SMALL: Final = 40.0
"""How many crossings letters of half that height are as bad as."""


class PlacedBox(NamedTuple):
    """A box with its upper left corner, labels outside. slots: the heights of the wires at each terminal and side."""

    content: Content
    shape: Shape
    x: float
    y: float
    slots: dict[tuple[Terminal, str], tuple[float, ...]]


class Label(NamedTuple):
    """A text whose lower left corner is at (x, y)."""

    text: str
    x: float
    y: float


class PlacedWire(NamedTuple):
    """A wire's corners, from its tail to its head, and its two labels."""

    content: WireContent
    points: tuple[Corner, ...]
    labels: tuple[Label, Label]


class Drawing(NamedTuple):
    """The whole of it, with its upper left corner at (0, 0)."""

    width: float
    height: float
    boxes: tuple[PlacedBox, ...]
    wires: tuple[PlacedWire, ...]


def lay_out(circuit: Circuit) -> Drawing:
    """The wiring drawing of a circuit. ImportError where Graphviz is missing."""
    boxes, wires = contents_of(circuit), wires_of(circuit)
    return min((_lay_out(boxes, wires, columns) for columns in ways_into_columns(circuit, boxes, wires)), key=_cost)


def _cost(drawing: Drawing) -> float:
    """Crossings, and what small letters on paper count for as much."""
    scale = min(PAPER[0] / drawing.width, PAPER[1] / drawing.height)
    crossed = crossings([wire.points for wire in drawing.wires])
    return crossed + SMALL * max(0.0, READABLE / scale - 1)


def _lay_out(boxes: tuple[Content, ...], wires: tuple[WireContent, ...], columns: Columns) -> Drawing:
    shapes = shapes_of(boxes, columns, wires)
    stacked = stack(boxes, columns, shapes)
    places = _places(columns, shapes, stacked)
    straighten(stacked, shapes, list(_across_channels(columns, shapes, places)))
    slots = [
        (_slot(shapes, stacked, first, one), _slot(shapes, stacked, last, other))
        for (first, last), (one, other) in zip(columns.ends, places, strict=True)
    ]
    turns = [_turns(columns, stacked, wire, slots[wire]) for wire in range(len(wires))]
    count = max(columns.of, default=-1) + 2
    channels = [
        route_channel({wire: turn for wire, mine in enumerate(turns) if (turn := mine.get(number))})
        for number in range(count)
    ]
    lefts, channel_lefts, width = _across(columns, shapes, [channel.width for channel in channels])
    top = min(
        [*stacked.tops, *(height for passes in stacked.passes for height in passes.values())], default=0.0
    )
    placed_boxes = tuple(
        PlacedBox(box, shapes[number], lefts[number], stacked.tops[number] - top, _own(columns, slots, number, top))
        for number, box in enumerate(boxes)
    )
    texts = labels_of(columns, wires)
    placed_wires = []
    for number, wire in enumerate(wires):
        tracks = {
            channel: channel_lefts[channel] + one.track[number]
            for channel, one in enumerate(channels)
            if number in one.track
        }
        points = _points(columns, shapes, lefts, stacked, number, slots[number], tracks)
        first, last = (
            _label(text, end, lefts[end.box], shapes[end.box], height - top)
            for text, end, height in zip(texts[number], columns.ends[number], slots[number], strict=True)
        )
        placed_wires.append(PlacedWire(wire, tuple((x, y - top) for x, y in points), (first, last)))
    height = max((box.y + box.shape.height for box in placed_boxes), default=0.0)
    height = max([height, *(y for wire in placed_wires for _, y in wire.points)])
    return Drawing(width, height, placed_boxes, tuple(placed_wires))


def _places(columns: Columns, shapes: list[Shape], stacked: Stacked) -> list[tuple[float, float]]:
    """How far below its terminal's middle each of a wire's two ends lies: wires lie in the order of where they go."""
    at: dict[tuple[int, Terminal, str], list[tuple[float, int, int]]] = {}
    for wire, ends in enumerate(columns.ends):
        for which, end in enumerate(ends):
            aim = _aim(columns, shapes, stacked, wire, which)
            at.setdefault((end.box, end.terminal, end.side), []).append((aim, wire, which))
    found: list[list[float]] = [[0.0, 0.0] for _ in columns.ends]
    for arrivals in at.values():
        for place, (_, wire, which) in enumerate(sorted(arrivals)):
            found[wire][which] = SLOT * (place - (len(arrivals) - 1) / 2)
    return [(first, last) for first, last in found]


def _slot(shapes: list[Shape], stacked: Stacked, end: End, place: float) -> float:
    return _middle(shapes, stacked, end) + place


def _across_channels(columns: Columns, shapes: list[Shape], places: list[tuple[float, float]]) -> Iterator[Across]:
    """Where wires come to a channel from one column and leave it to the next."""
    for wire, (tail, head) in enumerate(columns.ends):
        if channel_of(columns, tail) > channel_of(columns, head):
            tail, head, ends = head, tail, places[wire][::-1]
        else:
            ends = places[wire]
        passed = range(channel_of(columns, tail), channel_of(columns, head))
        spots = [Spot(Member("wire", wire), column, 0.0) for column in passed]
        own = [
            Spot(Member("box", end.box), columns.of[end.box], shapes[end.box].middle(row_of(shapes[end.box], end)) + place)
            for end, place in zip((tail, head), ends, strict=True)
        ]
        way = [*([own[0]] if tail.side != LEFT else []), *spots, *([own[1]] if head.side == LEFT else [])]
        yield from pairwise(way)


def _middle(shapes: list[Shape], stacked: Stacked, end: End) -> float:
    return stacked.tops[end.box] + shapes[end.box].middle(row_of(shapes[end.box], end))


def _aim(columns: Columns, shapes: list[Shape], stacked: Stacked, wire: int, which: int) -> float:
    """The height at which a wire goes on from one of its ends."""
    end, other = columns.ends[wire][which], columns.ends[wire][1 - which]
    near = columns.of[end.box] + (0 if end.side == LEFT else 1)
    passes = stacked.passes[wire]
    beside = near - 1 if end.side == LEFT else near
    for column in (beside, columns.of[end.box]):
        if column in passes:
            return passes[column]
    return _middle(shapes, stacked, other)


def _turns(columns: Columns, stacked: Stacked, wire: int, heights: tuple[float, float]) -> dict[int, Turn]:
    """A wire's way through each channel, tail to head."""
    tail, head = columns.ends[wire]
    first, last = channel_of(columns, tail), channel_of(columns, head)
    step = 1 if last >= first else -1
    pin = Pin(RIGHT if tail.side == LEFT else LEFT, heights[0])
    found = {}
    for channel in range(first, last, step):
        column = channel if step > 0 else channel - 1
        height = stacked.passes[wire][column]
        found[channel] = (pin, Pin(RIGHT if step > 0 else LEFT, height))
        pin = Pin(LEFT if step > 0 else RIGHT, height)
    found[last] = (pin, Pin(RIGHT if head.side == LEFT else LEFT, heights[1]))
    return found


def _across(columns: Columns, shapes: list[Shape], widths: list[float]) -> tuple[list[float], list[float], float]:
    """Each box's left edge, each channel's, and the width of the whole. The boxes of a column stand on one middle."""
    lefts = [0.0] * len(shapes)
    channel_lefts = []
    x = 0.0
    for number, width in enumerate(widths):
        channel_lefts.append(x)
        x += width
        members = [box for box, column in enumerate(columns.of) if column == number]
        reach = max((shapes[box].stubs[0] + shapes[box].width / 2 for box in members), default=0.0)
        for box in members:
            lefts[box] = x + reach - shapes[box].width / 2
        x += reach + max((shapes[box].stubs[1] + shapes[box].width / 2 for box in members), default=0.0)
    return lefts, channel_lefts, x


def _own(
    columns: Columns, slots: list[tuple[float, float]], box: int, top: float
) -> dict[tuple[Terminal, str], tuple[float, ...]]:
    found: dict[tuple[Terminal, str], list[float]] = {}
    for ends, heights in zip(columns.ends, slots, strict=True):
        for end, height in zip(ends, heights, strict=True):
            if end.box == box:
                found.setdefault((end.terminal, end.side), []).append(height - top)
    return {key: tuple(sorted(heights)) for key, heights in found.items()}


def _points(
    columns: Columns, shapes: list[Shape], lefts: list[float], stacked: Stacked, wire: int,
    heights: tuple[float, float], tracks: dict[int, float],
) -> list[Corner]:  # fmt: skip
    """From terminal to terminal, at right angles."""
    tail, head = columns.ends[wire]
    spots: list[Corner] = [(_edge(lefts, shapes, tail), heights[0])]
    turns = _turns(columns, stacked, wire, heights)
    for channel, (entry, leaving) in turns.items():
        if channel in tracks:
            spots += [(tracks[channel], entry.height), (tracks[channel], leaving.height)]
    spots.append((_edge(lefts, shapes, head), heights[1]))
    return spots


def _edge(lefts: list[float], shapes: list[Shape], end: End) -> float:
    return lefts[end.box] + (0.0 if end.side == LEFT else shapes[end.box].width)


def _label(text: str, end: End, left: float, shape: Shape, height: float) -> Label:
    """Beside its box, above its wire."""
    x = left - 6 - width_of(text) if end.side == LEFT else left + shape.width + 6
    return Label(text, x, height - 5)
