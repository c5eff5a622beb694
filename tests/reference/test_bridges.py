"""Four switches, or two changeover relays, as a bridge round a motor.

Sources: the four-switch table: tom-itx.no-ip.biz pwm_control_stuff; slideshare.net 16258121;
raspberry.a-vision.solutions. Two changeover relays: all-electronics.de Umkehrsteuerung TPR 42V; eonet.ne.jp/~katze
keyless2; manualsdump.com 175274 p. 35. The counts, both relays on, and one direction of braking with diodes follow from
the wiring.
"""

from collections import Counter
from itertools import product

import pytest

from tests.reference.asking import facts_of, motor_does

FOUR_SWITCHES = """
    supply PS 12 V 10 A
    fuse F1 10 A
    switch S1 S2 S3 S4 spst positions off on
    motor M1 12 V stall 10 A
    rung PS.+, F1, S1.com-on, M1.+, S2.com-on, PS.-
    rung F1.2, S3.com-on, M1.-, S4.com-on, PS.-
"""
DIODES = """
    diode D1 D2 D3 D4
    rung M1.+, D1, F1.2
    rung PS.-, D2, M1.+
    rung M1.-, D3, F1.2
    rung PS.-, D4, M1.-
"""


def expected(closed: frozenset[str]) -> str:
    """The published table: what the motor does with these switches closed."""
    if {"S1", "S2"} <= closed or {"S3", "S4"} <= closed:
        return "shorted"
    table = {
        frozenset({"S1", "S4"}): "forward",
        frozenset({"S2", "S3"}): "reverse",
        frozenset({"S1", "S3"}): "braked",
        frozenset({"S2", "S4"}): "braked",
    }
    return table.get(closed, "coasting")


def test_all_sixteen_rows_of_the_four_switch_bridge() -> None:
    """Forward once, reverse once, brake twice, coast five times, short seven times; each in its own row."""
    facts = facts_of(FOUR_SWITCHES)
    counted = Counter[str]()
    for words in product(("off", "on"), repeat=4):
        positions = dict(zip(("S1", "S2", "S3", "S4"), words, strict=True))
        closed = frozenset(name for name, word in positions.items() if word == "on")
        does = motor_does(facts, "M1", **positions)
        assert does == expected(closed), closed
        counted[does] += 1
    assert counted == {"forward": 1, "reverse": 1, "braked": 2, "coasting": 5, "shorted": 7}


@pytest.mark.parametrize("name", ["S1", "S2", "S3", "S4"])
def test_with_a_diode_across_each_switch_a_single_closed_one_brakes_one_way(name: str) -> None:
    """One switch and the opposite diode on the same rail close a loop for one direction of current."""
    facts = facts_of(FOUR_SWITCHES + DIODES)
    assert motor_does(facts, "M1", **{name: "on"}) == "braked_one_way"


TWO_RELAYS = """
    supply PS 12 V 10 A
    fuse F1 10 A
    button PB1 PB2 no
    relay K1 K2 spdt coil 12 V 160 ohm with diode
    motor M1 12 V stall 10 A
    rung PS.+, F1, PB1, K1.A1-A2, PS.-
    rung F1.2, PB2, K2.A1-A2, PS.-
    rung M1.+, K1.11-14, F1.2
    rung M1.-, K2.11-14, F1.2
    rung K1.12, PS.-
    rung K2.12, PS.-
"""


def test_two_changeover_relays_drive_and_brake_and_never_short() -> None:
    """At rest both ends lie on minus, both on both ends on plus: braked. One on: driven. No combination shorts."""
    facts = facts_of(TWO_RELAYS)
    table = {
        ("released", "released"): "braked",
        ("operated", "released"): "forward",
        ("released", "operated"): "reverse",
        ("operated", "operated"): "braked",
    }
    for (first, second), does in table.items():
        assert motor_does(facts, "M1", K1=first, K2=second) == does
    assert not facts.shorted


ONE_RELAY_EACH_WAY = """
    supply PS 12 V 10 A
    fuse F1 10 A
    button PB1 PB2 no
    relay K1 K2 no no coil 12 V 160 ohm with diode
    motor M1 12 V stall 10 A may coast
    rung PS.+, F1, PB1, K1.A1-A2, PS.-
    rung F1.2, PB2, K2.A1-A2, PS.-
    rung F1.2, K1.13-14, M1.+, K2.23-24, PS.-
    rung F1.2, K2.13-14, M1.-, K1.23-24, PS.-
"""


def test_two_relays_straight_across_the_supply_short_it_when_both_are_on() -> None:
    """The forbidden state of the published contrast (th4.ilovetranslation.com kCszYx3qifw)."""
    facts = facts_of(ONE_RELAY_EACH_WAY)
    assert motor_does(facts, "M1", K1="operated", K2="operated") == "shorted"
    assert motor_does(facts, "M1", K1="operated") == "forward"
    assert motor_does(facts, "M1", K2="operated") == "reverse"
    assert motor_does(facts, "M1") == "coasting"
