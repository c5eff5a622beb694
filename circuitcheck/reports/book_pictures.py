"""The drawings of a build book, as parts of its page."""

from typing import Final, NamedTuple

from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.states import TooWide
from circuitcheck.analysis.surroundings import TooManyCases
from circuitcheck.circuit.model import Circuit
from circuitcheck.circuit.stories import usual_beginning
from circuitcheck.drawing.drawing import lay_out
from circuitcheck.drawing.shown import at_rest
from circuitcheck.reports.drawing_asking import NO_PART, NOTHING_ON
from circuitcheck.reports.drawing_sheets import sheet_words
from circuitcheck.reports.drawing_svg import LEGEND, drawing_fragment
from circuitcheck.reports.ladder_asking import redrawn
from circuitcheck.reports.ladder_svg import ladder_rungs
from circuitcheck.reports.ladder_words import EMPTY_LADDER, READING, elsewhere_words

NO_DRAWING: Final = (
    "The wiring drawing is left out: pygraphviz, which lays it out, isn't installed. After pip install "
    "'circuitcheck[drawings]' make the book anew."
)
NO_LADDER: Final = "The ladder is left out: the box is too large for what its currents do to be worked out in full."


class Picture(NamedTuple):
    """above: how it is to be read, or why it isn't there. svgs: its elements; paper breaks between them. below: what
    belongs to it."""

    above: str
    svgs: tuple[str, ...] = ()
    below: tuple[str, ...] = ()


class Pictures(NamedTuple):
    """Both drawn of a circuit that nothing is switched on in."""

    ladder: Picture
    wiring: Picture


def book_pictures(facts: Facts) -> Pictures:
    """What is left out says so itself."""
    return Pictures(_ladder(facts), _wiring(facts.circuit))


def _ladder(facts: Facts) -> Picture:
    try:
        ladder = redrawn(facts)
    except (TooWide, TooManyCases):
        return Picture(NO_LADDER)
    if not ladder.ladder.rungs:
        return Picture(EMPTY_LADDER)
    stands = tuple(elsewhere_words(facts.circuit, ladder.ladder))
    return Picture(READING.format("the kind with a tick"), tuple(ladder_rungs(ladder)), stands)


def _wiring(circuit: Circuit) -> Picture:
    if not circuit.parts:
        return Picture(NO_PART)
    try:
        drawing = lay_out(circuit)
    except ImportError:
        return Picture(NO_DRAWING)
    svg = drawing_fragment(circuit, drawing, at_rest(circuit, usual_beginning(circuit)))
    return Picture(f"{NOTHING_ON} {LEGEND} {sheet_words(drawing)}".rstrip(), (svg,))
