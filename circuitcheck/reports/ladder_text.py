"""A ladder in text, with the text graphics of IEC 61131-3 for contacts and coils; other symbols are this tool's own.

    -| |- makes, -|/|- breaks, -( )- coil, -(M)- motor, -(X)- lamp, -(B)- buzzer, -[Y]- solenoid, -[ ]- resistor,
    -[-]- fuse, ->|- diode, o point

What conducts is drawn with = instead of -; see ladder_words.LIGHT.
"""

from collections.abc import Iterator

from circuitcheck.ladder.lines import Line as Drawing
from circuitcheck.ladder.lines import lines_of
from circuitcheck.ladder.networks import Networks
from circuitcheck.ladder.picture import Bar, Painter, Placed, Wire
from circuitcheck.ladder.rungs import OPEN, Rung, Way, coil_rungs
from circuitcheck.ladder.symbols import Symbols
from circuitcheck.reports.cautions import CAUTION
from circuitcheck.reports.ladder_asking import Redrawn
from circuitcheck.reports.ladder_lights import BRAKE, DARK, LIT, SHORT
from circuitcheck.reports.ladder_words import (
    EMPTY_LADDER,
    LIGHT,
    READING,
    Stands,
    contacts_words,
    idle_words,
    others_with_contacts,
    relay_of,
    rung_title,
    way_title,
    where_they_stand,
)
from circuitcheck.reports.problems import columns, printable
from circuitcheck.reports.styled import EMPTY, Line, Span, labelled, line, prose, wrapped

MARGIN = 4
"""Columns for line numbers."""
WIDEST = 160
ROWS = 3
"""Rows of text for each lane: name, line, marks."""
GLYPHS = {
    "make": "| |",
    "break": "|/|",
    "fuse": "[-]",
    "diode": ">|",
    "diode back": "|<",
    "point": "o",
    "coil": "( )",
    "motor": "(M)",
    "lamp": "(X)",
    "buzzer": "(B)",
    "resistor": "[ ]",
    "solenoid": "[Y]",
}
SIGNS = {DARK: "-", LIT: "=", BRAKE: "~", SHORT: "#"}
STYLES = {DARK: "", LIT: "good", BRAKE: "label", SHORT: "error"}


def ladder_lines(redrawn: Redrawn, width: int) -> Iterator[Line]:
    """The whole report."""
    yield from prose(redrawn.title, width, "name")
    if redrawn.state:
        yield EMPTY
        yield from prose(f"Lit as with {redrawn.state}. {redrawn.remark}", width)
        yield from prose(LIGHT, width, "quiet")
    yield EMPTY
    circuit, stands = redrawn.facts.circuit, where_they_stand(redrawn.ladder)
    page = _Page(redrawn, min(width, WIDEST))
    for number, rung in enumerate(redrawn.ladder.rungs, 1):
        yield from _title(number, rung_title(circuit, rung), "name" if rung.kind == "load" else "error", width)
        for way in rung.ways:
            yield from page.way(rung, way)
        yield from _contacts(redrawn, rung, stands, width)
        yield EMPTY
    if not redrawn.ladder.rungs:
        yield from prose(EMPTY_LADDER, width)
        yield EMPTY
    yield from _elsewhere(redrawn, stands, width)
    yield from prose(READING.format("-|/|-"), width, "quiet")
    yield EMPTY
    yield from prose(CAUTION, width, "quiet")


def _title(number: int, title: str, style: str, width: int) -> Iterator[Line]:
    head = f"{number:<{MARGIN - 1}} "
    for row in wrapped(printable(title).split(), " ", width - MARGIN):
        yield (Span(head, "label"), Span(row, style))
        head = " " * MARGIN


def _contacts(redrawn: Redrawn, rung: Rung, stands: Stands, width: int) -> Iterator[Line]:
    relay = relay_of(redrawn.facts.circuit, rung)
    if relay is not None:
        words = contacts_words(redrawn.facts.circuit, stands, relay.name)
        for one in labelled("contacts", [f"{word};" for word in words[:-1]] + words[-1:], width - MARGIN):
            yield (Span(" " * MARGIN), *one)


def _elsewhere(redrawn: Redrawn, stands: Stands, width: int) -> Iterator[Line]:
    """Contacts of all but relays, and what stands on no rung."""
    circuit = redrawn.facts.circuit
    others = list(others_with_contacts(circuit))
    if others:
        yield line("Where other contacts stand", "name")
        for part in others:
            words = contacts_words(circuit, stands, part)
            yield from labelled(part, [f"{word};" for word in words[:-1]] + words[-1:], width)
        yield EMPTY
    idle = idle_words(circuit, redrawn.ladder)
    if idle:
        yield from labelled("on no rung", [f"{word}," for word in idle[:-1]] + idle[-1:], width)
        yield EMPTY


class _Page:
    """Draws ways into so many columns."""

    def __init__(self, redrawn: Redrawn, width: int) -> None:
        self._redrawn = redrawn
        self._networks = Networks(redrawn.facts)
        symbols = Symbols(redrawn.facts.circuit, coil_rungs(redrawn.facts.circuit, redrawn.ladder))
        self._painter = Painter(symbols, self._networks.nets, columns)
        self._width = width - MARGIN

    def way(self, rung: Rung, way: Way) -> Iterator[Line]:
        """The rails' names with what the way is, then its lines between the rails."""
        title = way_title(self._redrawn.facts.circuit, rung, way)
        yield self._head(way, title)
        point = self._networks.point
        rails = self._networks.rail_terminal_of(way.left), self._networks.rail_terminal_of(way.right)
        for drawing in lines_of(self._painter, way, rails, self._width - 2, lambda end: point(self._networks.net(end))):
            yield from self._rows(way, drawing)

    def _head(self, way: Way, title: str) -> Line:
        left, right = printable(way.left), printable(way.right)
        middle = f"  {title}" if title else ""
        gap = max(self._width - columns(left + middle + right), 1)
        return (Span(" " * MARGIN), Span(left, "label"), Span(middle, "quiet"), Span(" " * gap), Span(right, "label"))

    def _rows(self, way: Way, drawing: Drawing) -> Iterator[Line]:
        sheet = _Sheet(self._width, drawing.picture.lanes * ROWS)
        picture, lights = drawing.picture.at(1, 0), self._redrawn.lights
        for bar in picture.bars:
            sheet.bar(bar, lights.of_line(bar, way))
        for wire in picture.wires:
            sheet.wire(wire, lights.of_line(wire, way))
        if drawing.to_rail and picture.wires:
            last = max((one for one in picture.wires if one.lane == 0), key=lambda one: one.end)
            sheet.wire(last._replace(x=picture.width + 1, end=self._width - 1), lights.of_line(last, way))
        for placed in picture.symbols:
            sheet.symbol(placed, lights.of_leaf(placed.leaf, way))
        for rail, x in ((way.left, 0), (way.right, self._width - 1)):
            if rail not in ("", OPEN):
                sheet.rail(x)
        return sheet.lines()


class _Sheet:
    """Signs in rows, each with its style."""

    def __init__(self, width: int, height: int) -> None:
        self._signs = [[" "] * width for _ in range(height)]
        self._styles = [[""] * width for _ in range(height)]

    def wire(self, wire: Wire, shine: str) -> None:
        """A line to the right."""
        for x in range(wire.x, wire.end):
            self._put(x, wire.lane * ROWS + 1, SIGNS[shine], STYLES[shine])

    def bar(self, bar: Bar, shine: str) -> None:
        """A line downward, with a corner at either end."""
        top, bottom = bar.lane * ROWS + 1, bar.end * ROWS + 1
        for row in range(top, bottom + 1):
            corner = row in (top, bottom) or self._signs[row][bar.x] == "+"
            self._put(bar.x, row, "+" if corner else "|", STYLES[shine] or self._styles[row][bar.x])

    def rail(self, x: int) -> None:
        """A line over all rows."""
        for row in range(len(self._signs)):
            self._put(x, row, "|", "label")

    def symbol(self, placed: Placed, shine: str) -> None:
        """A symbol with its name and marks, each in the middle of its columns."""
        glyph = GLYPHS[placed.symbol.kind]
        if shine:
            glyph = glyph.replace(" ", SIGNS[shine]).replace("-", SIGNS[shine])
        row = placed.lane * ROWS
        texts = ((printable(placed.symbol.name), "name"), (glyph, STYLES[shine]), (printable(placed.symbol.marks), ""))
        for below, (text, style) in enumerate(texts):
            half = columns(text) // 2
            self._write(placed.x + placed.width // 2 - half, row + below, text, style)

    def lines(self) -> Iterator[Line]:
        """The rows as styled text, those aside that are blank."""
        for signs, styles in zip(self._signs, self._styles, strict=True):
            spans = [Span(" " * MARGIN)]
            for sign, style in zip(signs, styles, strict=True):
                if spans[-1].style == style and len(spans) > 1:
                    spans[-1] = Span(spans[-1].text + sign, style)
                else:
                    spans.append(Span(sign, style))
            yield tuple(spans)

    def _write(self, x: int, row: int, text: str, style: str) -> None:
        for sign in text:
            self._put(x, row, sign, style)
            # A sign that is two columns wide takes the next one as well.
            for blank in range(1, columns(sign)):
                self._put(x + blank, row, "", style)
            x += columns(sign)

    def _put(self, x: int, row: int, sign: str, style: str) -> None:
        if x < len(self._signs[row]):
            self._signs[row][x], self._styles[row][x] = sign, style
