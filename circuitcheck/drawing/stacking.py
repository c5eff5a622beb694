"""How high each box stands in its column, and between which boxes of a column a wire passes that goes further.

Graphviz's dot says where boxes and wires lie best. In the gap between two boxes each wire then gets a track of its own,
and boxes move apart where a gap is too narrow for that.
"""

from typing import Final, NamedTuple

from circuitcheck.drawing.boxes import PAD, Shape
from circuitcheck.drawing.columns import LEFT, Columns, End
from circuitcheck.drawing.content import Content
from circuitcheck.drawing.graphviz import Arranged, Edge, Node, Point, arrange

BOX_GAP: Final = 28.0
TRACK: Final = 12.0
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

    columns: Columns
    shapes: list[Shape]
    tops: list[float]
    passes: list[dict[int, float]]
    order: list[list[Member]]

    def middle(self, end: End) -> float:
        """How high the row is in which a wire ends."""
        return self.tops[end.box] + self.shapes[end.box].below(end)

    def height(self, member: Member, column: int) -> float:
        """How high a member of a column is; a box's upper edge."""
        return self.tops[member.number] if member.kind == "box" else self.passes[member.number][column]


def stack(boxes: tuple[Content, ...], columns: Columns, shapes: list[Shape]) -> Stacked:
    """Where boxes stand and wires pass."""
    edges, edge_of = _edges(columns, shapes)
    arranged = arrange([_node(*one) for one in enumerate(shapes)], edges, _ranks(boxes, columns))
    tops = [arranged.boxes[str(number)].y - shape.height / 2 for number, shape in enumerate(shapes)]
    stacked = Stacked(columns, shapes, tops, [{} for _ in columns.ends], [])
    wishes = [_wishes(stacked, arranged, wire, edge_of) for wire in range(len(columns.ends))]
    for column in range(columns.total):
        wanted = {wire: wish[column] for wire, wish in enumerate(wishes) if column in wish}
        members = _in_order(columns.boxes_in(column), shapes, tops, wanted)
        for wire, height in _settle(members, shapes, tops, wanted).items():
            stacked.passes[wire][column] = height
        stacked.order.append(members)
    return stacked


def _ranks(boxes: tuple[Content, ...], columns: Columns) -> dict[str, list[int]]:
    ranks = {f"same{column}": columns.boxes_in(column) for column in range(columns.total)}
    for end, rank in (("+", "source"), ("-", "sink")):
        members = [number for number, box in enumerate(boxes) if box.end == end]
        if members:
            ranks[rank] = ranks.pop(f"same{columns.of[members[0]]}")
    return ranks


def room_between(one: Member, other: Member) -> float:
    """How far apart two neighbours of a column have to be."""
    boxes = (one.kind == "box") + (other.kind == "box")
    return (TRACK, CLEAR, BOX_GAP)[boxes]


def _members(columns: Columns, column: int) -> list[int]:
    return [box for box, own in enumerate(columns.of) if own == column]


def _node(number: int, shape: Shape) -> Node:
    width = shape.stubs[0] + shape.width + shape.stubs[1]
    return Node(str(number), width, (shape.head, *(row.height for row in shape.rows), PAD))


def _edges(columns: Columns, shapes: list[Shape]) -> tuple[list[Edge], dict[int, int]]:
    """Wires that go from column to column, left end first, and the number of each wire's edge among them."""
    edges: list[Edge] = []
    edge_of = {}
    for wire, ends in enumerate(columns.ends):
        left, right = sorted(ends, key=lambda end: columns.of[end.box])
        if columns.of[left.box] < columns.of[right.box]:
            edge_of[wire] = len(edges)
            edges.append((_port(shapes, left), _port(shapes, right), 1))
    return edges, edge_of


def _port(shapes: list[Shape], end: End) -> str:
    """The first row is the heading."""
    return f"{end.box}:r{shapes[end.box].row_of(end) + 1}:{'w' if end.side == LEFT else 'e'}"


def _wishes(stacked: Stacked, arranged: Arranged, wire: int, edge_of: dict[int, int]) -> dict[int, float]:
    """For each column that a wire passes, how high it would best do so: where dot has it, else on a straight line."""
    columns, ends = stacked.columns, sorted(stacked.columns.ends[wire], key=stacked.columns.channel)
    first, last = (columns.channel(end) for end in ends)
    start, stop = (stacked.middle(end) for end in ends)
    own = {columns.of[end.box] for end in ends}
    found = {}
    for column in range(first, last):
        found[column] = start + (column - first + 1) / (last - first + 1) * (stop - start)
        if wire in edge_of and column not in own:
            across = arranged.boxes[str(columns.boxes_in(column)[0])].x
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
    """A column from top to bottom by where dot has its boxes and its wires."""
    middles = {Member("box", box): tops[box] + shapes[box].height / 2 for box in boxes}
    heights = middles | {Member("wire", wire): height for wire, height in wanted.items()}
    return sorted(heights, key=lambda member: (heights[member], member))


def _settle(
    members: list[Member], shapes: list[Shape], tops: list[float], wanted: dict[int, float]
) -> dict[int, float]:
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
