"""Small plans, and their sizes."""

from circuitcheck.analysis.facts import analyse
from circuitcheck.circuit.building import build_circuit
from circuitcheck.plan.reading import read_text
from circuitcheck.sizing.sized import Sized
from circuitcheck.sizing.sizing import Sizing, size_circuit

AROUND = "conditions ambient 5..30 °C, insulation 105 °C, bundled 2 wires, wire 1.5 mm2 0.5 m\n"
"""Conditions in which 1.5 mm2 carries the 13.1 A of its table."""
STIFF = "supply PS 12 V 10 A internal 20 mohm\n"


def sizes(text: str) -> Sizing:
    """The sizes of a plan's text."""
    return size_circuit(analyse(build_circuit(read_text("prop.plan", text))))


def one(found: Sizing, name: str) -> Sized:
    """The verdict on a wire by its number or ends, or on a part by its name or its contact's."""
    (sized,) = (sized for sized in found.every if name in (sized.name, sized.name.split(" ")[0]))
    return sized


def told(sized: Sized) -> str:
    """All that is remarked of it."""
    return " ".join(sized.remarks)
