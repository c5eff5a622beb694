"""The greatest sums, against the sums of every state that operation reaches, one by one."""

from unittest.mock import patch

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from circuitcheck.analysis.facts import Facts, analyse
from circuitcheck.analysis.states import States
from circuitcheck.sizing.greatest import Part, Sums
from circuitcheck.sizing.sizing import size_circuit
from tests.analysis.plans import circuit_of, plan_texts
from tests.analysis.test_carrying import states_of
from tests.benchmarks.panels import chain, panel


@st.composite
def drawn_parts(draw: st.DrawFn, facts: Facts) -> list[Part]:
    """What some loads would draw while conductors feed them one way or the other."""
    parts = []
    for number, feeding in enumerate(facts.feeding):
        for fed in feeding.fed:
            for states in (fed.forward, fed.backward):
                amount, held = draw(st.sampled_from((0.0, 1.0, 2.5, 4.0))), draw(st.sampled_from((0.0, 0.0, 3.0)))
                parts.append(Part(number, amount, states, held=held))
    return parts


def sums_of(parts: list[Part], state: dict[int, int]) -> tuple[float, float | None]:
    """What the parts add up to in a state, and at most with one of the loads held fast."""
    by_load: dict[int, Part] = {}
    for part in sorted(parts, key=lambda one: -one.amount):
        if state in part.states:
            by_load.setdefault(part.load, part)
    usual = sum(part.amount for part in by_load.values())
    held = max((part.held for part in by_load.values()), default=0.0)
    return usual, usual + held if held else None


def everything(facts: Facts) -> States:
    """The set of every state, over all digits."""
    space = facts.spaces.of(range(len(facts.circuit.digits)))
    return facts.spaces.over(space, space.full)


@settings(max_examples=60, deadline=None)
@given(plan_texts(most_states=400, most_parts=9), st.data())
def test_the_greatest_sum_is_that_of_the_worst_state_that_operation_reaches(text: str, data: st.DataObject) -> None:
    """With one of the loads held fast too; and the state that is told is one in which it is met."""
    facts = analyse(circuit_of(text))
    parts = data.draw(drawn_parts(facts))
    reached = facts.reached(everything(facts))
    every = [sums_of(parts, state) for state in states_of(facts.circuit) if state in reached]
    usual, held = Sums(facts).greatest(parts), Sums(facts).greatest_held(parts)
    assert usual.amount == pytest.approx(max((one for one, _ in every), default=0.0))
    assert held.amount == pytest.approx(max((one for _, one in every if one), default=0.0))
    for found in (usual, held):
        assert found.exact
        assert sum(part.amount for part in found.parts) == pytest.approx(found.amount)
        met = [state for state in states_of(facts.circuit) if found.state and found.state.items() <= state.items()]
        assert any(state in reached and all(state in part.states for part in found.parts) for state in met) or not met


@settings(max_examples=60, deadline=None)
@given(plan_texts(most_states=400, most_parts=9), st.data(), st.sampled_from((0, 2_000)))
def test_a_bound_is_never_less_than_what_operation_reaches(text: str, data: st.DataObject, rounds: int) -> None:
    """Where only each load's own behaviour is asked, digit by digit, or all loads are taken at their greatest."""
    facts = analyse(circuit_of(text))
    parts = data.draw(drawn_parts(facts))
    exact = Sums(facts).greatest(parts), Sums(facts).greatest_held(parts)
    with (
        patch("circuitcheck.sizing.greatest.NARROW", 1),
        patch("circuitcheck.analysis.worst_case.TOGETHER", 1),
        patch("circuitcheck.analysis.worst_case.MOST_ROUNDS", rounds),
    ):
        bound = Sums(facts).greatest(parts), Sums(facts).greatest_held(parts)
    for wide, narrow in zip(bound, exact, strict=True):
        assert wide.amount >= narrow.amount - 1e-9
        assert not wide.exact or wide.amount == pytest.approx(narrow.amount)


def test_motors_that_lock_each_other_out_never_add_up() -> None:
    """Six behind one stop, two and two locked: no more than three run, however wide all of them are together."""
    facts = analyse(circuit_of(panel(6)))
    parts = [
        Part(motor.windings[0].load, 2.5, states)
        for motor, does in zip(facts.circuit.motors, facts.motors, strict=True)
        for states in (does.forward, does.reverse)
    ]
    found = Sums(facts).greatest(parts)
    assert found.amount == pytest.approx(7.5)
    assert (found.exact, found.state) == (False, None)


def test_ten_motors_behind_one_stop_have_a_verdict_for_all_that_they_share() -> None:
    """Five run at 2.5 A, and some relays; where each locks the next out it isn't found that not all ten do."""
    pairs, chained = (size_circuit(analyse(circuit_of(plan))) for plan in (panel(10), chain(10)))
    fuse, locked = (next(one for one in sizing.parts if one.name == "F0") for sizing in (pairs, chained))
    assert 12.5 < fuse.currents.running.amount < 14
    assert 25 < locked.currents.running.amount < 26
    assert not fuse.currents.exact
    assert not locked.currents.exact
    single = next(one for one in pairs.parts if one.name == "F3")
    assert single.currents.exact
