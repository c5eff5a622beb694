"""Speed against time as a picture (PNG), for documents that take no SVG: the panels of motion_svg.py, by matplotlib.

The same plan and the same matplotlib give the same bytes: nothing of the day or the machine goes in.
"""

from io import BytesIO
from typing import TYPE_CHECKING

from circuitcheck.reports.cautions import CAUTION, MOTION_CAUTION
from circuitcheck.reports.motion_asking import Moved
from circuitcheck.reports.motion_chart import Panel, panels_of
from circuitcheck.reports.motion_words import sense_words
from circuitcheck.reports.problems import printable
from circuitcheck.reports.styled import wrapped

if TYPE_CHECKING:
    from matplotlib.axes import Axes

POINTS = 200
"""Points of a curve."""
ROW_INCHES, WIDTH_INCHES, SIGNS = 2.6, 9.0, 110


def motion_png(moved: Moved) -> bytes:
    """A row for each direction of each motor. ImportError where matplotlib is not installed."""
    from matplotlib.backends.backend_agg import FigureCanvasAgg
    from matplotlib.figure import Figure

    rows = [
        (printable(sense_words(moved.circuit, moved.circuit.motors[motion.motor], sense)), sense)
        for motion in moved.motions
        for sense in motion.senses
    ]
    figure = Figure((WIDTH_INCHES, ROW_INCHES * max(len(rows), 1) + 1.2), layout="constrained")
    figure.suptitle(_plain(moved.title))
    for number, (title, sense) in enumerate(rows):
        panels = panels_of(moved.circuit, sense)
        for place in range(2):
            axes = figure.add_subplot(len(rows), 2, 2 * number + place + 1)
            axes.set_title(_plain(title if place == 0 else ""), loc="left", fontsize=9)
            if place < len(panels):
                _draw(axes, panels[place])
            else:
                axes.set_axis_off()
        if not panels:
            figure.axes[-2].text(0, 0.5, "The plan lacks figures for this direction.", fontsize=9)
    cautions = [line for text in (MOTION_CAUTION, CAUTION) for line in wrapped(text.split(), " ", SIGNS)]
    figure.supxlabel("\n".join(cautions), fontsize=7)
    found = BytesIO()
    FigureCanvasAgg(figure)
    figure.savefig(found, format="png", metadata={"Software": None})
    return found.getvalue()


def _draw(axes: "Axes", panel: Panel) -> None:
    """Between the two lines lies what the figures' ranges leave open."""
    moments = [number / POINTS * panel.seconds for number in range(POINTS + 1)]
    near, far = ([curve.rpm_at(moment) for moment in moments] for curve in panel.curves)
    axes.fill_between(moments, near, far, color="0.8")
    for speeds in (near, far):
        axes.plot(moments, speeds, color="black", linewidth=1)
    axes.set_xlabel(f"{_plain(printable(panel.title))}: seconds", fontsize=8)
    axes.set_ylabel("rpm", fontsize=8)
    axes.tick_params(labelsize=7)
    axes.set_xlim(0, panel.seconds)
    axes.set_ylim(0, panel.rpm * 1.05)


def _plain(text: str) -> str:
    """matplotlib takes what stands between two $ for a formula."""
    return text.replace("$", r"\$")
