"""A question about a few digits, answered from their cone of influence alone, against the judge's whole story."""

from hypothesis import HealthCheck, given, settings

from circuitcheck.analysis.facts import analyse
from tests.analysis.plans import circuit_of, plan_texts
from tests.judge.steps import Judge

UNHURRIED = [HealthCheck.too_slow, HealthCheck.data_too_large, HealthCheck.filter_too_much]


@settings(max_examples=60, suppress_health_check=UNHURRIED)
@given(plan_texts())
def test_what_one_digit_does_is_what_it_does_in_the_whole(text: str) -> None:
    """Where nothing can be shorted, a digit's cone reaches just the whole story's states, seen through the cone."""
    circuit = circuit_of(text)
    facts, judge = analyse(circuit), Judge(circuit)
    if any(judge.judged(state).shorted for state in judge.every_state()):
        return
    reached = judge.reachable()
    for digit in range(len(circuit.digits)):
        behaviour = facts.behaviour((digit,))
        seen = {
            behaviour.space.number({number: state[number] for number in behaviour.space.digits}) for state in reached
        }
        assert {number for number in range(behaviour.space.size) if behaviour.reached >> number & 1} == seen, digit


def test_a_switch_between_its_positions_is_not_proper() -> None:
    """A selector passes a moment in which it is at neither side; a button with one contact has none."""
    facts = analyse(circuit_of("supply PS 12 V 10 A\nswitch S1 spdt positions raise lower\nbutton PB1 no"))
    names = [digit.name for digit in facts.circuit.digits]
    selector, button = names.index("S1"), names.index("PB1")
    behaviour = facts.behaviour((selector, button))
    assert facts.circuit.digits[selector].moments
    assert not facts.circuit.digits[button].moments
    assert behaviour.proper == behaviour.space.where(selector, (0, 1)) != behaviour.space.full
