"""Speed against time as a drawing (SVG 1.1) that stands alone and needs no colour: a start and the furthest stop for
each direction of each motor.

Between the two lines lies what the figures' ranges leave open.
"""

from collections.abc import Iterator
from xml.sax.saxutils import escape

from circuitcheck.reports.cautions import CAUTION, MOTION_CAUTION
from circuitcheck.reports.motion_asking import Moved
from circuitcheck.reports.motion_chart import Curve, Panel, panels_of
from circuitcheck.reports.motion_words import sense_words, time_words
from circuitcheck.reports.problems import columns, printable
from circuitcheck.reports.styled import wrapped
from circuitcheck.reports.trace_svg import DRAWING, LETTERS, LINE, MARGIN, SIGN, svg_line, svg_text

WIDTH = 760
GAP, HIGH, LABEL = 40, 140, 46
"""Between two panels; the height of a panel's field; room for the figures beside it."""
POINTS = 80
"""Points of a curve."""


def motion_svg(moved: Moved) -> str:
    """Title, a row of panels for each direction, and the cautions under them."""
    signs = int((WIDTH - 2 * MARGIN) / SIGN)
    body: list[str] = []
    top = MARGIN
    for row in wrapped(printable(moved.title).split(), " ", signs):
        top += LINE
        body.append(svg_text(MARGIN, top, row, bold=True))
    for motion in moved.motions:
        motor = moved.circuit.motors[motion.motor]
        for sense in motion.senses:
            top += 2 * LINE
            body.append(svg_text(MARGIN, top, printable(sense_words(moved.circuit, motor, sense)), bold=True))
            panels = panels_of(moved.circuit, sense)
            if not panels:
                top += LINE
                body.append(svg_text(MARGIN, top, "The plan lacks figures for this direction."))
            for place, panel in enumerate(panels):
                body += _panel(panel, MARGIN + place * (WIDTH - 2 * MARGIN + GAP) / 2, top + LINE)
            top += (2 * LINE + HIGH + LINE) if panels else 0
    for text in (MOTION_CAUTION, CAUTION):
        top += LINE
        for row in wrapped(text.split(), " ", signs):
            top += LINE
            body.append(svg_text(MARGIN, top, row))
    return DRAWING.format(
        width=WIDTH, height=top + MARGIN, title=escape(printable(moved.title)), letters=LETTERS, body="\n".join(body)
    )


def _panel(panel: Panel, left: float, top: float) -> Iterator[str]:
    across = (WIDTH - 2 * MARGIN - GAP) / 2 - LABEL
    field = left + LABEL
    yield svg_text(left, top + LETTERS, _shortened(f"{printable(panel.title)}, rpm", int((across + LABEL) / SIGN)))
    above = top + LINE
    near, far = (list(_points(curve, panel, field, above, across)) for curve in panel.curves)
    yield f'<polygon points="{_joined(near + far[::-1])}" fill="#ccc"/>'
    for points in (near, far):
        yield f'<polyline points="{_joined(points)}" fill="none" stroke="black" stroke-width="1.5"/>'
    yield svg_line(field, above, field, above + HIGH, "black")
    yield svg_line(field, above + HIGH, field + across, above + HIGH, "black")
    end = time_words(panel.seconds)
    for label, down in ((f"{panel.rpm:.3g}", LETTERS), ("0", HIGH)):
        yield svg_text(field - 6 - columns(label) * SIGN, above + down, label)
    yield svg_text(field, above + HIGH + LINE, "0")
    yield svg_text(field + across - columns(end) * SIGN, above + HIGH + LINE, end)


def _points(curve: Curve, panel: Panel, left: float, top: float, across: float) -> Iterator[tuple[float, float]]:
    for number in range(POINTS + 1):
        share = number / POINTS
        yield left + share * across, top + HIGH * (1 - curve.rpm_at(share * panel.seconds) / panel.rpm)


def _joined(points: list[tuple[float, float]]) -> str:
    return " ".join(f"{x:.1f},{y:.1f}" for x, y in points)


def _shortened(text: str, signs: int) -> str:
    return text if columns(text) <= signs else f"{text[: signs - 1]}…"
