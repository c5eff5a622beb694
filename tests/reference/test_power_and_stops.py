"""What starts, stops and goes on with the power and with an emergency stop.

Sources: low-voltage protection (seal-in) and low-voltage release (maintained switch): DOE Fundamentals Handbook ES-15
p. 18-19. Stop categories: IEC 60204-1 9.2.2 as quoted at industry-finder.com. Reset is no start: directive 2006/42/EC
annex I 1.2.4.3, from memory. A fault must not keep a machine from stopping: the same 1.2.1 (converter.com.tw).
"""

import pytest

from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.sequels import starts_after
from circuitcheck.analysis.stopping import driven_when_stuck, still_driven
from tests.reference.asking import facts_of

ON, RELEASED, PRESSED = 1, 0, 1
HEAD = """
    supply PS 12 V 10 A
    fuse F1 5 A
    estop ES1 nc
    motor M1 12 V stall 5 A
    wire PS.+ F1.1
"""
SEAL_IN = """
    button START no
    relay K1 dpdt coil 12 V 160 ohm with diode
    rung F1.2, ES1, ( START | K1.11-14 ), K1.A1-A2, PS.-
"""
MAINTAINED = """
    switch S1 spst positions off on
    relay K1 dpdt coil 12 V 160 ohm with diode
    rung F1.2, ES1, S1, K1.A1-A2, PS.-
"""
BEHIND_THE_STOP = "    rung ES1.12, K1.21-24, M1, PS.-\n"
BESIDE_THE_STOP = "    rung F1.2, K1.21-24, M1, PS.-\n"


def digit(facts: Facts, name: str) -> int:
    """The number of a digit."""
    return [one.name for one in facts.circuit.digits].index(name)


@pytest.mark.parametrize(("control", "starts"), [(SEAL_IN, False), (MAINTAINED, True)])
def test_a_seal_in_waits_for_a_hand_and_a_maintained_switch_does_not(control: str, starts: bool) -> None:
    """When the supply returns, and when the emergency stop is reset."""
    facts = facts_of(HEAD + control + BEHIND_THE_STOP)
    for name, value in (("PS", ON), ("ES1", RELEASED)):
        assert (starts_after(facts, 0, frozenset({digit(facts, name)}), value) is not None) == starts


@pytest.mark.parametrize(("feed", "stuck"), [(BEHIND_THE_STOP, []), (BESIDE_THE_STOP, ["K1 sticks operated"])])
def test_a_stop_ahead_of_the_contacts_stops_with_a_stuck_relay_too(feed: str, stuck: list[str]) -> None:
    """Stop category 0 in both; but a stop in the coil's circuit alone doesn't stop a welded relay."""
    facts = facts_of(HEAD + SEAL_IN + feed)
    pressed = facts.spaces.where(digit(facts, "ES1"), (PRESSED,))
    found = still_driven(facts, 0, pressed)
    assert not found.lasting
    assert not found.passing
    assert [one.sequel.incident for one in driven_when_stuck(facts, 0, pressed)] == stuck


def test_a_relay_two_steps_from_the_motor_may_stick_as_well() -> None:
    """K1 feeds K2's coil, and K2 the motor: the stop is in K1's coil only."""
    facts = facts_of(
        HEAD
        + SEAL_IN
        + """
        relay K2 spdt coil 12 V 160 ohm with diode
        rung F1.2, K1.21-24, K2.A1-A2, PS.-
        rung F1.2, K2.14-11, M1, PS.-
    """
    )
    pressed = facts.spaces.where(digit(facts, "ES1"), (PRESSED,))
    found = {one.sequel.incident for one in driven_when_stuck(facts, 0, pressed)}
    assert found == {"K1 sticks operated", "K2 sticks operated"}


def test_a_stop_that_a_timer_delays_passes() -> None:
    """Power is taken away after a time: category 1, if that time serves to slow down."""
    facts = facts_of(
        HEAD
        + SEAL_IN
        + """
        relay K2 spdt off-delay 2 s coil 12 V 160 ohm with diode
        rung K1.A1, K2.A1-A2, PS.-
        rung F1.2, K2.18-15, M1, PS.-
    """
    )
    found = still_driven(facts, 0, facts.spaces.where(digit(facts, "ES1"), (PRESSED,)))
    assert not found.lasting
    assert found.passing


@pytest.mark.parametrize("form", ["contact", "sinking", "sourcing"])
def test_an_outside_output_may_stand_either_way_at_power_up_and_change_at_any_time(form: str) -> None:
    """A controller's output floats until its program runs: a motor that hangs on it may start with the power."""
    marks = {"contact": "1-2", "sinking": "out-com", "sourcing": "com-out"}[form]
    facts = facts_of(f"""
        supply PS 12 V 10 A
        fuse F1 5 A
        outside OUT1 {form}
        relay K1 no coil 12 V 160 ohm with diode
        wire PS.+ F1.1
        rung F1.2, OUT1.{marks}, K1.A1-A2, PS.-
    """)
    behaviour = facts.behaviour(range(len(facts.circuit.digits)))
    for value in (0, 1):
        assert behaviour.rounds[0] & behaviour.space.where(digit(facts, "OUT1"), (value,))
    changes = {(step.start, step.end) for step in behaviour.steps if step.digit == digit(facts, "OUT1")}
    assert changes == {(0, 1), (1, 0)}
    operated = facts.spaces.where(digit(facts, "K1"), (1,))
    assert facts.reached_at_rest(operated)
