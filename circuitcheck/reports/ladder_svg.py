"""A ladder as a drawing (SVG 1.1): alone in a file, or an element that a page takes in.

Colours only add to what thickness and dashes tell, and are those of Okabe and Ito (Color Universal Design, 2008), which
colour-blind people can tell apart. A page may set them by --ink, --paper, --lit, --brake, --short.

What is drawn says what it is: data-conductors (and data-load with data-sense) whose current it carries, data-wires the
wires that a line stands for, data-part and data-digit whose contact it is. Classes lit, brake, short and closed follow
from these.
"""

from collections.abc import Iterable, Iterator
from xml.sax.saxutils import escape, quoteattr

from circuitcheck.ladder.drawn import Leaf, Passed, Taking
from circuitcheck.ladder.lines import Line, lines_of
from circuitcheck.ladder.networks import Networks
from circuitcheck.ladder.picture import Bar, Painter, Placed, Wire
from circuitcheck.ladder.rungs import OPEN, Rung, Way, coil_rungs
from circuitcheck.ladder.symbols import Symbols
from circuitcheck.reports.actuators import ACTUATORS
from circuitcheck.reports.cautions import CAUTION
from circuitcheck.reports.ladder_asking import Redrawn
from circuitcheck.reports.ladder_symbols import HALF, SHAPES
from circuitcheck.reports.ladder_words import (
    DRAWING_LIGHT,
    EMPTY_LADDER,
    READING,
    Stands,
    contacts_words,
    elsewhere_words,
    relay_of,
    rung_title,
    way_title,
    where_they_stand,
)
from circuitcheck.reports.problems import columns, printable
from circuitcheck.reports.styled import wrapped
from circuitcheck.reports.trace_svg import LETTERS, LINE, MARGIN, SIGN, svg_text

SIGNS = 112
"""Signs from one edge to the other."""
NUMBERS = 4
"""Signs for line numbers at the left."""
LANE, ON_LINE, NAME, MARKS = 80, 44, 16, 69
"""The height of a lane; in it, from its top: the line itself, and the feet of names and marks."""
WIDTH = 2 * MARGIN + round(SIGNS * SIGN)

STYLE = """\
.ladder{stroke:var(--ink,#000);fill:none;stroke-width:1.5}
.ladder text{stroke:none;fill:var(--ink,#000)}
.ladder .paper{fill:var(--paper,#fff)}
.ladder .thin{stroke-width:1}
.ladder .bridge{display:none}
.ladder .closed .bridge{display:inline}
.ladder .lit{stroke:var(--lit,#0072b2);stroke-width:4;stroke-linecap:square}
.ladder .brake{stroke:var(--brake,#e69f00);stroke-width:4;stroke-dasharray:12 5}
.ladder .short{stroke:var(--short,#d55e00);stroke-width:6;stroke-dasharray:3 2}
"""

ELEMENT = """\
<svg xmlns="http://www.w3.org/2000/svg" class="ladder" viewBox="0 0 {width} {height}" width="{width}" \
height="{height}" font-family="DejaVu Sans Mono, Consolas, monospace" font-size="{letters}" \
stroke="black" fill="none" role="img">
<title>{title}</title>
<style>
{style}</style>
{body}
</svg>
"""


def ladder_svg(redrawn: Redrawn) -> str:
    """The drawing alone in a file, with its title above, and below where contacts stand and how to read it."""
    head = list(_paragraph(redrawn.title, MARGIN, bold=True))
    if redrawn.state:
        head += _paragraph(f"Lit as with {redrawn.state}. {redrawn.remark}", MARGIN + len(head) * LINE)
        head += _paragraph(DRAWING_LIGHT, MARGIN + len(head) * LINE)
    body, height = _rungs(redrawn, MARGIN + (len(head) + 1) * LINE)
    words = [] if redrawn.ladder.rungs else [EMPTY_LADDER]
    words += [*elsewhere_words(redrawn.facts.circuit, redrawn.ladder), READING.format("the kind with a tick"), CAUTION]
    foot: list[str] = []
    for text in words:
        more = list(_paragraph(text, height))
        height += (len(more) + 0.5) * LINE
        foot += more
    paper = '<rect width="100%" height="100%" class="paper" fill="white" stroke="none"/>'
    element = _element(redrawn, [paper, *head, *body, *foot], round(height + MARGIN))
    return f'<?xml version="1.0" encoding="UTF-8"?>\n{element}'


def ladder_fragment(redrawn: Redrawn) -> str:
    """The rungs alone, as an element for a page."""
    body, height = _rungs(redrawn, MARGIN)
    return _element(redrawn, body, round(height))


def ladder_rungs(redrawn: Redrawn) -> Iterator[str]:
    """Each rung as an element of its own, so that paper breaks between them."""
    page, stands = _Page(redrawn), where_they_stand(redrawn.ladder)
    for number, rung in enumerate(redrawn.ladder.rungs, 1):
        body, height = page.rung(number, rung, stands, 0.0)
        yield _element(redrawn, body, round(height))


def _element(redrawn: Redrawn, body: Iterable[str], height: int) -> str:
    title = escape(printable(redrawn.title))
    return ELEMENT.format(width=WIDTH, height=height, letters=LETTERS, title=title, style=STYLE, body="\n".join(body))


def _paragraph(text: str, top: float, *, bold: bool = False, left: float = MARGIN) -> Iterator[str]:
    signs = SIGNS - int((left - MARGIN) / SIGN)
    for number, row in enumerate(wrapped(printable(text).split(), " ", signs), 1):
        yield svg_text(left, top + number * LINE, row, bold=bold)


def _rungs(redrawn: Redrawn, top: float) -> tuple[list[str], float]:
    """Every rung, from `top` down, and where the last one ends."""
    page, stands = _Page(redrawn), where_they_stand(redrawn.ladder)
    body: list[str] = []
    for number, rung in enumerate(redrawn.ladder.rungs, 1):
        more, top = page.rung(number, rung, stands, top)
        body += more
    return body, top


class _Page:
    """Draws rungs."""

    def __init__(self, redrawn: Redrawn) -> None:
        self._redrawn = redrawn
        self._circuit = redrawn.facts.circuit
        self._networks = Networks(redrawn.facts)
        symbols = Symbols(self._circuit, coil_rungs(self._circuit, redrawn.ladder))
        self._painter = Painter(symbols, self._networks.nets, columns)
        self._left = MARGIN + NUMBERS * SIGN
        self._right = MARGIN + SIGNS * SIGN

    def rung(self, number: int, rung: Rung, stands: Stands, top: float) -> tuple[list[str], float]:
        """A group with all that belongs to a rung."""
        load = "" if rung.load is None else f' data-load="{rung.load}"'
        body = [f'<g class="rung" id="ladder-rung-{number}" data-rung="{number}" data-kind="{rung.kind}"{load}>']
        body.append(svg_text(MARGIN, top + LINE, str(number), bold=True))
        title = list(_paragraph(rung_title(self._circuit, rung), top, bold=True, left=self._left))
        body += title
        top += len(title) * LINE
        for way in rung.ways:
            more, top = self._way(rung, way, top)
            body += more
        relay = relay_of(self._circuit, rung)
        if relay is not None:
            text = f"contacts: {'; '.join(contacts_words(self._circuit, stands, relay.name))}"
            listed = list(_paragraph(text, top, left=self._left))
            body += listed
            top += len(listed) * LINE
        return [*body, "</g>"], top + LINE

    def _way(self, rung: Rung, way: Way, top: float) -> tuple[list[str], float]:
        point = self._networks.point
        sense = "brake" if way.kind == "braked" else "forward" if way.forward else "backward"
        body = [f'<g class="way" data-kind="{way.kind}" data-sense="{sense}">']
        body += self._head(rung, way, top + LINE)
        top += LINE
        rails = self._networks.rail_terminal_of(way.left), self._networks.rail_terminal_of(way.right)
        signs = SIGNS - NUMBERS
        lines = lines_of(self._painter, way, rails, signs, lambda end: point(self._networks.net(end)))
        bottom = top + sum(one.picture.lanes for one in lines) * LANE
        for rail, x in ((way.left, self._left), (way.right, self._right)):
            if rail not in ("", OPEN):
                body.append(f'<path class="rail" data-rail={quoteattr(rail)} d="M{x:.1f} {top + 6:.1f}V{bottom:.1f}"/>')
        for one in lines:
            body += self._line(way, one, top)
            top += one.picture.lanes * LANE
        return [*body, "</g>"], top

    def _head(self, rung: Rung, way: Way, foot: float) -> Iterator[str]:
        left, right = printable(way.left), printable(way.right)
        if left:
            yield svg_text(self._left, foot, left)
        title = printable(way_title(self._circuit, rung, way))
        if title:
            yield svg_text(self._left + (columns(left) + 2) * SIGN, foot, title)
        if right:
            yield svg_text(self._right - columns(right) * SIGN, foot, right)

    def _line(self, way: Way, line: Line, top: float) -> Iterator[str]:
        picture = line.picture
        for bar in picture.bars:
            if bar.end > bar.lane:
                x = self._left + (bar.x + 0.5) * SIGN
                yield self._stroke(bar, way, f"M{x:.1f} {_y(top, bar.lane)}V{_y(top, bar.end)}")
        wires = list(picture.wires)
        last = max((one for one in wires if one.lane == 0), key=lambda one: one.end, default=None)
        if line.to_rail and last is not None and picture.width < SIGNS - NUMBERS:
            wires.append(last._replace(x=picture.width, end=SIGNS - NUMBERS))
        cuts = _cuts(line)
        for wire in wires:
            begin = self._left + cuts.get((wire.lane, wire.x - 1, 1), wire.x * SIGN)
            end = self._left + cuts.get((wire.lane, wire.end, -1), wire.end * SIGN)
            yield self._stroke(wire, way, f"M{begin:.1f} {_y(top, wire.lane)}H{end:.1f}")
        for placed in picture.symbols:
            yield from self._symbol(placed, way, top)

    def _stroke(self, line: Wire | Bar, way: Way, d: str) -> str:
        flow = self._redrawn.lights.of_line(line, way)
        wires = f' data-wires="{" ".join(map(str, line.wires))}"' if line.wires else ""
        beside = line.beside or ()
        carried = _data(beside) or (f' data-conductors="{" ".join(map(str, line.wires))}"' if line.wires else "")
        return f'<path class="{_classes("wire", flow)}"{carried}{wires} d="{d}"/>'

    def _symbol(self, placed: Placed, way: Way, top: float) -> Iterator[str]:
        leaf, symbol = placed.leaf, placed.symbol
        middle = self._left + (placed.x + placed.width // 2 + 0.5) * SIGN
        flow = self._redrawn.lights.of_leaf(leaf, way)
        closed = "closed" if isinstance(leaf, Passed) and self._redrawn.lights.closed(leaf.conductor) else ""
        classes = _classes("symbol", symbol.kind.replace(" ", "-"), flow, closed)
        place = f'transform="translate({middle:.1f} {_y(top, placed.lane)})"'
        yield f'<g class="{classes}"{_data((leaf,))}{self._owner(leaf)} {place}>'
        yield f"<title>{escape(printable(f'{symbol.name} {symbol.marks}'.strip()))}</title>"
        yield SHAPES[symbol.kind]
        if isinstance(leaf, Passed) and symbol.kind in ("make", "break"):
            kind = self._circuit.parts[self._circuit.conductors[leaf.conductor].part].kind
            yield ACTUATORS.get(kind, "")
        yield "</g>"
        for text, foot in ((symbol.name, NAME), (symbol.marks, MARKS)):
            if text:
                shown = printable(text)
                yield svg_text(middle - columns(shown) * SIGN / 2, top + placed.lane * LANE + foot, shown)

    def _owner(self, leaf: Leaf) -> str:
        if isinstance(leaf, Taking):
            return f" data-part={quoteattr(self._circuit.loads[leaf.load].part)}"
        if not isinstance(leaf, Passed):
            return ""
        one = self._circuit.conductors[leaf.conductor]
        digit = f' data-digit="{one.closed.digit}"' if one.closed else ""
        return f" data-part={quoteattr(one.part)}{digit}"


Cuts = dict[tuple[int, int, int], float]
"""Where a line beside a column of a lane ends, counted from the left rail; 1 for one that begins there, -1 for one that
ends there."""


def _cuts(line: Line) -> Cuts:
    """Lines end at symbols' shapes and in the middle of bars."""
    found: Cuts = {}
    for bar in line.picture.bars:
        for lane in (bar.lane, bar.end):
            found[lane, bar.x, 1] = found[lane, bar.x, -1] = (bar.x + 0.5) * SIGN
    for placed in line.picture.symbols:
        column = placed.x + placed.width // 2
        half = 3.5 if placed.symbol.kind == "point" else HALF
        for side in (1, -1):
            found[placed.lane, column, side] = (column + 0.5) * SIGN + side * half
    return found


def _y(top: float, lane: int) -> str:
    return f"{top + lane * LANE + ON_LINE:.1f}"


def _data(leaves: Iterable[Leaf]) -> str:
    """Whose current it is: conductors, and loads."""
    conductors = dict.fromkeys(str(leaf.conductor) for leaf in leaves if isinstance(leaf, Passed))
    loads = dict.fromkeys(str(leaf.load) for leaf in leaves if isinstance(leaf, Taking))
    found = ""
    if conductors:
        found += f' data-conductors="{" ".join(conductors)}"'
    return found + (f' data-load="{" ".join(loads)}"' if loads else "")


def _classes(*names: str) -> str:
    return " ".join(filter(None, names))
