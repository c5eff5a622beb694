"""Wires by their numbers."""

from circuitcheck.circuit.building import build_circuit
from circuitcheck.circuit.wire_numbers import wire_numbers
from circuitcheck.plan.reading import read_text


def test_wires_without_a_number_get_the_lowest_ones_that_are_free() -> None:
    """In the plan's order; what the plan says stays, also where it says one number twice."""
    plan = """
supply PS 12 V
splice N1 N2
wire PS.+ N1 : red
wire N1 N2 : w2
wire N1 PS.- : lamp1
wire N2 PS.- : w2
rung N2, PS.+
"""
    assert wire_numbers(build_circuit(read_text("a.plan", plan))) == ("w1", "w2", "lamp1", "w2", "w3")
