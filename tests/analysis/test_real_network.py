"""Motors in one network that turn or are stalled by one another."""

import pytest

from circuitcheck.analysis.currents import currents
from circuitcheck.analysis.resistances import Setting
from tests.reference.asking import facts_of

IN_A_ROW = """
    supply PS 12 V 20 A
    motor  M1 M2 12 V stall 12 A
    rung   PS.+, M1, M2, PS.-
"""


@pytest.mark.parametrize("lighter", [0, 1])
def test_of_two_motors_in_a_row_the_one_that_needs_more_is_stalled_by_the_other(lighter: int) -> None:
    """Both could turn at 6 V each; then the lighter one lets 2 A through, too little for the other's 5 A."""
    facts = facts_of(IN_A_ROW)
    (case,) = currents(facts, 0, Setting(turning={lighter: 2.0, 1 - lighter: 5.0}))
    assert case.delivered[0] == pytest.approx(2.0)
    assert case.volts[lighter] == pytest.approx(10.0)
    assert case.volts[1 - lighter] == pytest.approx(2.0)
