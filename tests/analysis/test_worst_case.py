"""The worst case over states, against looking at every state."""

from itertools import product
from unittest.mock import patch

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from circuitcheck.analysis.currents import CurrentCase
from circuitcheck.analysis.states import Spaces, States, union
from circuitcheck.analysis.surroundings import Case
from circuitcheck.analysis.worst_case import (
    CasesTogether,
    Choice,
    Group,
    Most,
    TooManyRounds,
    Worst,
    WorstCases,
    or_nothing,
)

RADICES = (2, 3, 2, 2)
STATES = [dict(enumerate(values)) for values in product(*map(range, RADICES))]


def network(states: States, load: int) -> Case:
    """A load that hangs together with nothing else."""
    return Case(states, (), (load,), (), (load,))


@st.composite
def splits(draw: st.DrawFn, spaces: Spaces) -> list[States]:
    """Sets of states of which no two overlap, over a digit or two."""
    digit, other = draw(st.integers(0, 3)), draw(st.integers(0, 3))
    first = spaces.where(digit, draw(st.sets(st.integers(0, RADICES[digit] - 1))))
    second = spaces.where(other, draw(st.sets(st.integers(0, RADICES[other] - 1))))
    return [(first & second).tight(), (first - second).tight()]


@settings(max_examples=150, deadline=None)
@given(st.data())
def test_the_most_is_that_of_the_worst_single_state(data: st.DataObject) -> None:
    """Each load's cases share no state; the most is the largest sum in any one state that is asked about."""
    spaces = Spaces(RADICES)
    within = union(data.draw(splits(spaces)), spaces.none())
    cases = []
    for load in range(data.draw(st.integers(1, 5))):
        for states in data.draw(splits(spaces)):
            amps = data.draw(st.floats(-5, 20))
            cases.append(CurrentCase(states, {load: 1.0}, {0: amps}, {}, {}, network(states, load)))
    found = CasesTogether(cases).most(lambda case: case.amps[0], within)
    sums = [sum(case.amps[0] for case in cases if state in case.states) for state in STATES if state in within]
    assert found.amount == pytest.approx(max(sums, default=0.0))
    told = [state for state in STATES if state in found.states]
    assert all(state in within for state in told)
    assert bool(told) == bool(sums)
    for state in told if found.sets else ():
        assert sum(case.amps[0] for case in cases if state in case.states) == pytest.approx(found.amount)


@settings(max_examples=60, deadline=None)
@given(st.data())
def test_one_digit_after_the_other_finds_the_same_as_all_together(data: st.DataObject) -> None:
    """With one of the things having more than usual, too."""
    spaces = Spaces(RADICES)
    groups = []
    for _ in range(data.draw(st.integers(1, 5))):
        amounts = st.floats(0, 20), st.sampled_from((0.0, 1.5, 7.0))
        sets = data.draw(splits(spaces))
        groups.append(or_nothing(Choice(data.draw(amounts[0]), one, data.draw(amounts[1])) for one in sets))
    found = [WorstCases().find(groups, spaces.all())]
    with patch("circuitcheck.analysis.worst_case.TOGETHER", 1):
        found.append(WorstCases().find(groups, spaces.all()))
    usual, more = [], []
    for state in STATES:
        holding = [next(one for one in group if state in one.states) for group in groups]
        usual.append(sum(one.amount for one in holding))
        more += [usual[-1] + one.extra for one in holding if one.extra]
    for worst in found:
        assert worst.usual is not None
        assert worst.usual.amount == pytest.approx(max(usual))
        assert (worst.one_more and worst.one_more.amount) == (pytest.approx(max(more)) if more else None)


def beside_nothing(states: States, amount: float) -> Group:
    """An amount in some states."""
    return or_nothing([Choice(amount, states, 1.0)])


def test_where_the_most_is_reached_is_told_while_it_hangs_on_few_combinations() -> None:
    """Of what is asked about and of where it is reached, all together; else only what was asked about."""
    spaces = Spaces(RADICES)
    within, reached = spaces.where(0, (1,)), spaces.where(1, (0, 2))
    most = Most(3.0, within, (reached,))
    with patch("circuitcheck.analysis.worst_case.TOLD", 6):
        assert most.states.same_as(within & reached)
    with patch("circuitcheck.analysis.worst_case.TOLD", 5):
        assert most.states.same_as(within)


def test_there_is_no_most_where_a_thing_is_in_none_of_its_cases() -> None:
    """Or where nothing is asked about."""
    spaces = Spaces(RADICES)
    usual = beside_nothing(spaces.where(0, (1,)), 2.0)
    assert WorstCases().find([usual, (Choice(1.0, spaces.none()),)], spaces.all()) == Worst(None, None)
    assert WorstCases().find([usual], spaces.none()) == Worst(None, None)
    apart: list[Group] = [(Choice(1.0, spaces.where(1, (0,))),), (Choice(1.0, spaces.where(1, (1,))),)]
    assert WorstCases().find(apart, spaces.all()) == Worst(None, None)
    assert WorstCases().find([usual, *apart], spaces.all()) == Worst(None, None)


def test_one_thing_alone_has_its_extra_the_one_for_which_it_is_most() -> None:
    """Of two that are independent, the one with the larger extra; where none has any, there is no such most."""
    spaces = Spaces(RADICES)
    one, other = (Choice(2.0, spaces.where(0, (1,)), 3.0),), (Choice(5.0, spaces.where(1, (1,)), 1.0),)
    found = WorstCases().find([or_nothing(one), or_nothing(other)], spaces.all())
    assert (found.usual and found.usual.amount, found.one_more and found.one_more.amount) == (7.0, 10.0)
    assert WorstCases().find([or_nothing([Choice(2.0, spaces.where(0, (1,)))])], spaces.all()).one_more is None


def test_each_question_has_its_own_rounds() -> None:
    """Two digits, of which the second matters at one value of the first: two rounds and three. One round more than may
    be is too many, and then a bound is told."""
    spaces = Spaces(RADICES)
    first, second = (spaces.where(0, (value,)) & spaces.where(1, (0,)) for value in (0, 1))
    cases = [
        CurrentCase(first, {0: 1.0}, {0: 2.0}, {}, {}, network(first, 0)),
        CurrentCase(first, {1: 1.0}, {0: -1.0}, {}, {}, network(first, 1)),
    ]
    with patch("circuitcheck.analysis.worst_case.TOGETHER", 1):
        with patch("circuitcheck.analysis.worst_case.MOST_ROUNDS", 5):
            worst_cases = WorstCases()
            for states in (first, second):
                found = worst_cases.find([beside_nothing(states, 2.0)], spaces.all())
                assert found.usual is not None
                assert found.usual.states.same_as(states)
            assert CasesTogether(cases).most(lambda case: case.amps[0], spaces.all()).amount == 1.0
        with patch("circuitcheck.analysis.worst_case.MOST_ROUNDS", 4):
            with pytest.raises(TooManyRounds):
                WorstCases().find([beside_nothing(first, 2.0)], spaces.all())
            bound = CasesTogether(cases).most(lambda case: case.amps[0], first)
            assert (bound.amount, bound.sets) == (2.0, ())
            assert bound.states.same_as(first)


def test_what_a_digit_has_no_say_in_stays_as_it_is_while_that_is_given_its_values() -> None:
    """Of 3 where both hold, 1 by the second digit alone and 2 by the first alone, 3 and 1 come together; the 2 has more
    than usual, and counts for it beside the 1."""
    spaces = Spaces(RADICES)
    first, second = spaces.where(0, (1,)), spaces.where(1, (0,))
    choices = Choice(3.0, first & second), Choice(1.0, second), Choice(2.0, ~first, 1.5)
    for together in (1, 1 << 18):
        with patch("circuitcheck.analysis.worst_case.TOGETHER", together):
            found = WorstCases().find([or_nothing([one]) for one in choices], spaces.all())
        assert found.usual is not None
        assert found.one_more is not None
        assert (found.usual.amount, found.one_more.amount) == (4.0, 4.5)
        assert found.usual.states.same_as(first & second)
        assert found.one_more.states.same_as(second - first)
