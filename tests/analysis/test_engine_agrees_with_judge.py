"""The sets of states against the judge of single states, on random plans with parts of every kind.

Tens of thousands of plans: `HYPOTHESIS_PROFILE=nightly python -m pytest tests/analysis/ -k agrees_with_judge`.
"""

from itertools import islice

import pytest
from hypothesis import HealthCheck, example, given, settings

from circuitcheck.analysis import conduction, facts, network, slices, through_loads
from tests.analysis.agreement import disagreements
from tests.analysis.plans import bus_plan_texts, circuit_of, plan_texts
from tests.profiles import examples

IN_SERIES = """
supply PS 12 V 10 A
switch S1 S2 S3 spst positions off on
lamp   L1 L2 L3 L4 L5 12 V 2 W
diode  D1
rung   PS.+, L1, L2, PS.-
rung   PS.+, S1, L1.2
rung   L1.2, D1, S2, L3, PS.-
rung   L1.2, L4, L5, PS.-
rung   PS.+, S3, L4.2
"""
"""Lamps one after the other, of which contacts join some to a rail."""
MEETING = """
supply PS 12 V 10 A
supply PS2 5 V 10 A
switch S1 S2 spst positions off on
lamp   L1 L2 L3 12 V 2 W
diode  D1 D2
rung   PS.+, D1, S1, L1, L2, PS2.-
rung   PS2.+, D2, S1.com
rung   L1.2, S2, PS2.+
rung   PS.+, L3, PS2.+
wire   PS.- PS2.-
"""
"""Supplies that meet over diodes and a contact, with lamps in series between their rails."""
APART = """
supply PS PS2 12 V 10 A
switch S1 S2 spst positions off on
lamp   L1 L2 L3 12 V 2 W
diode  D1
rung   PS.+, L1, L2, PS2.-
rung   PS2.+, S1, D1, L1.2
rung   PS2.+, L3, PS.-
rung   PS.-, S2, PS2.-
"""
"""Supplies with no common rail but over a switch."""

UNHURRIED = [HealthCheck.too_slow, HealthCheck.data_too_large, HealthCheck.filter_too_much]


@settings(max_examples=examples(80), suppress_health_check=UNHURRIED)
@given(plan_texts())
def test_every_state_of_a_random_plan_is_as_the_judge_sees_it(text: str) -> None:
    """Conduction, shorts, motors, lamps, relays, rest and reach agree in every state."""
    assert list(islice(disagreements(circuit_of(text)), 3)) == [], text


@settings(max_examples=examples(20), suppress_health_check=UNHURRIED)
@given(plan_texts())
@example(IN_SERIES)
@example(MEETING)
@example(APART)
def test_cutting_pieces_and_spaces_as_finely_as_can_be_changes_nothing(text: str) -> None:
    """Every piece is cut at single nets, every space gone through in slices, and conductors side by side stand each for
    itself, which else only wide ones do."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(network, "SIDE_BY_SIDE", 1)
        patch.setattr(conduction, "DENSE", 1)
        patch.setattr(through_loads, "DENSE", 0)
        patch.setattr(facts, "NARROW", 1)
        patch.setattr(slices, "SLICE", 4)
        assert list(islice(disagreements(circuit_of(text)), 3)) == [], text


@settings(max_examples=examples(30), suppress_health_check=UNHURRIED)
@given(bus_plan_texts())
def test_every_state_of_a_box_cut_at_its_bus_is_as_the_judge_sees_it(text: str) -> None:
    """However the bus is fed, and whatever joins its branches besides."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(facts, "NARROW", 1)
        assert list(islice(disagreements(circuit_of(text)), 3)) == [], text


@pytest.mark.slow
@settings(max_examples=300, suppress_health_check=UNHURRIED)
@given(bus_plan_texts(most_states=200, most_branches=5))
def test_every_state_of_a_larger_box_cut_at_its_bus_is_as_the_judge_sees_it(text: str) -> None:
    """The same with up to five branches, and with what lies between buses looked at only where it matters."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(facts, "NARROW", 1)
        patch.setattr(conduction, "DENSE", 1)
        patch.setattr(through_loads, "DENSE", 0)
        assert list(islice(disagreements(circuit_of(text)), 3)) == [], text


@pytest.mark.slow
@settings(max_examples=400, suppress_health_check=UNHURRIED)
@given(plan_texts(most_states=300, most_parts=12))
def test_every_state_of_a_larger_random_plan_is_as_the_judge_sees_it(text: str) -> None:
    """The same on plans of up to twelve parts."""
    assert list(islice(disagreements(circuit_of(text)), 3)) == [], text


def test_a_loop_through_two_supplies_feeds_all_loads_on_it() -> None:
    """A lamp from one supply's plus to the other's minus, and back over a diode and a coil."""
    text = """
supply PS 12 V 10 A
supply PS2 12 V 10 A
splice N1
relay K1 no off-delay 3 s coil 12 V 160 ohm
wire K1.A1 N1
wire K1.A2 PS.-
wire K1.17 PS.+
wire K1.18 N1
diode D4
wire D4.anode PS2.+
wire D4.cathode N1
lamp L7 12 V 2 W
wire L7.1 PS.+
wire L7.2 PS2.-
"""
    assert list(disagreements(circuit_of(text))) == []


def test_diodes_from_minus_and_to_plus_do_not_hold_what_is_between_them() -> None:
    """Both block, and the coil and the lamp that meet there are in series."""
    text = """
supply PS 12 V 10 A
splice X
relay K1 no coil 12 V 160 ohm
lamp L1 12 V 2 W
diode D1 D2
wire K1.A1 PS.+
wire K1.A2 X
wire D1.cathode PS.+
wire D1.anode X
wire D2.cathode X
wire D2.anode PS.-
wire L1.1 X
wire L1.2 PS.-
"""
    assert list(disagreements(circuit_of(text))) == []
