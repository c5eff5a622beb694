"""What motors and lamps do, at the volts from which on they do it."""

import pytest

from circuitcheck.analysis.devices import at_least
from circuitcheck.analysis.feeding import Fed
from circuitcheck.analysis.states import Spaces
from tests.analysis.test_hands import where
from tests.reference.asking import facts_of, is_lit, motor_does


def test_volts_that_differ_by_rounding_alone_are_enough() -> None:
    """By a thousand millionth of a volt; each polarity by itself."""
    spaces = Spaces((2, 2))
    forward, backward = spaces.where(0, (1,)), spaces.where(1, (1,))
    enough = (Fed(9.0, forward, spaces.none()), Fed(9.0 - 5e-10, spaces.none(), backward))
    fed = (*enough, Fed(9.0 - 2e-9, spaces.all(), spaces.all()))
    ahead, behind = at_least(fed, 9.0, spaces)
    assert ahead.same_as(forward)
    assert behind.same_as(backward)


@pytest.mark.parametrize(
    ("volts", "does"), [(0.23, "coasting"), (0.24, "weak"), (2.99, "weak"), (3.0, "forward"), (12.0, "forward")]
)
def test_a_motor_is_weak_from_a_fiftieth_and_driven_from_a_quarter_of_its_volts(volts: float, does: str) -> None:
    """Of 12 V: 0.24 V and 3 V."""
    facts = facts_of(f"supply PS {volts} V 10 A\nmotor M1 12 V stall 10 A may coast\nrung PS.+, M1, PS.-\n")
    assert motor_does(facts, "M1") == does


@pytest.mark.parametrize(("volts", "word"), [(0.59, "dark"), (0.6, "glowing"), (5.99, "glowing"), (6.0, "lit")])
def test_a_lamp_glows_from_a_twentieth_and_is_lit_from_half_of_its_volts(volts: float, word: str) -> None:
    """Of 12 V: 0.6 V and 6 V; without power it is dark."""
    facts = facts_of(f"supply PS {volts} V 10 A\nlamp L1 12 V 2 W\nrung PS.+, L1, PS.-\n")
    powered = where(facts, PS="on")
    for name, states in facts.lamps[0]._asdict().items():
        assert bool(states & powered) == (name == word)
    assert facts.lamps[0].dark & where(facts, PS="off")
    assert is_lit(facts, "L1") == (word == "lit")


def test_what_a_loose_motor_does_can_be_asked_within_some_states_alone() -> None:
    """A diode across it brakes it one way while S1 is on; else it coasts, unless S2 drives it."""
    facts = facts_of("""
        supply PS 12 V 10 A
        switch S1 S2 spst positions off on
        motor  M1 12 V stall 10 A may coast
        diode  D1
        rung   PS.+, S2, M1, PS.-
        rung   M1.-, D1, S1, M1.+
    """)
    (does,) = facts.motors
    off = where(facts, S2="off") | where(facts, PS="off", S1="off")
    for within in (where(facts, PS="on"), where(facts, S2="off", S1="on"), where(facts, S1="off")):
        assert does.braked_one_way_within(within).same_as(does.braked_one_way & within)
        assert does.coasting_within(within).same_as(does.coasting & within)
    assert does.braked_one_way & off & where(facts, S1="on")
    assert does.coasting & off & where(facts, S1="off")
