"""Every step of a trace is one that the judge allows, and what is told of each state is what the judge sees there."""

from collections.abc import Iterator
from itertools import pairwise
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from circuitcheck.analysis.at_work import at_work
from circuitcheck.analysis.facts import analyse
from circuitcheck.analysis.tracing import Trace, trace_plot
from circuitcheck.circuit.building import build_circuit
from circuitcheck.circuit.model import Circuit
from circuitcheck.circuit.stories import understand_story
from circuitcheck.plan.reading import read_plan
from circuitcheck.plan.story_lines import read_story
from tests.analysis.plans import circuit_of, plan_texts
from tests.judge.one_state import State, bridges_a_supply_that_is_off, view
from tests.judge.replaying import begins
from tests.judge.steps import Judge
from tests.profiles import examples

EXAMPLES = Path(__file__).parents[2] / "examples"
PLANS = sorted(EXAMPLES.glob("[rw]*/*.plan"))
UNHURRIED = [HealthCheck.too_slow, HealthCheck.data_too_large, HealthCheck.filter_too_much]
LAMP_WORDS = {"on": "lit", "weak": "glowing", "off": "dark"}


def possible_actions(circuit: Circuit) -> list[str]:
    """Everything that a story could ask of the circuit."""
    found = ["run", "wait", *(f"wait {relay.name}" for relay in circuit.relays if relay.delay_seconds)]
    found += [f"{relay.name} first" for relay in circuit.relays]
    for digit in circuit.digits:
        if digit.kind in ("control", "outside", "supply"):
            found += [f"{digit.name} {value}{way}" for value in digit.values for way in ("", " slowly")]
    for number, axis in enumerate(circuit.axes):
        if any(motor.axis == number for motor in circuit.motors):
            zones = circuit.digits[axis.digit].values
            found += [f"run {axis.name}", f"run {axis.name} 1 zone", *(f"{axis.name} to {zone}" for zone in zones)]
    return found


def possible_settings(circuit: Circuit) -> list[list[str]]:
    """For each digit that may begin in several ways, each way."""
    found = []
    for digit in circuit.digits:
        if digit.kind in ("control", "outside", "supply"):
            found.append([f"{digit.name} {value}" for value in digit.values])
        elif digit.kind == "axis":
            found.append([f"{digit.name} at {zone}" for zone in digit.values if not zone.startswith("past ")])
    return found


def as_tuple(circuit: Circuit, state: dict[int, int]) -> State:
    """A state as the judge has it."""
    return tuple(state[number] for number in range(len(circuit.digits)))


def differences(circuit: Circuit, trace: Trace) -> Iterator[str]:
    """What the judge sees differently, up to where a supply that is off is bridged (see tests/analysis/agreement)."""
    judge, facts = Judge(circuit), analyse(circuit)
    states = [as_tuple(circuit, step.state) for step in trace.steps]
    fair = [not bridges_a_supply_that_is_off(circuit, state, view(circuit, state)) for state in states]
    if not begins(circuit, states[0]):
        yield "power-up is never like this"
    for number, (before, after) in enumerate(pairwise(states), 1):
        if not all(fair[: number + 1]):
            return
        if after != before and after not in judge.successors(before):
            yield f"step {number} cannot be taken: {trace.steps[number].change}"
    for number, (step, state) in enumerate(zip(trace.steps, states, strict=True)):
        verdict, shown = judge.judged(state), at_work(facts, step.state)
        if step.shorted != verdict.shorted or tuple(shown.motors.values()) != verdict.motors:
            yield f"after step {number}: {shown}; {verdict}, says the judge"
        lamps = [LAMP_WORDS.get(word, word) for word in shown.lamps.values()]
        if not verdict.shorted and lamps != list(verdict.lamps.values()):
            yield f"after step {number}: {shown.lamps}; {verdict.lamps}, says the judge"


def traced(circuit: Circuit, begin: list[str], actions: list[str]) -> Trace:
    """The story walked."""
    story = read_story(None, [", ".join(begin)] if begin else [], actions)
    return trace_plot(analyse(circuit), understand_story(circuit, story))


@settings(max_examples=examples(40), deadline=None, derandomize=True, suppress_health_check=UNHURRIED)
@given(plan_texts(), st.data())
def test_each_step_of_a_random_story_is_one_that_the_judge_allows(text: str, data: st.DataObject) -> None:
    """On random plans with parts of every kind; states agree after each step."""
    circuit = circuit_of(text)
    begin = [data.draw(st.sampled_from(ways)) for ways in possible_settings(circuit)]
    actions = data.draw(st.lists(st.sampled_from(possible_actions(circuit)), max_size=8))
    assert list(differences(circuit, traced(circuit, begin, actions))) == [], (text, begin, actions)


@settings(max_examples=examples(30), deadline=None, derandomize=True, suppress_health_check=UNHURRIED)
@given(st.data())
def test_each_step_of_a_random_story_in_an_example_is_one_that_the_judge_allows(data: st.DataObject) -> None:
    """The same on the plans that are shown to people."""
    path = data.draw(st.sampled_from(PLANS))
    circuit = build_circuit(read_plan(path, (EXAMPLES,)))
    actions = data.draw(st.lists(st.sampled_from(possible_actions(circuit)), max_size=8))
    assert list(differences(circuit, traced(circuit, [], actions))) == [], (path.name, actions)


@pytest.mark.slow
@settings(max_examples=2_000, deadline=None, suppress_health_check=UNHURRIED)
@given(plan_texts(most_states=300, most_parts=12), st.data())
def test_each_step_of_a_long_random_story_is_one_that_the_judge_allows(text: str, data: st.DataObject) -> None:
    """The same on larger plans."""
    circuit = circuit_of(text)
    begin = [data.draw(st.sampled_from(ways)) for ways in possible_settings(circuit)]
    actions = data.draw(st.lists(st.sampled_from(possible_actions(circuit)), max_size=20))
    assert list(differences(circuit, traced(circuit, begin, actions))) == [], (text, begin, actions)
