"""Which box stands in which column, so that current runs from left to right, and to which side each wire leaves.

How far a terminal is from + and from − decides which of two parts stands further left; Graphviz's dot then chooses the
columns so that wires are short. A terminal's wires leave it on the side where most of their other ends are.
"""

from collections import deque
from collections.abc import Iterator
from typing import NamedTuple

from circuitcheck.circuit.model import Circuit, Terminal
from circuitcheck.drawing.content import Content, WireContent
from circuitcheck.drawing.graphviz import Node, arrange

LEFT, RIGHT = "left", "right"
FEWEST = 4
"""Columns that are never made fewer, those of the supplies counted, less one."""


class End(NamedTuple):
    """Where a wire ends: its box by number, the terminal, and the side on which it leaves."""

    box: int
    terminal: Terminal
    side: str


class Columns(NamedTuple):
    """of: each box's column. ends: both ends of each wire, in the wires' order. sides: each terminal's."""

    of: tuple[int, ...]
    ends: tuple[tuple[End, End], ...]
    sides: dict[Terminal, str]

    @property
    def total(self) -> int:
        """How many columns there are."""
        return max(self.of, default=-1) + 1

    def channel(self, end: End) -> int:
        """The channel into which a wire leaves its box: channel n lies on the left of column n."""
        return self.of[end.box] + (end.side == RIGHT)

    def boxes_in(self, column: int) -> list[int]:
        """The boxes of a column."""
        return [box for box, own in enumerate(self.of) if own == column]


def ways_into_columns(
    circuit: Circuit, boxes: tuple[Content, ...], wires: tuple[WireContent, ...]
) -> Iterator[Columns]:
    """The columns of a drawing, as many as dot wants, and then fewer and fewer: the narrower, the larger on paper.

    Those two neighbours are made one that the fewest wires join, of several the two with the fewest boxes.
    """
    owner = {end: number for number, box in enumerate(boxes) for group in box.groups for end in group.terminals}
    place = _places(circuit, boxes)
    joined = [(owner[wire.tail], owner[wire.head]) for wire in wires]
    edges = [tuple(sorted(pair, key=lambda box: place[box])) for pair in joined if pair[0] != pair[1]]
    supplies = {
        kind: [number for number, box in enumerate(boxes) if box.end == end]
        for kind, end in (("source", "+"), ("sink", "-"))
    }
    ends_of_supplies = set(supplies["source"] + supplies["sink"])
    weights = {edge: 0 if ends_of_supplies & set(edge) else 2 for edge in edges}
    nodes = [Node(str(number), 10, (10,)) for number in range(len(boxes))]
    laid = arrange(nodes, [(str(a), str(b), weights[a, b]) for a, b in edges], supplies).boxes
    across = sorted({round(laid[str(number)].x) for number in range(len(boxes))})
    columns = tuple(across.index(round(laid[str(number)].x)) for number in range(len(boxes)))
    while True:
        sides = _sides(boxes, wires, owner, columns)
        yield Columns(columns, tuple(_ends(boxes, wire, owner, columns, sides) for wire in wires), sides)
        last = max(columns, default=0)
        if last <= FEWEST:
            return
        within = range(bool(supplies["source"]), last - bool(supplies["sink"]))
        pairs = [(columns[a], columns[b]) for a, b in joined]
        merged = min(
            within,
            key=lambda left: (
                sum(set(pair) == {left, left + 1} for pair in pairs),
                sum(column in (left, left + 1) for column in columns),
                left,
            ),
        )
        columns = tuple(column - (column > merged) for column in columns)


def _places(circuit: Circuit, boxes: tuple[Content, ...]) -> list[tuple[float, int]]:
    """For each box how far it is on the way from + to −, from 0 to 1, and its number."""
    plus = _distances(circuit, [supply.plus for supply in circuit.supplies])
    minus = _distances(circuit, [supply.minus for supply in circuit.supplies])
    found = []
    for number, box in enumerate(boxes):
        ends = [end for group in box.groups for end in group.terminals if end in plus and end in minus]
        shares = [plus[end] / (plus[end] + minus[end] or 1) for end in ends]
        share = {"+": 0.0, "-": 1.0}.get(box.end, sum(shares) / len(shares) if shares else 0.5)
        found.append((share, number))
    return found


def _distances(circuit: Circuit, starts: list[Terminal]) -> dict[Terminal, int]:
    """How many wires, contacts and loads each terminal is away from the nearest start; a supply's end ends a way."""
    beside: dict[Terminal, list[Terminal]] = {}
    for a, b in (*((one.tail, one.head) for one in circuit.conductors), *((one.a, one.b) for one in circuit.loads)):
        beside.setdefault(a, []).append(b)
        beside.setdefault(b, []).append(a)
    ends = {end for supply in circuit.supplies for end in (supply.plus, supply.minus)}
    found = dict.fromkeys(starts, 0)
    waiting = deque(starts)
    while waiting:
        here = waiting.popleft()
        for there in beside.get(here, ()) if here not in ends or found[here] == 0 else ():
            if there not in found:
                found[there] = found[here] + 1
                waiting.append(there)
    return found


def _sides(
    boxes: tuple[Content, ...], wires: tuple[WireContent, ...], owner: dict[Terminal, int], columns: tuple[int, ...]
) -> dict[Terminal, str]:
    """The side of every terminal. One without a wire stands across from another of its group, one whose wires stay in
    their column on the side of where they go."""
    votes: dict[Terminal, int] = {}
    for wire in wires:
        across = columns[owner[wire.head]] - columns[owner[wire.tail]]
        sign = (across > 0) - (across < 0)
        votes[wire.tail] = votes.get(wire.tail, 0) + sign
        votes[wire.head] = votes.get(wire.head, 0) - sign
    found = {}
    for box in boxes:
        for group in box.groups:
            for end in group.terminals:
                if box.end:
                    found[end] = RIGHT if box.end == "+" else LEFT
                elif votes.get(end):
                    found[end] = RIGHT if votes[end] > 0 else LEFT
    beside: dict[Terminal, list[Terminal]] = {}
    for wire in wires:
        beside.setdefault(wire.tail, []).append(wire.head)
        beside.setdefault(wire.head, []).append(wire.tail)
    for box in boxes:
        if box.part.kind == "connector":
            found |= _across(box, votes)
        for group in box.groups:
            for end in group.terminals:
                near = [found[other] for other in beside.get(end, ()) if other in found]
                far = [found[other] for other in group.terminals if other in found]
                found.setdefault(end, near[0] if near else LEFT if RIGHT in far else RIGHT)
    return found


def _across(connector: Content, votes: dict[Terminal, int]) -> dict[Terminal, str]:
    """All pins of a plug are on one side, those of its socket on the other."""
    pins = [group.terminals for group in connector.groups]
    plug_first = sum(votes.get(plug, 0) - votes.get(socket, 0) for plug, socket in pins) <= 0
    plugs, sockets = (LEFT, RIGHT) if plug_first else (RIGHT, LEFT)
    return {plug: plugs for plug, _ in pins} | {socket: sockets for _, socket in pins}


def _ends(
    boxes: tuple[Content, ...],
    wire: WireContent,
    owner: dict[Terminal, int],
    columns: tuple[int, ...],
    sides: dict[Terminal, str],
) -> tuple[End, End]:
    tail, head = owner[wire.tail], owner[wire.head]
    found = []
    for here, there, terminal in ((tail, head, wire.tail), (head, tail, wire.head)):
        side = sides[terminal]
        if boxes[here].through and columns[here] != columns[there]:
            side = RIGHT if columns[there] > columns[here] else LEFT
        found.append(End(here, terminal, side))
    return found[0], found[1]
