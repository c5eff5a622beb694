"""Speed against time, for the screen: a field of cells, and the points of a curve for any drawing.

40 ████████▒▒
   ████████▒▒▒
   █████████▒▒▒▒
 0 ██████████▒▒▒▒▒▒
   0           170 ms
"""

from collections.abc import Sequence
from math import isinf, log
from typing import Final, NamedTuple

from circuitcheck.analysis.motion.answers import Sense, Stop
from circuitcheck.analysis.motion.constants import RAD_PER_RPM
from circuitcheck.analysis.motion.stops import legs_of, speeds_of
from circuitcheck.analysis.motion.stretches import Stretch
from circuitcheck.circuit.model import Circuit
from circuitcheck.reports.motion_words import cause_words, time_words

ROWS: Final = 6
STILL: Final = 0.01
"""The share of its speed below which a shaft that never quite stands is drawn as standing."""
LONGEST: Final = 2.0
"""Seconds drawn of a shaft that never stops."""
SURE, POSSIBLE = "█", "▒"


class Curve(NamedTuple):
    """Speed against time: pieces, one after the other, of so many seconds each."""

    stretches: tuple[Stretch, ...]

    @property
    def seconds(self) -> float:
        """Until it stands."""
        return sum(one.seconds for one in self.stretches)

    def rpm_at(self, seconds: float) -> float:
        """The speed; 0 once it stands."""
        for one in self.stretches:
            if seconds <= one.seconds:
                return max(one.speed_at(seconds), 0.0) / RAD_PER_RPM
            seconds -= one.seconds
        return 0.0


class Panel(NamedTuple):
    """A chart: the curve that ends first and the one that ends last, over so many seconds, up to so many rpm."""

    title: str
    curves: tuple[Curve, Curve]
    seconds: float
    rpm: float


def panels_of(circuit: Circuit, sense: Sense) -> list[Panel]:
    """How a motor starts in one direction and how it stops at its worst, as far as the figures tell."""
    stop = _shown_stop(sense)
    panels = [_start_panel(sense)]
    if stop is not None:
        panels.append(_stop_panel(stop, f"stop by {cause_words(circuit, stop).split(', ')[0]}"))
    return [panel for panel in panels if panel]


def _start_panel(sense: Sense) -> Panel | None:
    """From standstill; None where the figures don't tell, or it may not start."""
    start = sense.start
    if start is None or isinf(start.seconds[1]):
        return None
    drags = [log(20) / seconds for seconds in start.seconds]
    seconds = start.seconds[1] * 1.1
    quick, slow = (Curve((Stretch(seconds, 0.0, start.speed[1 - end] * drags[end], drags[end]),)) for end in (0, 1))
    return Panel("start", (slow, quick), seconds, start.speed[1] / RAD_PER_RPM)


def _stop_panel(stop: Stop, title: str) -> Panel | None:
    """A way to stop; None where it isn't worked out."""
    if stop.pair is None:
        return None
    near, far = (
        Curve(tuple(_cut(one) for _, one in speeds_of(legs_of(stop.way, end), pace, carried=end > 0)))
        for end, pace in enumerate(stop.pair)
    )
    rpm = max(pace.speed for pace in stop.pair) / RAD_PER_RPM
    return Panel(title, (near, far), max(near.seconds, far.seconds) * 1.05, rpm) if rpm and far.seconds else None


def _shown_stop(sense: Sense) -> Stop | None:
    """The one that is drawn: the worst at a limit, else the furthest of all."""
    known = [stop for stop in sense.stops if stop.whole is not None]
    return max(known, key=lambda one: (one.room is not None, one.whole.turns[1] if one.whole else 0.0), default=None)


def chart_text(panel: Panel, width: int) -> list[str]:
    """The chart in so many columns: title, rows of speed, a line of time."""
    labels = [f"{panel.rpm:.3g}", *[""] * (ROWS - 2), "0"]
    margin = max(len(label) for label in labels) + 1
    columns = width - margin
    near, far = (_levels(curve, panel, columns) for curve in panel.curves)
    lines = [f"{panel.title}, rpm"]
    for row, label in enumerate(labels):
        level = (ROWS - row - 0.5) / ROWS
        cells = (_cell(here, there, level) for here, there in zip(near, far, strict=True))
        lines.append(f"{label:>{margin - 1}} {''.join(cells)}".rstrip())
    end = time_words(panel.seconds)
    lines.append(f"{'':{margin}}0{end:>{columns - 1}}")
    return lines


def _levels(curve: Curve, panel: Panel, columns: int) -> list[float]:
    return [curve.rpm_at((column + 0.5) / columns * panel.seconds) / panel.rpm for column in range(columns)]


def _cell(here: float, there: float, level: float) -> str:
    if min(here, there) >= level:
        return SURE
    return POSSIBLE if max(here, there) >= level else " "


def _cut(stretch: Stretch) -> Stretch:
    """A stretch without end, as far as it is drawn."""
    if not isinf(stretch.seconds):
        return stretch
    fading = stretch.drag and not stretch.push
    return stretch._replace(seconds=-log(STILL) / stretch.drag if fading else LONGEST)


def side_by_side(charts: Sequence[list[str]], width: int, gap: int = 2) -> list[str]:
    """Charts of as many lines beside each other, each so wide."""
    return [(" " * gap).join(f"{line:<{width}}" for line in row).rstrip() for row in zip(*charts, strict=True)]
