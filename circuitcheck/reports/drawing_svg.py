"""The wiring drawing as SVG 1.1: a part of a page, or a picture that stands alone and prints without colour.

A wire is a coloured core between dark edges, and its colour stands beside it as a word. What carries current is thick
and lies in a band: whole for a fed load's current, in long dashes for a braked motor's, hatched for a short. The bands'
colours are of the palette of Okabe and Ito (Color Universal Design, 2008), which colour-blind people tell apart.
"""

from collections.abc import Iterator
from pathlib import Path
from typing import Final
from xml.sax.saxutils import escape, quoteattr

from circuitcheck.circuit.model import Circuit
from circuitcheck.drawing.boxes import BAR, LETTERS, LINE, PAD, SIGN, mark_of, width_of
from circuitcheck.drawing.columns import LEFT, RIGHT
from circuitcheck.drawing.drawing import Drawing, PlacedBox, PlacedWire
from circuitcheck.drawing.shown import Shown
from circuitcheck.reports.cautions import CAUTION
from circuitcheck.reports.drawing_inside import inside
from circuitcheck.reports.drawing_sheets import sheet_words
from circuitcheck.reports.problems import printable
from circuitcheck.reports.styled import wrapped

MARGIN: Final = 16
SIGNS: Final = {"+": "+", "-": "−"}
"""A supply's ends as they are printed large."""
COLOURS: Final = {
    "black": "#1a1a1a", "brown": "#7a4a21", "red": "#d7191c", "orange": "#f58220", "yellow": "#ffe100",
    "green": "#1a9641", "blue": "#2166ac", "violet": "#8e4bb0", "purple": "#8e4bb0", "grey": "#9a9a9a",
    "gray": "#9a9a9a", "white": "#ffffff", "pink": "#f7a8c9", "turquoise": "#2ec4b6", "silver": "#c8ccd0",
    "gold": "#c9a227", "clear": "#eef3f7",
}  # fmt: skip
"""What wires of these colours look like."""


def drawing_fragment(circuit: Circuit, drawing: Drawing, shown: Shown) -> str:
    """The `<svg>` element, for a page. Whoever embeds it may turn the classes lit, brake, short and closed on and off,
    and set --ink, --paper, --lit, --brake and --short."""
    width, height = drawing.width + 2 * MARGIN, drawing.height + 2 * MARGIN
    size = f'viewBox="{-MARGIN} {-MARGIN} {width:.0f} {height:.0f}" width="{width:.0f}" height="{height:.0f}"'
    style = (Path(__file__).parent / "drawing.css").read_text(encoding="utf-8")
    return "\n".join([
        f'<svg xmlns="http://www.w3.org/2000/svg" class="wiring" {size} font-size="{LETTERS}" role="img" '
        f'aria-label="Wiring drawing">',
        f"<style>\n{style}</style>",
        *(line for wire in drawing.wires for line in _wire(wire, shown)),
        *(line for boxes in _by_part(drawing) for line in _part(circuit, boxes, shown)),
        "</svg>",
    ])  # fmt: skip


def drawing_svg(circuit: Circuit, drawing: Drawing, shown: Shown, title: str, told: str) -> str:
    """The drawing by itself, with its title, what it shows (`told`) and how it is to be read."""
    width = max(drawing.width + 2 * MARGIN, 480)
    signs = int((width - 2 * MARGIN) / SIGN)
    above = [row for text in (title, told) for row in wrapped(printable(text).split(), " ", signs)]
    below = [
        row for text in (LEGEND, sheet_words(drawing), CAUTION) if text for row in wrapped(text.split(), " ", signs)
    ]
    top = MARGIN + len(above) * LINE
    foot = top + drawing.height + 2 * MARGIN
    height = foot + len(below) * LINE + MARGIN
    texts = [text(MARGIN, MARGIN + (row + 0.7) * LINE, words) for row, words in enumerate(above)]
    texts += [text(MARGIN, foot + (row + 0.7) * LINE, words) for row, words in enumerate(below)]
    return "\n".join([
        '<?xml version="1.0" encoding="UTF-8"?>',
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width:.0f} {height:.0f}" width="{width:.0f}" '
        f'height="{height:.0f}" font-family="DejaVu Sans Mono, Consolas, monospace" font-size="{LETTERS}" role="img">',
        f"<title>{escape(printable(title))}</title>",
        "<style>@media print { svg { max-width: 100%; max-height: 100%; } }</style>",
        '<rect width="100%" height="100%" fill="white"/>',
        *texts,
        f'<svg x="0" y="{top:.0f}"' + drawing_fragment(circuit, drawing, shown).removeprefix("<svg"),
        "</svg>\n",
    ])  # fmt: skip


LEGEND: Final = (
    "Each wire has its number at both ends; its colour and gauge stand at one. A supply's + and − are drawn apart. "
    "Lines that cross aren't joined: wires meet at terminals only. In a band: whole, the current of something that is "
    "fed; long dashes, that of a braked motor; hatched, a short."
)


def text(x: float, y: float, words: str, name: str = "") -> str:
    """A text whose left end is at x, and as wide as it says, whatever letters the viewer has."""
    if not words:
        return ""
    kind = f' class="{name}"' if name else ""
    length = f'textLength="{width_of(words):.1f}" lengthAdjust="spacingAndGlyphs"'
    return f'<text x="{x:.1f}" y="{y:.1f}" xml:space="preserve" {length}{kind}>{escape(words)}</text>'


def _wire(wire: PlacedWire, shown: Shown) -> Iterator[str]:
    content = wire.content
    colours = [COLOURS[name] for name in content.colour.split("/")] if content.colour else []
    classes = " ".join(filter(None, ("wire", "" if colours else "plain", shown.conductors.get(content.conductor, ""))))
    path = "M" + "L".join(f"{x:.1f} {y:.1f}" for x, y in wire.points)
    yield f'<g class="{classes}" id="drawing-wire-{content.conductor}" data-conductors="{content.conductor}">'
    yield f"<title>{escape(printable(f'{content.label}: {content.tail} to {content.head}'))}</title>"
    yield f'<path class="halo" d="{path}"/><path class="edge" d="{path}"/>'
    for number, colour in enumerate(colours):
        dashes = ' stroke-dasharray="7 7"' if number else ""
        yield f'<path class="core" d="{path}" stroke="{colour}"{dashes}/>'
    yield from (text(label.x, label.y, label.text) for label in wire.labels)
    yield "</g>"


def _by_part(drawing: Drawing) -> list[list[PlacedBox]]:
    found: dict[str, list[PlacedBox]] = {}
    for box in drawing.boxes:
        found.setdefault(box.content.part.name, []).append(box)
    return list(found.values())


def _part(circuit: Circuit, boxes: list[PlacedBox], shown: Shown) -> Iterator[str]:
    name = printable(boxes[0].content.part.name)
    yield f'<g class="part" id="drawing-part-{name}" data-part={quoteattr(name)}>'
    for box in boxes:
        shape = box.shape
        yield (
            f'<rect class="frame" x="{box.x:.1f}" y="{box.y:.1f}" width="{shape.width:.1f}" '
            f'height="{shape.height:.1f}" rx="3"/>'
        )
        for row, words in enumerate(shape.heading):
            x = box.x + (shape.width - width_of(words)) / 2
            yield text(x, box.y + PAD + (row + 0.75) * LINE, words, "" if row else "name")
        yield from inside(circuit, box, shown)
        for number in range(len(shape.rows)):
            yield from _terminals(box, number)
    yield "</g>"


def _terminals(box: PlacedBox, number: int) -> Iterator[str]:
    """The bars at a row's edges, and the marks beside them."""
    row, y = box.shape.rows[number], box.y + box.shape.middle(number)
    for end in dict.fromkeys(filter(None, (row.left, row.right))):
        sides = [side for side, other in ((LEFT, row.left), (RIGHT, row.right)) if other == end]
        mark = mark_of(box.content, end)
        yield f'<g class="terminal" data-terminal={quoteattr(printable(end))}>'
        wired = [side for side in sides if (end, side) in box.slots]
        for side in wired or sides[:1]:
            slots = box.slots.get((end, side), (y,))
            x = box.x + (0.0 if side == LEFT else box.shape.width) - BAR / 2
            top, bottom = slots[0] - 6, slots[-1] + 6
            name = "bar" if wired else "free"
            yield f'<rect class="{name}" x="{x:.1f}" y="{top:.1f}" width="{BAR}" height="{bottom - top:.1f}" rx="2"/>'
        if len(wired) > 1:
            yield f'<path class="line" d="M{box.x:.1f} {y:.1f}h{box.shape.width:.1f}"/>'
            yield _patch(box, y, mark)
        if box.content.through or box.content.end:
            x = box.x + (box.shape.width - width_of(mark)) / 2
        elif sides[0] == LEFT:
            x = box.x + BAR / 2 + 3
        else:
            x = box.x + box.shape.width - BAR / 2 - 3 - width_of(mark)
        if box.content.end:
            yield f'<text class="sign" x="{box.x + box.shape.width / 2:.1f}" y="{y + 6:.1f}">{SIGNS[mark]}</text>'
        else:
            yield text(x, y + LETTERS * 0.36, mark)
        yield "</g>"


def _patch(box: PlacedBox, y: float, mark: str) -> str:
    """Clears the middle of a terminal that wires come to from both sides, for its mark."""
    width = width_of(mark) + 2 * PAD if mark else 0.0
    left = box.x + (box.shape.width - width) / 2
    return f'<rect class="clear" x="{left:.1f}" y="{y - LINE / 2:.1f}" width="{width:.1f}" height="{LINE}"/>'
