"""Ways of current in one state, and how one got there."""

import pytest

from circuitcheck.analysis.single_state import contacts_on, current_path, first_reached, story_to
from tests.reference.asking import facts_of, state_of

LANTERN = """
    supply PS 12 V 10 A
    switch S1 S2 S3 spst positions off on
    diode  D1
    lamp   L1 L2 12 V 2 W
    rung   PS.+, ( S1 | S2, S3 ), D1, L1, L2, PS.-
"""
TO_LAMP = ("D1.anode", "D1.cathode", "L1.1")


def way(start: str = "PS.+", end: str = "L1.1", *through: int, more: str = "", **positions: str) -> tuple[str, ...]:
    """The way of current between two terminals in a state."""
    facts = facts_of(LANTERN + more)
    return current_path(facts.circuit, state_of(facts, **positions), start, end, through)


def switches_on_way(start: str = "PS.+", end: str = "L1.1", more: str = "", **positions: str) -> set[str]:
    """The names of the switches whose contacts the way goes over."""
    facts = facts_of(LANTERN + more)
    state = state_of(facts, **positions)
    path = current_path(facts.circuit, state, start, end)
    return {facts.circuit.digits[digit].name for digit in contacts_on(facts.circuit, state, path)}


def test_current_takes_the_shortest_way_over_what_is_closed() -> None:
    """Over S1 rather than over S2 and S3, while it is on; nowhere with all of them off."""
    straight = ("PS.+", "S1.com", "S1.on", *TO_LAMP)
    assert way(S1="on") == way(S1="on", S2="on", S3="on") == straight
    assert way(S2="on", S3="on") == ("PS.+", "S2.com", "S2.on", "S3.com", "S3.on", *TO_LAMP)
    assert way(S2="on") == way() == ()
    assert way("PS.+", "PS.+") == ("PS.+",)


def test_current_runs_through_a_diode_one_way_and_through_those_loads_that_it_may() -> None:
    """Either way through a load, by its number."""
    assert way("L1.1", "PS.+", S1="on") == ()
    assert way("L1.1", "PS.-") == way("L1.1", "PS.-", 0) == ()
    assert way("L1.1", "PS.-", 0, 1) == ("L1.1", "L1.2", "L2.1", "L2.2", "PS.-")
    assert way("PS.-", "L1.1", 0, 1) == ("PS.-", "L2.2", "L2.1", "L1.2", "L1.1")


def test_contacts_on_a_way_are_those_that_have_to_be_closed_for_it() -> None:
    """In either direction; a wire beside a contact does as well, and a way of no step has none."""
    assert switches_on_way(S1="on") == switches_on_way("D1.anode", "PS.+", S1="on") == {"S1"}
    assert switches_on_way(S2="on", S3="on") == {"S2", "S3"}
    beside = "wire S1.com S1.on\n"
    assert switches_on_way(S1="on", more=beside) == switches_on_way(more=beside) == set()
    assert switches_on_way(end="PS.+", S1="on") == switches_on_way() == set()


SEALED = """
    supply PS 12 V 10 A
    button PB1 no
    relay  K1 no no coil 12 V 160 ohm with diode
    rung   PS.+, ( PB1 | K1.13-14 ), K1.A1-A2, PS.-
"""


def test_the_first_state_reached_is_told_with_the_way_to_it() -> None:
    """K1 holds itself in once PB1 has been pressed and let go: three changes from power-up."""
    facts = facts_of(SEALED)
    behaviour = facts.behaviour(range(3))
    space = behaviour.space
    sealed = space.number(state_of(facts, K1="operated"))
    pressed = space.number(state_of(facts, PB1="pressed", K1="operated"))
    state, rounds = first_reached(behaviour, 1 << sealed)
    assert (state, rounds) == (sealed, 2)
    assert first_reached(behaviour, 1 << sealed | 1 << pressed) == (pressed, 1)
    story = story_to(behaviour, state, rounds)
    assert story.beginning == state_of(facts, PB1="pressed")
    digits = [facts.circuit.digits[one.digit].name for one in story.changes]
    assert digits == ["K1", "PB1"]
    assert [(one.start, one.end) for one in story.changes] == [(0, 1), (1, 0)]
    assert [one.state for one in story.changes] == [
        state_of(facts, PB1="pressed", K1="operated"), state_of(facts, K1="operated"),
    ]  # fmt: skip
    still = space.number(state_of(facts))
    assert first_reached(behaviour, 1 << still | 1 << still + 1) == (still, 0)
    with pytest.raises(LookupError):
        first_reached(behaviour, 0)


def test_a_story_goes_on_beside_what_stands_still() -> None:
    """What stands still is part of its beginning."""
    facts = facts_of(SEALED)
    behaviour = facts.behaviour(range(3))
    story = story_to(behaviour, behaviour.space.number(state_of(facts)), 0)
    assert story.beside({7: 1, 0: 0}) == story._replace(beginning={7: 1, **story.beginning})


def test_every_state_that_relays_come_to_in_their_times_has_a_story() -> None:
    """However long they have been waiting there: as many changes as it takes, and the state at the end."""
    facts = facts_of("""
        supply PS 12 V 10 A
        button PB1 no
        relay  K1 no no coil 12 V 160 ohm operate 20..25 ms release 3..5 ms with diode
        relay  K2 no coil 12 V 160 ohm operate 5..30 ms release 10..12 ms with diode
        rung   PS.+, ( PB1 | K2.13-14 ), K1.A1-A2, PS.-
        rung   PS.+, ( PB1 | K1.23-24 ), K2.A1-A2, PS.-
    """)
    behaviour = facts.behaviour(range(4))
    assert behaviour.course.steps.space.size > behaviour.space.size
    for number in range(behaviour.space.size):
        if behaviour.reached >> number & 1:
            state, rounds = first_reached(behaviour, 1 << number)
            story = story_to(behaviour, state, rounds)
            assert len(story.changes) == rounds
            last = story.changes[-1].state if rounds else story.beginning
            assert last == behaviour.space.values(number)
