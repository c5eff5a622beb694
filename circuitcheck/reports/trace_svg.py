"""The timing chart of a trace as a drawing (SVG 1.1) that stands alone and needs no colour.

Every text is as wide as its signs times a fixed share of the letters' height, and says so to the viewer (textLength):
whatever fixed-width letters the viewer has, no two texts overlap.
"""

from collections.abc import Iterator
from xml.sax.saxutils import escape

from circuitcheck.reports.cautions import CAUTION
from circuitcheck.reports.problems import columns, printable
from circuitcheck.reports.styled import wrapped
from circuitcheck.reports.trace_asking import Told
from circuitcheck.reports.trace_chart import Chart, chart_of, labels_of
from circuitcheck.reports.trace_words import changes_words, left_out_words, moves_words, remarks_words

MARGIN, LANE, STEP, LETTERS, LINE = 24, 20, 34, 13, 18
"""Sizes in the drawing's own units; LETTERS is the height of letters, LINE from one line of text to the next."""
SIGN = 0.6 * LETTERS
"""The width of one sign."""
NARROWEST = 700
MOST_STEPS = 24
"""The width of the narrowest drawing; the steps side by side in the widest."""

DRAWING = """\
<?xml version="1.0" encoding="UTF-8"?>
<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width} {height}" width="{width}" height="{height}" role="img">
<title>{title}</title>
<rect width="100%" height="100%" fill="white"/>
<g font-family="DejaVu Sans Mono, Consolas, monospace" font-size="{letters}" fill="black">
{body}
</g>
</svg>
"""


def trace_svg(told: Told) -> str:
    """Title, chart, and the steps in words under it."""
    chart = chart_of(told)
    parts = list(_parts(len(told.trace.steps)))
    left = MARGIN + round(_label_width(chart)) + 12
    width = max(left + len(parts[0]) * STEP + MARGIN, NARROWEST)
    signs = int((width - 2 * MARGIN) / SIGN)
    body: list[str] = []
    top = MARGIN
    for row in wrapped(printable(told.title).split(), " ", signs):
        top += LINE
        body.append(svg_text(MARGIN, top, row, bold=True))
    top += LINE
    for part in parts if chart.lanes else ():
        body += _chart(chart, left, top, part)
        top += LINE + len(chart.lanes) * LANE + LINE
    for row in _words(told, chart, signs):
        top += LINE
        body += [svg_text(MARGIN, top, row)] if row else []
    return DRAWING.format(
        width=width, height=top + MARGIN, title=escape(printable(told.title)), letters=LETTERS, body="\n".join(body)
    )


def _parts(count: int) -> Iterator[range]:
    """So many steps as few equal parts, each narrow enough to be read when it is printed across a page."""
    shown = -(-count // -(-count // MOST_STEPS))
    for first in range(0, count, shown):
        yield range(first, min(first + shown, count))


def _label_width(chart: Chart) -> float:
    labels = labels_of(chart)
    names, words = [columns(name) for name, _ in labels], [columns(word) for _, word in labels]
    return (max(names, default=0) + 2 + max(words, default=0)) * SIGN


def _chart(chart: Chart, left: int, top: int, steps: range) -> Iterator[str]:
    labels = labels_of(chart)
    word_left = MARGIN + (max(columns(name) for name, _ in labels) + 2) * SIGN
    right, bottom = left + len(steps) * STEP, top + LINE + len(labels) * LANE
    for place, step in enumerate(steps):
        middle = left + place * STEP + STEP / 2 - len(str(step)) * SIGN / 2
        yield svg_text(middle, top + LETTERS, str(step))
        yield svg_line(left + place * STEP, top + LINE, left + place * STEP, bottom, "#bbb")
    yield svg_line(right, top + LINE, right, bottom, "#bbb")
    for number, (lane, (name, word)) in enumerate(zip(chart.lanes, labels, strict=True)):
        above = top + LINE + number * LANE
        if name:
            yield svg_line(MARGIN, above, right, above, "black")
            yield svg_text(MARGIN, above + LANE - 6, name, bold=True)
        yield svg_text(word_left, above + LANE - 6, word)
        yield svg_line(left, above + LANE - 4, right, above + LANE - 4, "#888")
        for first, length in _stretches(lane.filled[steps.start : steps.stop]):
            yield (
                f'<rect x="{left + first * STEP}" y="{above + 4}" width="{length * STEP}" height="{LANE - 8}" '
                'fill="#333"/>'
            )
    yield svg_line(MARGIN, bottom, right, bottom, "black")


def _stretches(filled: tuple[bool, ...]) -> Iterator[tuple[int, int]]:
    """Each stretch of filled steps: its first step and its length."""
    first = 0
    for step in range(len(filled) + 1):
        if step == len(filled) or not filled[step]:
            if step > first:
                yield first, step - first
            first = step + 1


def _words(told: Told, chart: Chart, signs: int) -> Iterator[str]:
    """The lines under the chart, each no wider than so many signs."""
    if chart.unchanged:
        yield from wrapped(f"All along: {', '.join(chart.unchanged)}".split(), " ", signs)
        yield ""
    for number in range(len(told.trace.steps)):
        text = "; ".join([moves_words(told, number), *changes_words(told, number)])
        parts = [f"{text}.", *remarks_words(told, number)]
        head = f"{number:<4}"
        for row in wrapped(printable(" ".join(parts)).split(), " ", signs - len(head)):
            yield f"{head}{row}"
            head = " " * len(head)
    yield ""
    for text in filter(None, (left_out_words(told), CAUTION)):
        yield from wrapped(printable(text).split(), " ", signs)
        yield ""


def svg_text(x: float, y: float, text: str, *, bold: bool = False) -> str:
    """A text whose left end is at x, and as wide as it says."""
    weight = ' font-weight="bold"' if bold else ""
    length = f'{columns(text) * SIGN:.1f}"' + ' lengthAdjust="spacingAndGlyphs'
    return f'<text x="{x:.1f}" y="{y:.1f}" xml:space="preserve" textLength="{length}"{weight}>{escape(text)}</text>'


def svg_line(x: float, y: float, to_x: float, to_y: float, colour: str) -> str:
    """A thin straight line."""
    return f'<line x1="{x}" y1="{y}" x2="{to_x}" y2="{to_y}" stroke="{colour}" stroke-width="1"/>'
