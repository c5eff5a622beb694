"""Every wire goes by a number."""

from circuitcheck.circuit.building import build_circuit
from circuitcheck.circuit.wire_numbers import wire_numbers
from circuitcheck.plan.reading import read_text

PLAN = """
supply PS 12 V
lamp   L1 12 V 2 W
lamp   L2 12 V 2 W
wire   PS.+ L1.1 : w2
wire   PS.+ L2.1
rung   L1.2, PS.-
rung   L2.2, PS.-
"""


def test_a_wire_keeps_the_number_that_the_plan_gives_it_and_others_take_the_free_ones() -> None:
    """In the plan's order; w2 is taken."""
    assert wire_numbers(build_circuit(read_text("lamps.plan", PLAN))) == ("w2", "w1", "w3", "w4")
