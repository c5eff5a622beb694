"""Volts between rails and shorts between supplies, on plans small enough to tell them by hand."""

import pytest

from circuitcheck.analysis import rails
from circuitcheck.analysis.facts import Facts, analyse
from circuitcheck.analysis.influence import digits_of
from circuitcheck.analysis.states import States
from tests.analysis.plans import circuit_of
from tests.judge.steps import Judge

SUPPLIES = "supply PS 12 V 10 A\nsupply PS2 5 V 2 A\nswitch S1 S2 spst positions off on\n"


def volts(facts: Facts) -> list[float]:
    """Of each pair of rails, in the order in which they are told."""
    return [one.volts for one in facts.differences]


def names(facts: Facts, states: States) -> set[str]:
    """The digits that a set depends on."""
    return {facts.circuit.digits[digit].name for digit in digits_of(states.tight())}


@pytest.mark.parametrize(
    ("wires", "expected"),
    [
        ("", [12.0, 5.0]),
        ("wire PS.- PS2.-\n", [12.0, 7.0, 5.0]),
        ("wire PS.- PS2.+\n", [17.0, 12.0, 5.0]),
        ("wire PS2.- PS.+\n", [17.0, 12.0, 5.0]),
        ("rung PS.-, S1, PS2.+\n", [17.0, 12.0, 5.0]),
    ],
    ids=["apart", "on one minus", "in series", "in series the other way round", "in series over a contact"],
)
def test_supplies_that_meet_add_up_or_stand_against_each_other(wires: str, expected: list[float]) -> None:
    """Most volts first; each pair of rails once for each number of volts."""
    assert volts(analyse(circuit_of(SUPPLIES + wires))) == expected


def test_volts_over_a_contact_are_there_while_it_is_closed_and_both_supplies_are_on() -> None:
    """Those of one alone hang on nothing else."""
    facts = analyse(circuit_of(SUPPLIES + "rung PS.-, S1, PS2.+\n"))
    assert [names(facts, one.live) for one in facts.differences] == [{"PS", "PS2", "S1"}, {"PS"}, {"PS2"}]


def test_supplies_side_by_side_give_their_volts_while_either_is_on() -> None:
    """One pair of rails, told once."""
    text = SUPPLIES.replace("5 V", "12 V") + "wire PS.- PS2.-\nwire PS.+ PS2.+\n"
    (one,) = analyse(circuit_of(text)).differences
    assert one.volts == 12
    assert one.live.tight().bits.bit_count() == 3


THREE = """
supply PS 12 V 10 A
supply PS2 PS3 5 V 2 A
switch S1 S2 S3 spst positions off on
"""


@pytest.mark.parametrize(
    "wires",
    [
        "wire PS.- PS3.-\nrung PS.+, S1, PS2.+\nrung PS2.-, S2, PS3.+\nrung PS2.+, S3, PS2.-",
        "wire PS.- PS3.-\nrung PS.+, S1, PS3.+\nrung PS3.+, S2, PS2.+\nrung PS2.-, S3, PS3.-",
        "rung PS.+, S1, PS2.-\nrung PS2.+, S2, PS3.-\nrung PS3.+, S3, PS.-",
        "rung PS.+, S1, PS2.+\nrung PS.+, S2, PS3.+\nrung PS.-, PS2.-\nrung PS2.-, S3, PS3.-",
    ],
    ids=["two against one", "past a third", "in a ring", "side by side"],
)
def test_three_supplies_are_shorted_where_the_judge_sees_a_current_without_limit(wires: str) -> None:
    """In every state, each of them on or off."""
    circuit = circuit_of(THREE + wires)
    shorted, judge = analyse(circuit).shorted, Judge(circuit)
    seen = {state: judge.judged(state).shorted for state in judge.every_state()}
    assert {state: dict(enumerate(state)) in shorted for state in seen} == seen
    assert set(seen.values()) == {False, True}


def test_two_shorts_in_different_places_are_told_apart() -> None:
    """Each has its own supply and its own contact."""
    facts = analyse(circuit_of(SUPPLIES + "rung PS.+, S1, PS.-\nrung PS2.+, S2, PS2.-\n"))
    assert [(one.supplies, names(facts, one.states)) for one in facts.shorts] == [
        ((0,), {"PS", "S1"}),
        ((1,), {"PS2", "S2"}),
    ]


def test_contacts_side_by_side_between_two_rails_are_one_short() -> None:
    """Whichever of them closes."""
    (short,) = analyse(circuit_of(SUPPLIES + "rung PS.+, ( S1.com-on | S2.com-on ), PS.-\n")).shorts
    assert len(short.stretches) == 1
    assert short.states.tight().bits.bit_count() == 3


@pytest.mark.parametrize(("merged", "told"), [(8, 1), (7, 2)])
def test_shorts_of_one_kind_in_several_places_are_one_while_they_are_narrow(
    merged: int, told: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    """PS and both switches: eight combinations together."""
    monkeypatch.setattr(rails, "MERGED", merged)
    facts = analyse(circuit_of(SUPPLIES + "rung PS.+, S1, PS.-\ndiode D1\nrung PS.+, S2, D1, PS.-\n"))
    assert len(facts.shorts) == told
    assert facts.shorted.tight().bits.bit_count() == 3


@pytest.mark.parametrize(("second", "shorted"), [("5 V", True), ("12 V", False)])
def test_supplies_side_by_side_are_a_short_where_their_volts_differ(second: str, shorted: bool) -> None:
    """Equal ones cancel; while either is off nothing drives a current round."""
    text = SUPPLIES.replace("5 V", second) + "wire PS.- PS2.-\nrung PS.+, S1, PS2.+\n"
    facts = analyse(circuit_of(text))
    assert [(one.supplies, names(facts, one.states)) for one in facts.shorts] == (
        [((0, 1), {"PS", "PS2", "S1"})] if shorted else []
    )


def test_a_short_may_lead_over_what_joins_the_rails_of_a_supply_that_is_off() -> None:
    """From + over the contact across the other supply; while that is on they are two shorts by themselves."""
    text = SUPPLIES + "wire PS.- PS2.-\nwire PS.+ PS2.+\nrung PS2.+, S2, PS2.-\n"
    facts = analyse(circuit_of(text))
    shorted = facts.shorted.tight()
    assert names(facts, shorted) == {"PS", "PS2", "S2"}
    # Both on is a short anyhow; one on, with the contact closed, as well.
    assert shorted.bits.bit_count() == 2 + 2
