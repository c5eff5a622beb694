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


@pytest.mark.parametrize(("motors", "sign"), [(("M1", "M2"), 1), (("M1.--+", "M2.--+"), -1)])
def test_a_motor_is_stalled_where_another_one_before_it_leaves_it_too_little(
    motors: tuple[str, str], sign: int
) -> None:
    """At rest M2 would have 0.6 V, enough for 0.12 A. But M1 lets 0.2 A through once it turns: with 0.08 A in R1
    M2 has 0.16 V, too little; so it stands, 2 ohm beside 2 ohm. And the other way round."""
    first, second = motors
    facts = facts_of(f"""
        supply PS 1.2 V 20 A
        motor  M1 1.2 V stall 1.2 A
        motor  M2 1.2 V stall 0.6 A
        resistor R1 2 ohm
        rung   PS.+, {first}, ( {second} | R1 ), PS.-
    """)
    numbers = {one.name: number for number, one in enumerate(facts.circuit.loads)}
    (case,) = currents(facts, numbers["M2"], Setting(turning={numbers["M1"]: 0.2, numbers["M2"]: 0.12}))
    assert case.volts[numbers["M2"]] == pytest.approx(sign * 0.2)
    assert case.volts[numbers["M1"]] == pytest.approx(sign * 1.0)


def test_a_motor_that_is_said_to_draw_more_turning_than_it_gets_at_rest_stands() -> None:
    """2 ohm at 0.4 V let 0.2 A through, whichever way round; 0.2 A is just what it would draw, and all the same."""
    facts = facts_of("supply PS 0.4 V 1 A\nmotor M1 0.4 V stall 0.2 A\nrung PS.+, M1, PS.-\n")
    for amps in (0.2, 0.3):
        (case,) = currents(facts, 0, Setting(turning={0: amps}))
        assert case.delivered[0] == pytest.approx(0.2)
