"""What turning motors bring back to supplies, in figures worked out by hand."""

import pytest

from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.regeneration import overhauled_motors, pushed_supplies
from tests.analysis.test_hands import where
from tests.reference.asking import facts_of

TWO_SUPPLIES = """
    supply PS1 24 V 10 A
    supply PS2 12 V 10 A {electronic}
    switch S1 S2 spdt positions fast off slow
    motor  M2 two-speed 24 V stall 10 A may coast
    motor  M1 24 V stall 10 A {free} may coast
    wire   PS1.- PS2.-
    rung   PS1.+, S1.fast
    rung   PS2.+, S1.slow
    rung   S1.com, {motor}, PS1.-
    rung   PS1.+, S2.fast
    rung   PS2.+, S2.slow
    rung   S2.com, M2.low
    rung   M2.-, PS1.-
"""
BRIDGE = """
    supply PS 12 V 10 A {electronic}
    switch S1 dpdt positions raise off lower
    axis   jaw from shut to open
    axis   deck from bottom to top, {figures}
    motor  M2 12 V stall 10 A drives jaw toward open
    motor  M3 12 V stall 10 A 20 N m
    motor  M1 12 V stall 16..18 A 20..22 N m free 1.5..2 A 40 rpm drives deck toward top
    rung   PS.+, ( S1.raise1 | S1.lower2 )
    rung   PS.-, ( S1.lower1 | S1.raise2 )
    rung   S1.com1, M1, S1.com2
    rung   S1.com1, M2, S1.com2
    rung   S1.com1, M3, S1.com2
"""


FREE = "free 0.5..0.9 A 60 rpm"


@pytest.mark.parametrize("electronic", ["withstands 15 V", "limit 12 A"])
@pytest.mark.parametrize("motor", ["M1", "M1.--+"])
@pytest.mark.parametrize(("free", "made"), [(FREE, 22.8), ("", 24.0)])
def test_a_motor_pushes_a_supply_up_to_what_it_makes_as_it_runs_free(
    electronic: str, motor: str, free: str, made: float
) -> None:
    """24 V less 0.5 A at least in 2.4 ohm, either way round; what a motor of two speeds makes is not known."""
    (pushed,) = pushed_supplies(facts_of(TWO_SUPPLIES.format(electronic=electronic, motor=motor, free=free)))
    assert (pushed.motor.name, pushed.supply.name) == ("M1", "PS2")
    assert pushed.made == pytest.approx(made)
    assert pushed.volts == pytest.approx(made, abs=1e-3)


@pytest.mark.parametrize("electronic", ["", "internal 500 mohm", "withstands 22.8 V"])
def test_a_supply_that_stands_what_a_motor_makes_is_not_pushed(electronic: str) -> None:
    """Nor is a battery, which takes current back."""
    assert not list(pushed_supplies(facts_of(TWO_SUPPLIES.format(electronic=electronic, motor="M1", free=FREE))))


@pytest.mark.parametrize(("brake", "pushed"), [("wire K1.12 PS1.-", False), ("", True)])
def test_a_motor_that_is_braked_on_its_way_to_a_supply_does_not_push_it(brake: str, pushed: bool) -> None:
    """A relay lets go where the switch passes its middle position, and with it the motor."""
    facts = facts_of(f"""
        supply PS1 24 V 10 A
        supply PS2 12 V 10 A withstands 15 V
        switch S1 dpdt positions fast off slow
        relay  K1 spdt coil 24 V 600 ohm
        motor  M1 24 V stall 10 A may coast
        wire   PS1.- PS2.-
        rung   PS1.+, S1.fast1
        rung   PS2.+, S1.slow1
        rung   PS1.+, S1.com2
        rung   S1.fast2, K1.A1-A2, PS1.-
        wire   S1.slow2 K1.A1
        rung   S1.com1, K1.14-11, M1, PS1.-
        {brake}
    """)
    assert bool(list(pushed_supplies(facts))) == pushed


def test_each_supply_that_a_motor_pushes_is_told_whichever_way_it_is_joined() -> None:
    """One is joined either way round; the other only to what the motor makes in reverse."""
    facts = facts_of("""
        supply PS1 24 V 10 A
        supply PS2 PS3 12 V 10 A withstands 15 V
        switch S1 2 poles 5 ways positions ahead back slow crawl creep
        motor  M1 24 V stall 10 A may coast
        rung   PS2.-, PS1.-, PS3.-
        rung   PS1.+, ( S1.ahead1 | S1.back2 )
        rung   PS1.-, ( S1.ahead2 | S1.back1 | S1.slow2 | S1.crawl1 | S1.creep1 )
        rung   PS3.+, ( S1.slow1 | S1.crawl2 )
        rung   PS2.+, S1.creep2
        rung   S1.com1, M1, S1.com2
    """)
    assert {one.supply.name for one in pushed_supplies(facts)} == {"PS2", "PS3"}


@pytest.mark.parametrize(("volts", "pushed"), [(3, False), (23, True)])
def test_only_a_motor_that_is_driven_at_all_pushes_a_supply(volts: int, pushed: bool) -> None:
    """3 of its 24 V don't turn it."""
    facts = facts_of(f"""
        supply PS1 {volts} V 10 A
        supply PS2 2 V 10 A withstands 2.5 V
        switch S1 spdt positions fast off slow
        motor  M1 24 V stall 10 A may coast
        wire   PS1.- PS2.-
        rung   PS1.+, S1.fast
        rung   PS2.+, S1.slow
        rung   S1.com, M1, PS1.-
    """)
    assert bool(list(pushed_supplies(facts))) == pushed


def bridge(figures: str, electronic: str = "withstands 16 V") -> Facts:
    """A deck with these figures, driven up and down; a jaw without any goes with it."""
    return facts_of(BRIDGE.format(figures=figures, electronic=electronic))


def test_a_weight_beyond_friction_and_the_motors_own_losses_feeds_back_as_it_goes_down() -> None:
    """(5 - 0.2) N m by 18 A for 20 N m, less 1.5 A that the motor takes running free."""
    facts = bridge("friction 0.2..0.4 N m, gravity 4..5 N m")
    (found,) = overhauled_motors(facts)
    assert (found.motor.name, found.supply.name) == ("M1", "PS")
    assert found.amps == pytest.approx(4.8 * 18 / 20 - 1.5)
    lowered = facts.motors[[motor.name for motor in facts.circuit.motors].index("M1")].reverse
    assert found.states.same_as(lowered)
    (free,) = overhauled_motors(bridge("gravity 4..5 N m"))
    assert free.amps == pytest.approx(5 * 18 / 20 - 1.5)
    (little,) = overhauled_motors(bridge("gravity 2 N m"))
    assert little.amps == pytest.approx(2 * 18 / 20 - 1.5)


@pytest.mark.parametrize(
    ("figures", "electronic"),
    [
        ("friction 0.2..0.4 N m, gravity 1 N m", "withstands 16 V"),
        ("friction 0.2..0.4 N m", "withstands 16 V"),
        ("gravity 4..5 N m", ""),
    ],
)
def test_no_weight_feeds_back_that_the_motor_eats_or_a_battery_takes(figures: str, electronic: str) -> None:
    """Nor one that isn't told."""
    assert not list(overhauled_motors(bridge(figures, electronic)))


@pytest.mark.parametrize(
    "amps", ["stall 16..18 A 20..22 N m free 1.5..2 A", "stall 0.5..0.6 A 0.6..0.7 N m free 0.05 A"]
)
def test_a_weight_feeds_back_only_into_the_supply_that_feeds_its_motor(amps: str) -> None:
    """Of two behind diodes the one with more volts does, however little; it is a battery, the other is not."""
    facts = facts_of(f"""
        supply PS1 15 V 10 A
        supply PS2 12 V 10 A withstands 20 V
        diode  D1 D2
        switch S1 dpdt positions raise off lower
        axis   deck from bottom to top, gravity 4..5 N m
        motor  M1 12 V {amps} 40 rpm drives deck toward top
        splice BUS
        rung   PS1.+, D1, BUS
        rung   PS2.+, D2, BUS
        rung   PS1.-, PS2.-
        rung   BUS, ( S1.raise1 | S1.lower2 )
        rung   PS1.-, ( S1.lower1 | S1.raise2 )
        rung   S1.com1, M1, S1.com2
    """)
    (found,) = overhauled_motors(facts)
    alone = where(facts, PS1="off", PS2="on", S1="lower")
    assert found.supply.name == "PS2"
    assert facts.possible(found.states).same_as(alone)
