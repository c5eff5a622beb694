"""Motors that feed current back.

Sources: armature V = I R + K ω, so a motor's own volts stay below those that drove it by I R: rice.edu/~jdw/242_lab5;
engineeringdevotion.com dc-motor-braking-response. Free 0.5 A at 24 V, 2.4 ohm: 22.8 V, by that formula. What a weight
feeds back follows from torque in proportion to current (T = K I).
"""

from circuitcheck.checks import overvolted_supply
from circuitcheck.checks.check import Evidence
from tests.reference.asking import facts_of

DRUM = """
    supply PS1 24 V 10 A
    supply PS2 12 V 10 A {second}
    switch S1 spdt positions fast off slow
    {part}
    motor  M1 24 V stall 10 A free 0.5 A 60 rpm may coast
    wire   PS1.- PS2.-
    rung   PS1.+, S1.fast
    rung   PS2.+, {way}S1.slow
    rung   S1.com, M1, PS1.-
"""


def found(
    second: str = "withstands 15 V", positions: str = "fast off slow", part: str = "", way: str = ""
) -> list[Evidence]:
    """What the check finds for a drum with two speeds from two supplies."""
    plan = DRUM.format(second=second, positions=positions, part=part, way=way)
    return list(overvolted_supply.find(facts_of(plan)))


def test_a_drum_that_changes_from_24_to_12_volts_pushes_the_small_supply() -> None:
    """To its own volts, 24 V less 0.5 A in 2.4 ohm."""
    (one,) = found()
    assert "pushes PS2 up to 22.8 V" in one.what
    assert one.story is not None


def test_a_supply_that_stands_it_is_not_reported() -> None:
    """It may withstand 25 V, or be a battery, of which nothing is said."""
    assert not found(second="withstands 25 V")
    assert not found(second="")


def test_a_supply_with_a_current_limit_and_no_other_figure_is_held_to_its_own_volts() -> None:
    """It takes no current back either."""
    assert len(found(second="limit 12 A")) == 1


def test_a_diode_keeps_the_supply_as_it_is() -> None:
    """It only lets the supply give."""
    assert not found(part="diode D1", way="D1, ")


BRAKED = """
    supply PS1 24 V 10 A
    supply PS2 12 V 10 A withstands 15 V
    switch S1 dpdt positions fast off slow
    relay  K1 {contact} coil 24 V 640 ohm with diode
    motor  M1 24 V stall 10 A may coast
    wire   PS1.- PS2.-
    rung   PS1.+, S1.fast1
    rung   PS2.+, S1.slow1
    rung   PS1.+, ( S1.fast2 | S1.slow2 )
    rung   S1.com2, K1.A1-A2, PS1.-
    rung   S1.com1, K1.{pair}, M1, PS1.-
    {brake}
"""


def test_a_relay_that_brakes_at_off_slows_the_drum_first() -> None:
    """With its resting contact to minus there is a brake on the way from fast to slow; without it there is none."""
    braking = BRAKED.format(contact="spdt", pair="14-11", brake="wire K1.12 PS1.-")
    assert not list(overvolted_supply.find(facts_of(braking)))
    coasting = BRAKED.format(contact="no", pair="13-14", brake="")
    assert len(list(overvolted_supply.find(facts_of(coasting)))) == 1


def test_reversing_at_speed_pushes_no_supply_up() -> None:
    """Plugging draws twice the stall current out of the supply; it brings nothing back."""
    assert not list(
        overvolted_supply.find(
            facts_of("""
                supply PS 12 V 10 A limit 40 A withstands 13 V
                switch S1 dpdt positions open close
                motor  M1 12 V stall 8 A may coast
                rung   PS.+, ( S1.open1 | S1.close2 )
                rung   PS.-, ( S1.close1 | S1.open2 )
                rung   S1.com1, M1, S1.com2
            """)
        )
    )


BRIDGE = """
    supply PS 12 V 20 A {supply}
    switch S1 dpdt positions raise off lower
    axis   deck from bottom to top, 70 deg, gravity {gravity}, friction 0.5 N m
    motor  M1 12 V stall 18 A 6 N m free 1.5 A 40 rpm drives deck toward top may coast
    rung   PS.+, ( S1.raise1 | S1.lower2 )
    rung   PS.-, ( S1.lower1 | S1.raise2 )
    rung   S1.com1, M1, S1.com2
"""


def test_a_heavy_deck_drives_its_motor_on_the_way_down() -> None:
    """2 N m less 0.5 N m of friction at 3 A for each N m, less 1.5 A: 3 A come back while it is lowered."""
    facts = facts_of(BRIDGE.format(supply="limit 25 A", gravity="2 N m"))
    (one,) = overvolted_supply.find(facts)
    assert "feeds up to 3 A back into PS" in one.what
    assert one.severity == "note"
    assert one.states is not None
    assert not one.states & facts.motors[0].forward


def test_a_light_deck_or_a_battery_is_no_matter() -> None:
    """0.8 N m hardly turn the motor; a battery takes the current."""
    assert not list(overvolted_supply.find(facts_of(BRIDGE.format(supply="limit 25 A", gravity="0.8 N m"))))
    assert not list(overvolted_supply.find(facts_of(BRIDGE.format(supply="", gravity="2 N m"))))
