"""Start and stop with a seal-in contact; a reversing starter with interlocks.

Sources: start/stop: Lessons in Electric Circuits vol. IV ch. 6 (Digital/src/ladder.sml); DOE Fundamentals Handbook
ES-15 p. 18-19 (low-voltage protection and release). Reversing starter: Lessons in Electric Circuits, figures 04059 to
04064. "Stop wins" and "which is quicker" follow from the wiring.
"""

import pytest

from tests.reference.asking import after, facts_of, motor_does, position, settled_from, state_of

SEAL_IN = """
    supply PS 12 V 10 A
    fuse F1 5 A
    button STOP nc
    button START no
    relay M no coil 12 V 160 ohm with diode
    wire PS.+ F1.1
    rung F1.2, STOP, ( START | M.13-14 ), M.A1-A2, PS.-
"""


def test_start_and_stop_with_a_seal() -> None:
    """START holds by itself, STOP ends it, and after a supply failure it waits for START again."""
    facts = facts_of(SEAL_IN)
    state = state_of(facts)
    events = (
        ({"START": "pressed"}, "operated"),
        ({"START": "released"}, "operated"),
        ({"PS": "off"}, "released"),
        ({"PS": "on"}, "released"),
        ({"START": "pressed"}, "operated"),
        ({"START": "released"}, "operated"),
        ({"STOP": "pressed"}, "released"),
        ({"STOP": "released"}, "released"),
        ({"STOP": "pressed", "START": "pressed"}, "released"),
    )
    for event, then in events:
        state = after(facts, state, **event)
        assert position(facts, state, "M") == then, event


def test_a_broken_wire_to_a_closed_stop_button_stops() -> None:
    """With the wire to STOP gone the contactor drops and START does nothing."""
    facts = facts_of(SEAL_IN.replace("rung F1.2, STOP, (", "rung STOP, ("))
    held = after(facts, state_of(facts, M="operated"), START="pressed")
    assert position(facts, held, "M") == "released"


def test_a_broken_wire_to_a_stop_button_that_must_close_leaves_it_running() -> None:
    """A STOP sensed by a contact that closes cannot stop once its wire is gone."""
    sensed = """
        supply PS 12 V 10 A
        fuse F1 5 A
        button STOP no
        button START no
        relay M no coil 12 V 160 ohm with diode
        relay K1 nc coil 12 V 160 ohm with diode
        wire PS.+ F1.1
        rung F1.2, K1.11-12, ( START | M.13-14 ), M.A1-A2, PS.-
        rung K1.A1-A2, PS.-
        wire STOP.14 K1.A1
    """
    sound, broken = facts_of(sensed + "    wire F1.2 STOP.13\n"), facts_of(sensed)
    for facts, then in ((sound, "released"), (broken, "operated")):
        running = after(facts, state_of(facts), START="pressed", STOP="released")
        running = after(facts, running, START="released")
        assert position(facts, running, "M") == "operated"
        assert position(facts, after(facts, running, STOP="pressed"), "M") == then


def test_a_maintained_switch_starts_by_itself_when_the_supply_returns() -> None:
    """Low-voltage release: no seal, so nothing waits for START."""
    facts = facts_of("""
        supply PS 12 V 10 A
        fuse F1 5 A
        switch S1 spst positions off on
        relay M no coil 12 V 160 ohm with diode
        wire PS.+ F1.1
        rung F1.2, S1.com-on, M.A1-A2, PS.-
    """)
    state = after(facts, state_of(facts), S1="on", PS="off")
    assert position(facts, state, "M") == "released"
    assert position(facts, after(facts, state, PS="on"), "M") == "operated"


REVERSING = """
    supply PS 12 V 10 A
    fuse F1 10 A
    button STOP nc
    button FWD REV no
    relay M1 M2 no no no nc coil 12 V 160 ohm with diode
    motor MOT 12 V stall 10 A may coast
    wire PS.+ F1.1
    rung F1.2, STOP
    rung F1.2, M1.13-14, MOT.+, M2.23-24, PS.-
    rung F1.2, M2.13-14, MOT.-, M1.23-24, PS.-
"""
PLAIN = """
    rung STOP.12, FWD, M1.A1-A2, PS.-
    rung STOP.12, REV, M2.A1-A2, PS.-
"""
INTERLOCKED = """
    rung STOP.12, FWD, M2.41-42, M1.A1-A2, PS.-
    rung STOP.12, REV, M1.41-42, M2.A1-A2, PS.-
"""
SEALED = """
    rung STOP.12, ( FWD | M1.33-34 ), M2.41-42, M1.A1-A2, PS.-
    rung STOP.12, ( REV | M2.33-34 ), M1.41-42, M2.A1-A2, PS.-
"""


def test_without_interlock_both_buttons_short_the_supply() -> None:
    """FWD and REV together pull both contactors, and these join + and − through one another."""
    facts = facts_of(REVERSING + PLAIN)
    ends = settled_from(facts, state_of(facts, FWD="pressed", REV="pressed"))
    assert ends
    assert all(end in facts.shorted for end in ends)
    assert facts.reached(facts.shorted)


@pytest.mark.parametrize("branches", [INTERLOCKED, SEALED])
def test_with_interlocks_the_first_contactor_keeps_the_other_out(branches: str) -> None:
    """FWD held, then REV: M1 alone stays operated."""
    facts = facts_of(REVERSING + branches)
    state = after(facts, state_of(facts), FWD="pressed", REV="pressed")
    assert (position(facts, state, "M1"), position(facts, state, "M2")) == ("operated", "released")
    assert motor_does(facts, "MOT", M1="operated") == "forward"


def test_with_a_seal_reversing_takes_a_stop_first() -> None:
    """FWD, released: M1 stays; REV does nothing until STOP was pressed."""
    facts = facts_of(REVERSING + SEALED)
    state = after(facts, state_of(facts), FWD="pressed")
    state = after(facts, state, FWD="released", REV="pressed")
    assert (position(facts, state, "M1"), position(facts, state, "M2")) == ("operated", "released")
    state = after(facts, state, REV="released", STOP="pressed")
    state = after(facts, state, STOP="released", REV="pressed")
    assert (position(facts, state, "M1"), position(facts, state, "M2")) == ("released", "operated")


def test_both_buttons_at_once_is_a_race_that_either_contactor_wins() -> None:
    """From rest, which one stays depends on which is quicker; never both, in whichever order."""
    facts = facts_of(REVERSING + SEALED)
    ends = settled_from(facts, state_of(facts, FWD="pressed", REV="pressed"))
    winners = sorted((position(facts, end, "M1"), position(facts, end, "M2")) for end in ends)
    assert winners == [("operated", "released"), ("released", "operated")]
