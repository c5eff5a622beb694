"""What turning motors bring back to supplies, in figures worked out by hand."""

import pytest

from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.regeneration import overhauled_motors, pushed_supplies
from tests.reference.asking import facts_of

TWO_SUPPLIES = """
    supply PS1 24 V 10 A
    supply PS2 12 V 10 A {electronic}
    switch S1 S2 spdt positions fast off slow
    motor  M2 two-speed 24 V stall 10 A may coast
    motor  M1 24 V stall 10 A free 0.5 A 60 rpm may coast
    wire   PS1.- PS2.-
    rung   PS1.+, S1.fast
    rung   PS2.+, S1.slow
    rung   S1.com, M1, PS1.-
    rung   PS1.+, S2.fast
    rung   PS2.+, S2.slow
    rung   S2.com, M2.high
    rung   M2.-, PS1.-
"""
BRIDGE = """
    supply PS 12 V 10 A {electronic}
    switch S1 dpdt positions raise off lower
    axis   jaw from shut to open
    axis   deck from bottom to top, {figures}
    motor  M2 12 V stall 10 A drives jaw toward open
    motor  M1 12 V stall 18 A 20 N m free 1.5 A 40 rpm drives deck toward top
    rung   PS.+, ( S1.raise1 | S1.lower2 )
    rung   PS.-, ( S1.lower1 | S1.raise2 )
    rung   S1.com1, M1, S1.com2
    rung   S1.com1, M2, S1.com2
"""


@pytest.mark.parametrize("electronic", ["withstands 15 V", "limit 12 A"])
def test_a_motor_pushes_a_supply_up_to_what_it_makes_as_it_runs_free(electronic: str) -> None:
    """24 V less 0.5 A in 2.4 ohm; a motor of two speeds before it is left out, what it makes being unknown."""
    (pushed,) = pushed_supplies(facts_of(TWO_SUPPLIES.format(electronic=electronic)))
    assert (pushed.motor.name, pushed.supply.name) == ("M1", "PS2")
    assert pushed.made == pytest.approx(22.8)
    assert pushed.volts == pytest.approx(22.8, abs=1e-3)


@pytest.mark.parametrize("electronic", ["", "withstands 23 V"])
def test_a_supply_that_stands_what_a_motor_makes_is_not_pushed(electronic: str) -> None:
    """Nor is a battery, which takes current back."""
    assert not list(pushed_supplies(facts_of(TWO_SUPPLIES.format(electronic=electronic))))


def bridge(figures: str, electronic: str = "withstands 16 V") -> Facts:
    """A deck with these figures, driven up and down; a jaw without any goes with it."""
    return facts_of(BRIDGE.format(figures=figures, electronic=electronic))


def test_a_weight_beyond_friction_and_the_motors_own_losses_feeds_back_as_it_goes_down() -> None:
    """(5 - 0.2) N m by 18 A for 20 N m, less 1.5 A that the motor takes running free."""
    facts = bridge("friction 0.2..0.4 N m, gravity 5 N m")
    (found,) = overhauled_motors(facts)
    assert (found.motor.name, found.supply.name) == ("M1", "PS")
    assert found.amps == pytest.approx(4.8 * 18 / 20 - 1.5)
    lowered = facts.motors[[motor.name for motor in facts.circuit.motors].index("M1")].reverse
    assert found.states.same_as(lowered)
    (free,) = overhauled_motors(bridge("gravity 5 N m"))
    assert free.amps == pytest.approx(5 * 18 / 20 - 1.5)


@pytest.mark.parametrize(
    ("figures", "electronic"),
    [
        ("friction 0.2..0.4 N m, gravity 1 N m", "withstands 16 V"),
        ("friction 0.2..0.4 N m", "withstands 16 V"),
        ("gravity 5 N m", ""),
    ],
)
def test_no_weight_feeds_back_that_the_motor_eats_or_a_battery_takes(figures: str, electronic: str) -> None:
    """Nor one that isn't told."""
    assert not list(overhauled_motors(bridge(figures, electronic)))
