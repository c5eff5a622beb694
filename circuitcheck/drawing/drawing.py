"""A wiring drawing, laid out: boxes and wires with their places. All sizes are in its own units, y downward.

    content     what there is to draw
    columns     who stands further left, and on which side wires leave
    boxes       rows, terminals and room for labels
    stacking    how high each box stands, and past which boxes wires run
    slots       which wire is where at its terminal
    ways        where wires turn

Several numbers of columns are tried; the drawing with the fewest crossings is taken, large letters count too.
"""

from typing import Final, NamedTuple

from circuitcheck.circuit.model import Circuit, Terminal
from circuitcheck.drawing.boxes import Shape, labels_of, shapes_of, width_of
from circuitcheck.drawing.channels import crossings
from circuitcheck.drawing.columns import LEFT, Columns, End, ways_into_columns
from circuitcheck.drawing.content import Content, WireContent, contents_of, wires_of
from circuitcheck.drawing.slots import across_channels, places_of, slots_of
from circuitcheck.drawing.stacking import stack
from circuitcheck.drawing.straightening import move_aside, straighten
from circuitcheck.drawing.ways import Corner, ways_of

PAPER: Final = (277.0, 190.0)
"""Millimetres of an A4 sheet across, between margins of 10 mm."""
READABLE: Final = 0.18
"""Millimetres for a unit at which letters are 2 mm high."""
SMALL: Final = 40.0
"""How many crossings letters of half that height are as bad as."""
MOST_ASIDE: Final = 10
"""How often wires that lie on each other are moved aside."""
PATIENCE: Final = 2
"""How many drawings in a row may be worse, each with a column less, before no more are tried."""


class PlacedBox(NamedTuple):
    """A box with its upper left corner, labels outside. slots: the heights of the wires at each terminal and side."""

    content: Content
    shape: Shape
    x: float
    y: float
    slots: dict[tuple[Terminal, str], tuple[float, ...]]


class Label(NamedTuple):
    """A text, the left end of its base line at (x, y)."""

    text: str
    x: float
    y: float


class PlacedWire(NamedTuple):
    """A wire's corners, from its tail to its head, and its labels there."""

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
    tried: list[tuple[float, int, Drawing]] = []
    for columns in ways_into_columns(circuit, boxes, wires):
        drawing = _with_columns(boxes, wires, columns)
        tried.append((_cost(drawing), len(tried), drawing))
        if len(tried) - min(tried)[1] > PATIENCE:
            break
    return min(tried)[2]


def _cost(drawing: Drawing) -> float:
    """Crossings, and what small letters on paper count for as much."""
    scale = min(PAPER[0] / max(drawing.width, 1.0), PAPER[1] / max(drawing.height, 1.0))
    crossed = crossings([wire.points for wire in drawing.wires])
    return crossed + SMALL * max(0.0, READABLE / scale - 1)


def _with_columns(boxes: tuple[Content, ...], wires: tuple[WireContent, ...], columns: Columns) -> Drawing:
    stacked = stack(boxes, columns, shapes_of(boxes, columns, wires))
    places = places_of(stacked)
    straighten(stacked, list(across_channels(stacked, places)))
    slots = slots_of(stacked, places)
    ways = ways_of(stacked, slots)
    tries = 0
    while ways.clashing and tries < MOST_ASIDE:
        for wire, channel in ways.clashing:
            move_aside(stacked, wire, channel)
        slots = slots_of(stacked, places)
        ways = ways_of(stacked, slots)
        tries += 1
    top = min([*stacked.tops, *(y for corners in ways.corners for _, y in corners)], default=0.0)
    own = _slots_by_box(columns, slots, top)
    placed = tuple(
        PlacedBox(box, stacked.shapes[number], ways.lefts[number], stacked.tops[number] - top, own[number])
        for number, box in enumerate(boxes)
    )
    ended = zip(wires, ways.corners, columns.ends, labels_of(columns, wires), strict=True)
    drawn = tuple(
        _placed_wire(wire, tuple((x, y - top) for x, y in corners), ends, texts) for wire, corners, ends, texts in ended
    )
    bottoms = [box.y + box.shape.height for box in placed]
    height = max([*bottoms, *(y for wire in drawn for _, y in wire.points)], default=0.0)
    return Drawing(ways.width, height, placed, drawn)


def _slots_by_box(
    columns: Columns, slots: list[tuple[float, float]], top: float
) -> list[dict[tuple[Terminal, str], tuple[float, ...]]]:
    found: list[dict[tuple[Terminal, str], list[float]]] = [{} for _ in columns.of]
    for ends, heights in zip(columns.ends, slots, strict=True):
        for end, height in zip(ends, heights, strict=True):
            found[end.box].setdefault((end.terminal, end.side), []).append(height - top)
    return [{key: tuple(sorted(heights)) for key, heights in own.items()} for own in found]


def _placed_wire(
    wire: WireContent, points: tuple[Corner, ...], ends: tuple[End, End], texts: tuple[str, str]
) -> PlacedWire:
    first, last = (
        _label(text, corner, end.side) for text, corner, end in zip(texts, (points[0], points[-1]), ends, strict=True)
    )
    return PlacedWire(wire, points, (first, last))


def _label(text: str, corner: Corner, side: str) -> Label:
    """Beside its box, above its wire."""
    x, y = corner
    return Label(text, x - 6 - width_of(text) if side == LEFT else x + 6, y - 7.5)
