"""The drawings of a build book, as parts of its page."""

from typing import Final, NamedTuple

from circuitcheck.circuit.model import Circuit
from circuitcheck.circuit.stories import usual_beginning
from circuitcheck.drawing.drawing import lay_out
from circuitcheck.drawing.shown import at_rest
from circuitcheck.reports.drawing_asking import NOTHING_ON
from circuitcheck.reports.drawing_svg import LEGEND, drawing_fragment

NO_DRAWING: Final = (
    "The wiring drawing is left out: pygraphviz, which lays it out, isn't installed. After pip install "
    "'circuitcheck[drawings]' make the book anew."
)


class Picture(NamedTuple):
    """svg: its element, "" where there is none and `told` says why. told: how it is to be read."""

    title: str
    svg: str
    told: str


def book_pictures(circuit: Circuit) -> tuple[Picture, ...]:
    """What is shown of a circuit that nothing is switched on in."""
    return (_wiring(circuit),)


def _wiring(circuit: Circuit) -> Picture:
    try:
        drawing = lay_out(circuit)
    except ImportError:
        return Picture("Wiring drawing", "", NO_DRAWING)
    svg = drawing_fragment(circuit, drawing, at_rest(circuit, usual_beginning(circuit)))
    return Picture("Wiring drawing", svg, f"{NOTHING_ON} {LEGEND}")
