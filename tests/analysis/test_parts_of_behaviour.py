"""A question about a few digits, answered from their cone of influence alone, against the judge's whole story."""

from hypothesis import HealthCheck, given, settings

from circuitcheck.analysis.facts import analyse
from tests.analysis.plans import circuit_of, plan_texts
from tests.analysis.test_hands import where
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


SHORTED = """
supply PS 12 V 10 A
switch S1 spst positions off on
switch S2 spdt positions raise lower
button PB1 no
relay  K1 no coil 12 V 160 ohm
rung   PS.+, S1, PS.-
rung   PS.+, PB1, K1.A1-A2, PS.-
"""


def test_nothing_follows_what_is_shorted_and_it_is_not_settled() -> None:
    """The relay that PB1 left operated would release, and the button could be let go, but the fuse is gone by then."""
    facts = analyse(circuit_of(SHORTED))
    behaviour = facts.behaviour(range(len(facts.circuit.digits)))
    shorted = where(facts, PS="on", S1="on").over(behaviour.space)
    left = where(facts, K1="operated", PB1="released").over(behaviour.space)
    assert behaviour.reached & shorted
    assert behaviour.reached & left
    assert behaviour.settled & ~shorted
    assert not behaviour.reached & shorted & left
    assert not behaviour.settled & shorted
    assert not any(step.allowed & shorted for step in behaviour.steps)


def test_nobody_works_anything_else_while_a_switch_is_between_its_positions() -> None:
    """Only relays move meanwhile, and the switch arrives."""
    facts = analyse(circuit_of(SHORTED))
    names = [digit.name for digit in facts.circuit.digits]
    behaviour = facts.behaviour(range(len(names)))
    moving = {names[step.digit] for step in behaviour.steps if step.allowed & ~behaviour.proper}
    assert moving == {"S2", "K1"}
    assert {names[step.digit] for step in behaviour.steps} == {"PS", "S1", "S2", "PB1", "K1"}
    assert all(step.start != step.end for step in behaviour.steps)


def test_rest_where_operation_does_not_get_is_what_it_is_without_times() -> None:
    """K2 holds itself in, but nothing ever brings it in."""
    box = """
        supply PS 12 V 10 A
        button PB1 no
        relay  K1 K2 no coil 12 V 160 ohm {times}
        rung   PS.+, PB1, K1.A1-A2, PS.-
        rung   PS.+, K2.13-14, K2.A1-A2, PS.-
    """
    plain, timed = (analyse(circuit_of(box.format(times=times))) for times in ("", "operate 5..8 ms release 2..4 ms"))
    every = range(len(plain.circuit.digits))
    there = where(plain, K2="operated")
    assert not there & plain.reached(there)
    assert timed.behaviour(every).rest == plain.behaviour(every).rest
    assert timed.behaviour(every).course.steps.space is not timed.behaviour(every).space
