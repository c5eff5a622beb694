"""What is told of wide circuits from what is near is what is told of them when they are followed whole."""

from collections.abc import Iterator
from contextlib import contextmanager

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from circuitcheck.analysis import facts as facts_module
from circuitcheck.analysis import loosened as loosened_module
from circuitcheck.analysis.calming import surely_calm
from circuitcheck.analysis.facts import analyse
from circuitcheck.analysis.loosened import loosened
from circuitcheck.analysis.parking import parked
from circuitcheck.analysis.resting import leading_to
from circuitcheck.analysis.settling import endless
from circuitcheck.checks.check import Finding
from circuitcheck.checks.registry import all_checks, run_checks
from circuitcheck.circuit.model import Circuit
from tests.analysis.plans import circuit_of, plan_texts
from tests.analysis.test_settling import TIMES, relay_plans
from tests.benchmarks.panels import chain
from tests.judge.replaying import replay
from tests.profiles import examples

UNHURRIED = [HealthCheck.too_slow, HealthCheck.data_too_large, HealthCheck.filter_too_much]


@contextmanager
def following_at_most(states: int) -> Iterator[None]:
    """Questions of more states than this are answered from what is near, of which few digits are followed."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(facts_module, "FOLLOWED", states)
        patch.setattr(loosened_module, "NEARBY", 1 << 10)
        yield


@st.composite
def interlocked(draw: st.DrawFn) -> str:
    """Two or three modules behind one switch: each a selector with off, one or two relays, a motor with or without an
    axis and its limits; contacts of any relay in the way of any coil, and now and then one that shorts the supply."""
    count = draw(st.integers(2, 3))
    names = [f"K{n}{side}" for n in range(count) for side in "UD"[: draw(st.integers(1, 4 - count))]]
    times = TIMES if len(names) < 4 and draw(st.booleans()) else ("",)
    contact = st.builds("{}.{}".format, st.sampled_from(names), st.sampled_from(["11-12", "11-12", "21-22", "31-34"]))
    lines = ["supply PS 12 V 50 A", "switch MAIN spst positions off on", "rung PS.+, MAIN.com-on, BUS", "splice BUS"]
    lines += [f"relay {name} 4pdt coil 12 V 160 ohm{draw(st.sampled_from(times))} with diode" for name in names]
    for n in range(count):
        lines.append(f"switch S{n} spdt positions raise off lower")
        drives = count == 2 and n == 0 and times == ("",) and draw(st.booleans())
        if drives:
            lines += ["axis deck from bottom to top", "limit LT nc on deck at top", "limit LB nc on deck at bottom"]
        lines.append(f"motor M{n} 12 V stall 10 A{' drives deck toward top' if drives else ''}")
        own = [name for name in names if name.startswith(f"K{n}")]
        for name, way, limit in zip(own, ("raise", "lower"), ("LT", "LB"), strict=False):
            locks = draw(st.lists(contact, max_size=2, unique=True))
            steps = [f"S{n}.com-{way}" if way == "raise" else f"S{n}.lower", *([limit] if drives else []), *locks]
            lines.append(f"rung {'BUS, ' if way == 'raise' else ''}{', '.join(steps)}, {name}.A1-A2, PS.-")
        for name, lead in zip(own, "+-", strict=False):
            lines += [f"wire M{n}.{lead} {name}.41", f"wire {name}.42 PS.-", f"wire {name}.44 BUS"]
        lines += [f"wire M{n}.- PS.-"] if len(own) == 1 else []
    if draw(st.booleans()):
        lines += ["lamp HR 12 V 2 W", f"rung BUS, ( {' | '.join(f'{name}.31-34' for name in names)} ), HR, PS.-"]
    if draw(st.integers(0, 3)) == 0:
        lines.append(f"rung BUS, {draw(contact)}, PS.-")
    return "\n".join(lines)


def told(circuit: Circuit) -> tuple[tuple[Finding, ...], list[tuple[str, str, object]]]:
    """All findings, and of each what has to be the same however it was found."""
    findings = run_checks(analyse(circuit), all_checks())
    return findings, sorted((one.check, one.severity, one.where[:1]) for one in findings)


def differences(text: str) -> list[object]:
    """What is told otherwise from nearby, and which of its findings the judge doesn't confirm though he does those of
    the whole: where relays have times he lets all begin to wait at once, which a hand between positions need not."""
    circuit = circuit_of(text)
    by_whole, whole = told(circuit)
    with following_at_most(4):
        by_near, near = told(circuit)
    refused: list[object] = [(one.what, reason) for one in by_near if (reason := replay(circuit, one))]
    if refused and all(replay(circuit, one) == "" for one in by_whole):
        return refused
    return [*(one for one in whole if one not in near), *(one for one in near if one not in whole)]


@settings(max_examples=examples(8), suppress_health_check=UNHURRIED, deadline=None)
@given(interlocked())
def test_interlocked_modules_are_judged_the_same_from_nearby(text: str) -> None:
    """The same checks find something, as severe, at the same places; and the judge confirms it."""
    assert differences(text) == [], text


@settings(max_examples=examples(10), suppress_health_check=UNHURRIED, deadline=None)
@given(plan_texts(most_states=200, most_parts=10) | relay_plans())
def test_random_plans_are_judged_the_same_from_nearby(text: str) -> None:
    """Whatever they are made of."""
    assert differences(text) == [], text


@pytest.mark.slow
def test_a_chain_of_interlocks_is_judged_the_same_from_nearby() -> None:
    """Two motors of the panel."""
    assert differences(chain(2)) == []


@settings(max_examples=examples(20), suppress_health_check=UNHURRIED, deadline=None)
@given(interlocked() | relay_plans())
def test_whatever_happens_happens_with_what_is_far_left_free(text: str) -> None:
    """Every state that operation passes, and every rest, is one of the loosened circuit."""
    circuit = circuit_of(text)
    facts = analyse(circuit)
    if not surely_calm(facts):
        return
    loose = loosened(facts)
    for number in range(len(circuit.digits)):
        whole = facts.behaviour({number})
        with following_at_most(4):
            near = loose.behaviour({number})
        for of_whole, of_near in (
            (whole.reached, near.reached),
            (whole.reached & whole.rest, near.reached & near.rest),
        ):
            far = set(whole.space.digits) - set(near.space.digits)
            seen = facts.spaces.over(whole.space, of_whole).at_some(far)
            assert not seen - facts.spaces.over(near.space, of_near), (text, circuit.digits[number].name)


@settings(max_examples=examples(20), suppress_health_check=UNHURRIED, deadline=None)
@given(interlocked())
def test_whatever_happens_with_others_parked_happens(text: str) -> None:
    """Every state that operation passes while they are parked, and every rest, is one of the whole circuit."""
    circuit = circuit_of(text)
    facts = analyse(circuit)
    if not surely_calm(facts):
        return
    for number in range(len(circuit.digits)):
        for here in parked(facts, {number}):
            near, whole = here.behaviour({number}), facts.behaviour({number, *here.still})
            for of_near, of_whole in (
                (near.reached, whole.reached),
                (near.reached & near.rest, whole.reached & whole.rest),
            ):
                states = facts.spaces.over(near.space, of_near)
                for digit, value in here.still.items():
                    states = states & facts.spaces.where(digit, (value,))
                far = set(whole.space.digits) - set(states.space.digits)
                assert not states - facts.spaces.over(whole.space, of_whole).at_some(far), (
                    text,
                    circuit.digits[number],
                )


@settings(max_examples=examples(30), suppress_health_check=UNHURRIED, deadline=None)
@given(interlocked() | relay_plans() | plan_texts(most_states=100, most_parts=8))
def test_relays_that_surely_come_to_rest_do_so_from_every_state(text: str) -> None:
    """Reached in operation or not."""
    facts = analyse(circuit_of(text))
    if surely_calm(facts):
        assert list(endless(facts)) == [], text
        for number in range(len(facts.circuit.digits)):
            steps = facts.behaviour({number}).course.steps
            standing = steps.space.full
            for step in steps.quick:
                standing &= ~step.allowed
            assert leading_to(steps.space, list(steps.quick), standing) == steps.space.full, text


def test_two_relays_that_chase_each_other_are_not_taken_to_come_to_rest() -> None:
    """One breaks the other's coil, which makes its own."""
    text = """
        supply PS 12 V 10 A
        relay  K1 K2 spdt coil 12 V 160 ohm with diode
        rung   PS.+, K2.11-12, K1.A1-A2, PS.-
        rung   PS.+, K1.11-14, K2.A1-A2, PS.-
    """
    assert not surely_calm(analyse(circuit_of(text)))


def test_a_chain_can_be_taken_apart() -> None:
    """Its relays surely come to rest, and a selector at off parks each."""
    facts = analyse(circuit_of(chain(2)))
    assert surely_calm(facts)
    names = [digit.name for digit in facts.circuit.digits]
    found = {
        names[relay]: [(names[one.control], one.position) for one in ways] for relay, ways in facts.parkings.items()
    }
    assert ("S1", 1) in found["KR1"]
    assert ("S2", 1) in found["KD2"]
    assert found["K0"] == [("ES1", 1)]
