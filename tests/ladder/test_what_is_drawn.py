"""A ladder says what the wires do: read as it is printed, it conducts in each state as the analysis has it."""

from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings

from circuitcheck.analysis.facts import analyse
from tests.analysis.boxes import boxes
from tests.analysis.plans import bus_plan_texts, circuit_of, plan_texts
from tests.analysis.test_lit import some_states
from tests.ladder.agreement import disagreements
from tests.test_examples import RIGHT, WRONG, facts_of

EASY_GOING = list(HealthCheck)


@pytest.mark.parametrize("path", RIGHT + WRONG, ids=lambda path: path.stem)
def test_a_drawn_example_conducts_as_it_is_analysed(path: Path) -> None:
    """In states all over its space: which loads are fed which way, which motors braked, whether a supply is shorted."""
    facts = facts_of(path)
    assert list(disagreements(facts, some_states(facts.circuit, 25))) == []


@pytest.mark.slow
@pytest.mark.parametrize("path", RIGHT + WRONG, ids=lambda path: path.stem)
def test_a_drawn_example_conducts_as_it_is_analysed_in_every_state(path: Path) -> None:
    """The same, none left out."""
    facts = facts_of(path)
    assert list(disagreements(facts, some_states(facts.circuit, 1_000_000))) == []


@settings(max_examples=25, deadline=None, derandomize=True, suppress_health_check=EASY_GOING)
@given(plan_texts(most_states=48))
def test_a_drawn_random_circuit_conducts_as_it_is_analysed(text: str) -> None:
    """Parts of every kind, soldered anyhow; bridges among them."""
    facts = analyse(circuit_of(text))
    assert list(disagreements(facts, some_states(facts.circuit, 48))) == [], text


OVER_A_RAIL_OF_A_SUPPLY_THAT_IS_OFF = """
supply PS 12 V 10 A
supply PS2 12 V 10 A
splice N1
wire PS2.- PS.+
relay K1 spdt on-delay 3 s coil 12 V 160 ohm
relay K2 no off-delay 3 s coil 12 V 160 ohm
rung N1, K1.A1-A2, PS.-
rung PS2.+, K2.A2-A1, N1, K2.18-17, PS.-, K1.18-15, PS.+
"""


def test_a_row_of_loads_that_goes_over_a_third_rail_is_drawn_whole() -> None:
    """With PS off its - is a net like any other; a row that was drawn to end before it would say that K2 is fed."""
    facts = analyse(circuit_of(OVER_A_RAIL_OF_A_SUPPLY_THAT_IS_OFF))
    assert list(disagreements(facts, some_states(facts.circuit, 1000))) == []


@pytest.mark.slow
@settings(max_examples=200, deadline=None, suppress_health_check=EASY_GOING)
@given(plan_texts(most_states=96, most_parts=12))
def test_a_drawn_larger_random_circuit_conducts_as_it_is_analysed(text: str) -> None:
    """The same with more parts."""
    facts = analyse(circuit_of(text))
    assert list(disagreements(facts, some_states(facts.circuit, 96))) == [], text


@pytest.mark.slow
@settings(max_examples=100, deadline=None, suppress_health_check=EASY_GOING)
@given(bus_plan_texts(most_states=96) | boxes())
def test_drawn_random_boxes_conduct_as_they_are_analysed(text: str) -> None:
    """Branches on one bus; a motor between two relays."""
    facts = analyse(circuit_of(text))
    assert list(disagreements(facts, some_states(facts.circuit, 96))) == [], text
