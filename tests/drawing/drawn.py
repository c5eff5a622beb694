"""Drawings for tests: every example, laid out once."""

from functools import cache
from pathlib import Path

from circuitcheck.circuit.building import build_circuit
from circuitcheck.circuit.model import Circuit
from circuitcheck.circuit.stories import usual_beginning
from circuitcheck.drawing.drawing import Drawing, lay_out
from circuitcheck.drawing.shown import at_rest
from circuitcheck.plan.reading import read_text
from circuitcheck.reports.drawing_svg import drawing_svg
from tests.benchmarks.panels import panel
from tests.test_examples import RIGHT, WRONG, facts_of

EXAMPLES = [*RIGHT, *WRONG]
MOTORS = 22
"""Motors of the panel that is drawn as a large plan: more than two hundred parts."""


@cache
def drawing_of(path: Path) -> Drawing:
    """An example's drawing."""
    return lay_out(facts_of(path).circuit)


def svg_of(circuit: Circuit, drawing: Drawing) -> str:
    """At rest."""
    return drawing_svg(circuit, drawing, at_rest(circuit, usual_beginning(circuit)), "Title", "State")


def large_panel() -> Circuit:
    """Two hundred parts."""
    return build_circuit(read_text("panel.plan", panel(MOTORS)))
