"""What is near and what is parked, in plans small enough to tell by hand."""

import pytest

from circuitcheck.analysis import loosened as loosened_module
from circuitcheck.analysis.facts import analyse
from circuitcheck.analysis.loosened import loosened
from circuitcheck.analysis.parking import parked
from circuitcheck.analysis.states import TooWide
from circuitcheck.analysis.vicinity import is_ruled_out, nearby
from tests.analysis.plans import circuit_of
from tests.analysis.test_vicinity import following_at_most, told

ROW = """
    supply PS 12 V 10 A
    switch S1 S2 S3 spdt positions raise off lower
    relay  K1 K2 K3 dpdt coil 12 V 160 ohm with diode
    rung   PS.+, S1.com-raise, K2.11-12, K1.A1-A2, PS.-
    rung   PS.+, S2.com-raise, K1.11-12, K3.11-12, K2.A1-A2, PS.-
    rung   PS.+, S3.com-raise, K2.21-22, K3.A1-A2, PS.-
"""
"""Three relays in a row, each locked with its neighbours: 1,024 states with the switches and the supply."""


def too_wide(_: object) -> list[str]:
    """A question that even what is near is too much for."""
    raise TooWide((0,), 1)


def test_what_is_near_rules_out_only_what_it_finds_nothing_of() -> None:
    """Not what it finds, and nothing where it is too wide itself, or the whole can be followed."""
    facts = analyse(circuit_of(ROW))
    relay = facts.circuit.relays[0].digit
    assert not is_ruled_out(facts, {relay}, lambda _: [])
    with following_at_most(4):
        wide = analyse(circuit_of(ROW))
        assert is_ruled_out(wide, {relay}, lambda near: [] if near is wide.loosened else ["whole"])
        assert not is_ruled_out(wide, {relay}, lambda _: ["something"])
        assert not is_ruled_out(wide, {relay}, too_wide)


def test_what_happens_nearby_is_told_with_one_part_of_what_is_far_parked_after_the_other() -> None:
    """Only where there is too much to follow it whole; and what is too much even so is left out."""
    facts = analyse(circuit_of(ROW))
    relay = facts.circuit.relays[0].digit
    assert list(nearby(facts, {relay}, lambda here: here.still)) == []
    whole = [len(here.still) for here in parked(facts, {relay})]
    assert whole == [2, 2]
    with following_at_most(400):
        assert [len(still) for still in nearby(analyse(circuit_of(ROW)), {relay}, lambda here: here.still)] == whole
    with following_at_most(40):
        assert len(list(nearby(analyse(circuit_of(ROW)), {relay}, lambda here: here.still))) == 1
        assert list(nearby(analyse(circuit_of(ROW)), {relay}, too_wide)) == []


def test_relays_nearby_do_not_rest_where_they_surely_want_to_move() -> None:
    """Whatever all that is far may do: fed and not locked out, a relay operates."""
    with following_at_most(4):
        facts = analyse(circuit_of(ROW))
        digit = {one.name: number for number, one in enumerate(facts.circuit.digits)}
        fed = facts.spaces.where(digit["PS"], (1,)) & facts.spaces.where(digit["S1"], (0,))
        released = facts.spaces.where(digit["K1"], (0,))
        locked = facts.spaces.where(digit["K2"], (1,))
        near = facts.loosened
        assert near is not None
        assert not near.reached_at_rest((fed & released) - locked)
        assert near.reached_at_rest(fed & released & locked)
        assert near.reached_at_rest(fed - released)


def test_relays_that_may_go_round_for_ever_are_only_followed_whole() -> None:
    """What is near tells nothing then, however wide it is."""
    text = ROW + "relay K4 spdt coil 12 V 160 ohm with diode\nrung PS.+, K4.11-12, K4.A1-A2, PS.-"
    with following_at_most(4):
        facts = analyse(circuit_of(text))
        relay = facts.circuit.relays[0].digit
        assert facts.is_wide({relay})
        assert not is_ruled_out(facts, {relay}, lambda _: [])
        assert list(nearby(facts, {relay}, lambda here: here.still)) == []


def test_of_what_has_a_say_so_much_is_near_as_few_states_hold() -> None:
    """Ring by ring: what is asked about, what has a say in it, and what has one in that; at least what is asked."""
    facts = analyse(circuit_of(ROW))
    names = [digit.name for digit in facts.circuit.digits]

    def near(states: int) -> set[str]:
        with pytest.MonkeyPatch.context() as patch:
            patch.setattr(loosened_module, "NEARBY", states)
            return {names[number] for number in loosened(facts).cone({names.index("K1")})}

    assert near(4) == near(31) == {"PS", "K1"}
    assert near(32) == near(255) == {"PS", "K1", "S1", "K2"}
    assert near(256) == near(1023) == {"PS", "K1", "S1", "K2", "S2", "K3"}
    assert near(1024) == near(5000) == set(names)
    with pytest.raises(TooWide):
        near(3)


def test_a_race_that_is_found_nearby_counts_no_states_and_begins_with_what_is_parked() -> None:
    """How many states there are in all nobody knows then."""
    circuit = circuit_of("""
        supply PS 12 V 10 A
        fuse   F1 5 A
        button PB1 no
        switch S3 S4 spdt positions raise off lower
        relay  K1 K2 K3 K4 4pdt coil 12 V 160 ohm with diode
        rung   PS.+, F1, PB1, K2.11-12, K3.11-12, K1.A1-A2, PS.-
        rung   PB1.14, K1.11-12, K2.A1-A2, PS.-
        rung   F1.2, S3.com-raise, K1.21-22, K4.11-12, K3.A1-A2, PS.-
        rung   F1.2, S4.com-raise, K3.21-22, K4.A1-A2, PS.-
        motor  M1 12 V stall 5 A may coast
        rung   F1.2, K1.31-34, M1, PS.-
    """)
    ((whole,), _) = told(circuit)
    with following_at_most(64):
        ((near,), _) = told(circuit)
    assert (whole.check, near.check) == ("order-dependent", "order-dependent")
    assert 0 < whole.seen < whole.of
    assert (near.seen, near.of) == (0, 0)
    assert "S3 off" in near.steps[0]
