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
"""From one wire to the next beside it."""
CLEAR: Final = BOX_GAP / 2
"""From a wire to a box."""


class Member(NamedTuple):
    """What stands in a column or passes it: a box, or a wire, by its number."""

    kind: str
    number: int


class Stacked(NamedTuple):
    """tops: each box's upper edge. passes: for each wire, how high it passes each column between its two channels.

    order: for each column, its boxes and the wires that pass it, from top to bottom.
    """

    tops: list[float]
    passes: list[dict[int, float]]
    order: list[list[Member]]


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
    order = []
    for column in range(max(columns.of, default=-1) + 1):
        wanted = {wire: wish[column] for wire, wish in enumerate(wishes) if column in wish}
        members = _in_order(_members(columns, column), shapes, tops, wanted)
        for wire, height in _settle(members, shapes, tops, wanted).items():
            passes[wire][column] = height
        order.append(members)
    return Stacked(tops, passes, order)


def room_between(one: Member, other: Member) -> float:
    """How far apart two neighbours of a column have to be."""
    boxes = (one.kind == "box") + (other.kind == "box")
    return (TRACK, CLEAR, BOX_GAP)[boxes]


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


def _in_order(boxes: list[int], shapes: list[Shape], tops: list[float], wanted: dict[int, float]) -> list[Member]:
    """A column from top to bottom by where dot has its boxes and its wires, each of these in the gap that is nearest."""
    middles = {Member("box", box): tops[box] + shapes[box].height / 2 for box in boxes}
    heights = middles | {Member("wire", wire): height for wire, height in wanted.items()}
    return sorted(heights, key=lambda member: (heights[member], member))


def _settle(members: list[Member], shapes: list[Shape], tops: list[float], wanted: dict[int, float]) -> dict[int, float]:
    """How high each wire passes a column, as near to what is wanted as the room lets it; moves its boxes down where
    they leave too little."""
    found: dict[int, float] = {}
    least = float("-inf")
    for number, member in enumerate(members):
        least += room_between(members[number - 1], member) if number else 0
        if member.kind == "box":
            tops[member.number] = max(tops[member.number], least)
            least = tops[member.number] + shapes[member.number].height
        else:
            least = found[member.number] = max(wanted[member.number], least)
    most = float("inf")
    for number, member in reversed(list(enumerate(members))):
        if number + 1 < len(members):
            most -= room_between(member, members[number + 1])
        if member.kind == "box":
            most = tops[member.number]
        else:
            most = found[member.number] = min(found[member.number], most)
    return found
