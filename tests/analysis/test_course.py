"""Unions of many sets, rounds that are worked out as far as somebody looks, and sets at some reading of a clock."""

from collections.abc import Iterator
from functools import reduce
from operator import or_

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from circuitcheck.analysis.course import Course, Steps, at_every_clock, at_some_clock, follow
from circuitcheck.analysis.resting import Step
from circuitcheck.analysis.rounds import Rounds, joined
from circuitcheck.analysis.space import Space

DIGITS = Space((0, 1), (2, 3))
TIMED = Space((0, 1, 2), (2, 3, 4))
"""The last digit is a clock."""


@settings(max_examples=30)
@given(st.lists(st.integers(0, 1 << 12)))
def test_many_sets_are_joined_to_what_any_of_them_has(sets: list[int]) -> None:
    """However many there are, empty ones among them."""
    assert joined(sets) == reduce(or_, sets, 0)


def test_rounds_are_taken_as_far_as_somebody_looks_and_each_once() -> None:
    """Later ones stay in the source until they are asked for."""
    taken = []

    def source() -> Iterator[int]:
        for number in (5, 6, 7):
            taken.append(number)
            yield number

    rounds = Rounds(source())
    assert (rounds[1], rounds[0], taken) == (6, 5, [5, 6])
    assert [*rounds] == [*rounds] == [5, 6, 7]
    assert len(rounds) == len(taken) == 3
    with pytest.raises(IndexError):
        rounds[3]
    assert len(Rounds(source())) == 3


@settings(max_examples=30)
@given(st.integers(0, TIMED.full), st.integers(0, DIGITS.full))
def test_a_set_at_some_clock_and_one_at_every_clock(wide: int, narrow: int) -> None:
    """State by state and reading by reading."""
    assert at_some_clock(DIGITS, wide) == joined(wide >> clock * 6 & DIGITS.full for clock in range(4))
    assert at_every_clock(TIMED, DIGITS, narrow) == sum(narrow << clock * 6 for clock in range(4))


@st.composite
def steps(draw: st.DrawFn) -> list[Step]:
    """Some steps of any digit, in random states; they may set the clock on."""
    found = []
    for _ in range(draw(st.integers(1, 5))):
        digit = draw(st.integers(0, 1))
        start, end = draw(st.permutations(range(DIGITS.radices[digit])))[:2]
        before, after = draw(st.integers(0, 3)), draw(st.integers(0, 3))
        states = draw(st.integers(0, DIGITS.full)) & DIGITS.where(digit, (start,))
        found.append(Step(digit, start, end, states << before * 6, (after - before) * 6))
    return found


def moved(state: int, step: Step) -> int:
    """The state after a step."""
    return state + (step.end - step.start) * TIMED.strides[step.digit] + step.clock


@settings(max_examples=50, deadline=None)
@given(steps(), st.integers(1, TIMED.full))
def test_every_state_of_a_round_has_a_predecessor_in_the_round_before(every: list[Step], beginning: int) -> None:
    """Down to the first one; a state of another round has none."""
    course = follow(Steps(TIMED, tuple(every[::2]), tuple(every[1::2]), 0, 0), beginning)
    for number, states in enumerate(course.rounds):
        for state in (one for one in range(TIMED.size) if states >> one & 1):
            if number:
                before, step = course.predecessor(state, number)
                assert course.rounds[number - 1] >> before & 1
                assert step.allowed >> before & 1
                assert moved(before, step) == state
            assert beginning >> course.origin(state, number) & 1
    assert course.reached == joined(course.rounds)


def test_a_state_that_no_step_leads_to_has_no_predecessor() -> None:
    """One of the first round."""
    course = Course(Steps(DIGITS, (Step(0, 0, 1, 1),), (), 0, 0), Rounds([0b1, 0b10]), 0b11)
    assert course.predecessor(1, 1)[0] == 0
    for state in (0, 2, 3):
        with pytest.raises(LookupError):
            course.predecessor(state, 1)
