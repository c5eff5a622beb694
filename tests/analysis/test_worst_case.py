"""The worst case over states, against looking at every state."""

from itertools import product
from unittest.mock import patch

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from circuitcheck.analysis.currents import CurrentCase
from circuitcheck.analysis.states import Spaces, States, union
from circuitcheck.analysis.worst_case import CasesTogether, Choice, WorstCases, or_nothing

RADICES = (2, 3, 2, 2)
STATES = [dict(enumerate(values)) for values in product(*map(range, RADICES))]


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
            cases.append(CurrentCase(states, {load: 1.0}, {0: amps}, {}, {}))
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
    together = WorstCases().find(groups, spaces.all())
    with patch("circuitcheck.analysis.worst_case.TOGETHER", 1):
        apart = WorstCases().find(groups, spaces.all())
    for one, other in zip(together, apart, strict=True):
        assert (one is None) == (other is None)
        assert one is None or other is None or one.amount == pytest.approx(other.amount)
