"""How a box is made up: its heading, a row for each terminal or two, and the ends of wires beside them.

    heading        K1 relay
                   "raise"
    row            w3 red ─■ A1  ▭  A2 ■─ w8 black 1 mm²

Every wire has a place of its own at its terminal, with its label on a straight piece there. That piece belongs to the
box, which nothing else may cross: so no label ever meets another or a wire, whatever the wiring.
"""

from typing import Final, NamedTuple

from circuitcheck.circuit.model import Terminal
from circuitcheck.drawing.columns import LEFT, RIGHT, Columns, End
from circuitcheck.drawing.content import Content, Group, WireContent
from circuitcheck.plan.signs import columns as signs_of
from circuitcheck.plan.signs import printable

LETTERS: Final = 11
"""The height of letters, in the drawing's own units, as are all sizes."""
SIGN: Final = 0.6 * LETTERS
"""The width of one sign."""
LINE: Final = 14
SLOT: Final = 22
"""From one wire to the next at one terminal."""
ROW: Final = 22
BAR: Final = 8
"""The width of a terminal's bar."""
SYMBOL: Final = 44
"""Room for what joins terminals; LANE for what lies beside it."""
LANE: Final = 22
PAD: Final = 5
ACTUATOR: Final = 12
"""Room above contacts for what works them."""
STUB: Final = 12
"""What a wire's straight piece is longer than its label."""


RATINGS: Final = (("volts", "V"), ("amps", "A"), ("watts", "W"), ("ohms", "Ω"))
COIL_RATINGS: Final = (("coil_volts", "V"), ("coil_ohms", "Ω"))
"""What a heading tells of a part, and of a relay."""


class Row(NamedTuple):
    """One line of a box: the terminal whose wires leave to the left, and to the right; "" for none."""

    left: Terminal
    right: Terminal
    height: float


class Shape(NamedTuple):
    """A box's measures, from its own upper left corner, labels outside to both sides.

    stubs: how far wires' straight pieces reach to the left and to the right. marks: room for the terminals' marks.
    """

    heading: tuple[str, ...]
    head: float
    rows: tuple[Row, ...]
    width: float
    stubs: tuple[float, float]
    marks: tuple[float, float]

    @property
    def height(self) -> float:
        """From its upper edge to its lower."""
        return self.head + sum(row.height for row in self.rows) + PAD

    def middle(self, row: int) -> float:
        """How far a row's middle is below the upper edge."""
        return self.head + sum(one.height for one in self.rows[:row]) + self.rows[row].height / 2

    def row_of(self, end: End) -> int:
        """The row in which a wire ends."""
        side = 0 if end.side == LEFT else 1
        return next(number for number, row in enumerate(self.rows) if row[side] == end.terminal)

    def below(self, end: End) -> float:
        """How far that row's middle is below the upper edge."""
        return self.middle(self.row_of(end))


def width_of(text: str) -> float:
    """The width of a text."""
    return signs_of(text) * SIGN


def labels_of(columns: Columns, wires: tuple[WireContent, ...]) -> list[tuple[str, str]]:
    """What stands at the tail and at the head of each wire: all that is known at one end, its number at the other.

    The whole label stands where the wire leaves to the right; where both ends leave to one side, at its tail.
    """
    found = []
    for wire, (tail, head) in zip(wires, columns.ends, strict=True):
        whole, number = printable(wire.label), printable(wire.number)
        first = tail.side == RIGHT or head.side == LEFT
        found.append((whole, number) if first else (number, whole))
    return found


def shapes_of(boxes: tuple[Content, ...], columns: Columns, wires: tuple[WireContent, ...]) -> list[Shape]:
    """The shape of each box."""
    stubs = [[0.0, 0.0] for _ in boxes]
    counts: dict[tuple[Terminal, str], int] = {}
    for ends, labels in zip(columns.ends, labels_of(columns, wires), strict=True):
        for end, label in zip(ends, labels, strict=True):
            side = 0 if end.side == LEFT else 1
            stubs[end.box][side] = max(stubs[end.box][side], width_of(label) + STUB)
            counts[end.terminal, end.side] = counts.get((end.terminal, end.side), 0) + 1
    return [
        _shape(box, columns.sides, counts, (stubs[number][0], stubs[number][1])) for number, box in enumerate(boxes)
    ]


def _shape(
    box: Content, sides: dict[Terminal, str], counts: dict[tuple[Terminal, str], int], stubs: tuple[float, float]
) -> Shape:
    rows = [row for group in box.groups for row in _rows(box, group, sides, counts)]
    heading = _heading(box)
    marks = (_widest(box, [row.left for row in rows]), _widest(box, [row.right for row in rows]))
    if box.through or box.end:
        marks = (0.0, 0.0)
        inside = _widest(box, [row.left or row.right for row in rows]) + 4 * PAD
    else:
        inside = SYMBOL + LANE * max(_lanes(group) for group in box.groups)
        inside = max([inside, *(ROW * len(group.terminals) + LANE for group in box.groups if has_brushes(group))])
    width = max(sum(marks) + inside, *(width_of(text) + 2 * PAD for text in heading))
    head = LINE * len(heading) + 2 * PAD + (ACTUATOR if _worked_from_above(box, sides) else 0)
    return Shape(heading, head, tuple(rows), width, stubs, marks)


def _heading(box: Content) -> tuple[str, ...]:
    """Its name and kind, what the plan calls it, and what it is rated at."""
    part = box.part
    kind = {"outside": "outside contact", "estop": "emergency stop"}.get(part.kind, part.kind)
    label = [f'"{printable(part.label)}"'] if part.label else []
    return (printable(f"{part.name} {kind}"), *label, *filter(None, [_ratings(box)]))


def _ratings(box: Content) -> str:
    """What somebody looks for who picks the part from a drawer."""
    told, ratings = COIL_RATINGS if box.part.kind == "relay" else RATINGS, box.part.ratings
    return " ".join(
        f"{ratings[name]:.4g} {unit}"
        for name, unit in told
        if ratings.get(name) and not (name == "ohms" and "amps" in ratings)
    )


def _rows(box: Content, group: Group, sides: dict[Terminal, str], counts: dict[tuple[Terminal, str], int]) -> list[Row]:
    if box.through:
        [end] = group.terminals
        return [Row(end, end, _height(counts, end))]
    if is_inline(group, sides):
        left, right = sorted(group.terminals, key=lambda end: sides[end] != LEFT)
        return [Row(left, right, max(_height(counts, left), _height(counts, right)))]
    return [
        Row(end if sides[end] == LEFT else "", end if sides[end] == RIGHT else "", _height(counts, end))
        for end in group.terminals
    ]


def is_inline(group: Group, sides: dict[Terminal, str]) -> bool:
    """Do its two terminals face each other in one row?"""
    return len(group.terminals) == len(group.inner) + 1 == 2 and sides[group.terminals[0]] != sides[group.terminals[1]]


def _worked_from_above(box: Content, sides: dict[Terminal, str]) -> bool:
    """Does any of its contacts lie across, or change over? One that stands upright is worked from beside it."""
    return box.worked and any(is_inline(group, sides) or len(group.terminals) > 2 for group in box.groups)


def has_brushes(group: Group) -> bool:
    """Is it a motor with more than two terminals, drawn as a circle as high as their rows?"""
    return len(group.terminals) > 2 and any(one.kind == "motor" for one in group.inner)


def _height(counts: dict[tuple[Terminal, str], int], end: Terminal) -> float:
    most = max(counts.get((end, LEFT), 0), counts.get((end, RIGHT), 0))
    return max(ROW, SLOT * most)


def _widest(box: Content, ends: list[Terminal]) -> float:
    return max((width_of(mark_of(box, end)) + 2 * PAD for end in ends if end), default=0.0)


def mark_of(box: Content, end: Terminal) -> str:
    """A terminal's mark; the part's own name where it has none."""
    return printable(dict(zip(box.part.terminals, box.part.marks, strict=True))[end])


def _lanes(group: Group) -> int:
    """How many things lie beside others between the same two terminals."""
    pairs = [frozenset((one.a, one.b)) for one in group.inner]
    return max((pairs.count(pair) - 1 for pair in pairs), default=0)
