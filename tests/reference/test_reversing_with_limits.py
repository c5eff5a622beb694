"""A DPDT reversing switch with limits; a limit bridged by a diode in the motor's own lead; park switch; brake relay.

Sources: reversing switch with limits: forum.arcadecontrols.com topic 149294. Diodes across limits in the motor lead:
fightingrobots.co.uk thread 13426 (the last row, a diode reversed, follows from the wiring). Park switch: lotuselan.net
two-speed wiper circuit. Brake relay: Baldor BC142 manual p. 30 (manualshive.com), Minarik SL10U p. 38.
"""

import pytest

from tests.reference.asking import facts_of, motor_does

REVERSING = """
    supply PS 12 V 10 A
    fuse F1 10 A
    switch S1 dpdt positions up off down
    axis deck from bottom to top
    limit LS1 nc on deck at top
    limit LS2 nc on deck at bottom
    motor M1 12 V stall 10 A may coast drives deck toward top
    rung PS.+, F1, S1.com1
    rung PS.-, S1.com2
    rung S1.up1, LS1.com-nc, M1.+
    rung S1.down2, M1.+
    rung S1.down1, LS2.com-nc, M1.-
    rung S1.up2, M1.-
"""


@pytest.mark.parametrize(
    ("switch", "deck", "does"),
    [
        ("up", "between bottom and top", "forward"),
        ("up", "top", "coasting"),
        ("up", "bottom", "forward"),
        ("down", "between bottom and top", "reverse"),
        ("down", "top", "reverse"),
        ("down", "bottom", "coasting"),
        ("off", "between bottom and top", "coasting"),
        ("off", "top", "coasting"),
        ("off", "bottom", "coasting"),
    ],
)
def test_reversing_switch_with_limits(switch: str, deck: str, does: str) -> None:
    """Each limit stops its own direction only; the switch's own stop is a coast."""
    assert motor_does(facts_of(REVERSING), "M1", S1=switch, deck=deck) == does


IN_THE_LEAD = """
    supply PS 12 V 10 A
    fuse F1 10 A
    switch S1 dpdt positions up off down
    axis deck from bottom to top
    limit LA nc on deck at top
    limit LB nc on deck at bottom
    diode DA DB
    motor M1 12 V stall 10 A drives deck toward top
    rung PS.+, F1, S1.com1
    rung PS.-, S1.com2
    rung S1.up1, LA.com-nc, LB.com-nc, M1.+
    rung S1.down2, LA.com
    rung S1.down1, M1.-
    rung S1.up2, M1.-
    rung LB.com, DB, LB.nc
"""
RIGHT = IN_THE_LEAD + "    rung LA.nc, DA, LA.com\n"
REVERSED = IN_THE_LEAD + "    rung LA.com, DA, LA.nc\n"


@pytest.mark.parametrize(
    ("plan", "switch", "deck", "does"),
    [
        (RIGHT, "up", "between bottom and top", "forward"),
        (RIGHT, "down", "between bottom and top", "reverse"),
        (RIGHT, "up", "top", "coasting"),
        (RIGHT, "down", "top", "reverse"),
        (RIGHT, "up", "bottom", "forward"),
        (RIGHT, "down", "bottom", "coasting"),
        (REVERSED, "up", "top", "forward"),
        (REVERSED, "down", "top", "coasting"),
    ],
)
def test_a_limit_with_a_diode_across_it_lets_the_motor_back(plan: str, switch: str, deck: str, does: str) -> None:
    """Open, it blocks the way on and its diode passes the way back; the diode reversed, it is the other way round."""
    assert motor_does(facts_of(plan), "M1", S1=switch, deck=deck) == does


def test_at_such_a_limit_a_shorted_armature_brakes_one_way_only() -> None:
    """Both ends of the lead on minus: between the ends the motor is braked, at the top through the diode in one
    direction (follows from the wiring)."""
    facts = facts_of("""
        supply PS 12 V 10 A
        button PB1 spdt
        axis deck from bottom to top
        limit LA nc on deck at top
        diode DA
        motor M1 12 V stall 10 A drives deck toward top
        rung PS.+, PB1.14-11, LA.com-nc, M1, PS.-
        rung PB1.12, PS.-
        rung LA.nc, DA, LA.com
    """)
    assert motor_does(facts, "M1", deck="between bottom and top") == "braked"
    assert motor_does(facts, "M1", deck="top") == "braked_one_way"


@pytest.mark.parametrize(
    ("switch", "wheel", "does"),
    [
        ("run", "park", "forward"),
        ("run", "away from park", "forward"),
        ("rest", "away from park", "forward"),
        ("rest", "park", "braked"),
    ],
)
def test_a_park_switch_runs_on_and_stops_dead(switch: str, wheel: str, does: str) -> None:
    """Switched to rest, the motor is fed by the park contact until it shorts the armature."""
    facts = facts_of("""
        supply PS 12 V 10 A
        fuse F1 10 A
        switch S1 spdt positions rest run
        axis wheel turning through park
        cam CS1 spdt on wheel at park
        motor M1 12 V stall 10 A drives wheel toward park
        rung PS.+, F1, S1.run
        rung S1.com, M1, PS.-
        rung S1.rest, CS1.com
        rung CS1.nc, F1.2
        rung CS1.no, PS.-
    """)
    assert motor_does(facts, "M1", S1=switch, wheel=wheel) == does


def test_a_brake_relay_feeds_when_operated_and_brakes_otherwise() -> None:
    """Coil off, or no supply: cut off and braked; coil on: fed, brake open. With a plain jumper for the resistor."""
    facts = facts_of("""
        supply PS 12 V 10 A
        fuse F1 10 A
        button PB1 no
        relay K1 spdt coil 12 V 160 ohm with diode
        motor M1 12 V stall 10 A
        rung PS.+, F1, PB1, K1.A1-A2, PS.-
        rung F1.2, K1.14
        rung M1.+, K1.11
        rung M1.-, K1.12
        rung M1.-, PS.-
    """)
    assert motor_does(facts, "M1") == "braked"
    assert motor_does(facts, "M1", K1="operated") == "forward"
    assert motor_does(facts, "M1", PS="off") == "braked"
