"""How high each box stands in its column, and between which boxes of a column a wire passes that goes further.

Graphviz's dot says where boxes and wires lie best. Wires then get a track of their own each in the gap between two boxes
that is nearest to where dot has them, and boxes move apart where a gap is too narrow for that.
"""

from typing import Final, NamedTuple

from circuitcheck.drawing.boxes import Shape
from circuitcheck.drawing.columns import LEFT, Columns, End
from circuitcheck.drawing.content import Content
from circuitcheck.drawing.graphviz import Arranged, Node, Point, arrange

BOX_GAP: Final = 24.0
TRACK: Final = 9.0
"""From one wire to the next beside it, and from a wire to a box."""


class Stacked(NamedTuple):
    """tops: each box's upper edge. passes: for each wire, how high it passes each column between its two channels."""

    tops: tuple[float, ...]
    passes: tuple[dict[int, float], ...]


def channel_of(columns: Columns, end: End) -> int:
    """The channel into which a wire leaves a box: channel n lies on the left of column n."""
    return columns.of[end.box] + (end.side != LEFT)


def row_of(shape: Shape, end: End) -> int:
    """The row of a box at which a wire ends."""
    side = 0 if end.side == LEFT else 1
    return next(number for number, row in enumerate(shape.rows) if row[side] == end.terminal)


def stack(boxes: tuple[Content, ...], columns: Columns, shapes: list[Shape]) -> Stacked:
    """Where boxes stand and wires pass."""
    edges, edge_of = _edges(columns, shapes)
    nodes = [_node(number, shape) for number, shape in enumerate(shapes)]
    ranks = {f"same{column}": _members(columns, column) for column in sorted(set(columns.of))}
    ends = {"+": "source", "-": "sink"}
    for end, rank in ends.items():
        members = [number for number, box in enumerate(boxes) if box.end == end]
        if members:
            ranks.pop(f"same{columns.of[members[0]]}", None)
            ranks[rank] = members
    arranged = arrange(nodes, edges, ranks)
    tops = [arranged.boxes[str(number)].y - shape.height / 2 for number, shape in enumerate(shapes)]
    wishes = [_wishes(columns, shapes, tops, arranged, number, edge_of) for number in range(len(columns.ends))]
    passes: list[dict[int, float]] = [{} for _ in columns.ends]
    for column in ranks and sorted(set(columns.of)):
        wanted = {wire: wish[column] for wire, wish in enumerate(wishes) if column in wish}
        for wire, height in _settle(_members(columns, column), shapes, tops, wanted).items():
            passes[wire][column] = height
    return Stacked(tuple(tops), tuple(passes))


def _members(columns: Columns, column: int) -> list[int]:
    return [box for box, own in enumerate(columns.of) if own == column]


def _node(number: int, shape: Shape) -> Node:
    width = shape.stubs[0] + shape.width + shape.stubs[1]
    rows = (round(shape.head), *(round(row.height) for row in shape.rows), round(shape.height - shape.middle(0)))
    return Node(str(number), width, rows[:-1])


def _edges(columns: Columns, shapes: list[Shape]) -> tuple[list[tuple[str, str, int]], dict[int, int]]:
    """Wires that go from column to column, left end first, and the number of each wire's edge among them."""
    edges, edge_of = [], {}
    for wire, ends in enumerate(columns.ends):
        left, right = sorted(ends, key=lambda end: columns.of[end.box])
        if columns.of[left.box] < columns.of[right.box]:
            edge_of[wire] = len(edges)
            tail = f"{left.box}:r{row_of(shapes[left.box], left) + 1}:{'w' if left.side == LEFT else 'e'}"
            head = f"{right.box}:r{row_of(shapes[right.box], right) + 1}:{'w' if right.side == LEFT else 'e'}"
            edges.append((tail, head, 1))
    return edges, edge_of


def _wishes(
    columns: Columns, shapes: list[Shape], tops: list[float], arranged: Arranged, wire: int, edge_of: dict[int, int]
) -> dict[int, float]:
    """For each column that a wire passes, how high it would best do so."""
    first, last = columns.ends[wire]
    channels = sorted((channel_of(columns, first), channel_of(columns, last)))
    heights = [tops[end.box] + shapes[end.box].middle(row_of(shapes[end.box], end)) for end in (first, last)]
    if channel_of(columns, first) > channel_of(columns, last):
        heights.reverse()
    found = {}
    for column in range(*channels):
        share = (column - channels[0] + 1) / (channels[1] - channels[0] + 1)
        found[column] = heights[0] + share * (heights[1] - heights[0])
        own = {columns.of[first.box], columns.of[last.box]}
        if wire in edge_of and column not in own:
            across = arranged.boxes[str(_members(columns, column)[0])].x
            found[column] = _height_at(arranged.ways[edge_of[wire]], across)
    return found


def _height_at(way: tuple[Point, ...], x: float) -> float:
    """How high a Bézier curve that runs from left to right is at x."""
    for first in range(0, len(way) - 1, 3):
        piece = way[first : first + 4]
        if x <= piece[3].x or first + 4 >= len(way):
            low, high = 0.0, 1.0
            for _ in range(20):
                middle = (low + high) / 2
                low, high = (middle, high) if _bezier([point.x for point in piece], middle) < x else (low, middle)
            return _bezier([point.y for point in piece], low)
    return way[-1].y


def _bezier(values: list[float], share: float) -> float:
    rest = 1 - share
    a, b, c, d = values
    return rest**3 * a + 3 * rest**2 * share * b + 3 * rest * share**2 * c + share**3 * d


def _settle(members: list[int], shapes: list[Shape], tops: list[float], wanted: dict[int, float]) -> dict[int, float]:
    """How high each wire passes a column; moves its boxes down where they leave too little room."""
    members = sorted(members, key=lambda box: tops[box])
    gaps: list[list[int]] = [[] for _ in range(len(members) + 1)]
    for wire in sorted(wanted, key=lambda wire: (wanted[wire], wire)):
        gaps[_nearest_gap(members, shapes, tops, wanted[wire])].append(wire)
    found: dict[int, float] = {}
    bottom: float | None = None
    for number, gap in enumerate(gaps):
        room = max(BOX_GAP, (len(gap) + 1) * TRACK)
        if number < len(members) and bottom is not None:
            tops[members[number]] = max(tops[members[number]], bottom + room)
        below = tops[members[number]] if number < len(members) else float("inf")
        found |= _tracks(gap, wanted, bottom, below)
        bottom = below + shapes[members[number]].height if number < len(members) else None
    return found


def _nearest_gap(members: list[int], shapes: list[Shape], tops: list[float], height: float) -> int:
    """The gap above the first box whose middle is further down, where gap n lies above box n."""
    return sum(tops[box] + shapes[box].height / 2 < height for box in members)


def _tracks(gap: list[int], wanted: dict[int, float], above: float | None, below: float) -> dict[int, float]:
    """A height for each wire of a gap, in order, as near to what is wanted as the room lets it."""
    found: dict[int, float] = {}
    lowest = float("-inf") if above is None else above
    for wire in gap:
        lowest = max(lowest + TRACK, wanted[wire])
        found[wire] = lowest
    highest = below
    for wire in reversed(gap):
        highest = min(highest - TRACK, found[wire])
        found[wire] = highest
    return found
