"""Which digits have a say in which, against following it until nothing is new."""

from math import prod

from hypothesis import given, settings
from hypothesis import strategies as st

from circuitcheck.analysis.influence import cone_of_influence, digits_of, has_more_states
from circuitcheck.analysis.states import Spaces

DIGITS = 6
says = st.lists(st.frozensets(st.integers(0, DIGITS - 1), max_size=2), min_size=DIGITS, max_size=DIGITS)
"""Of each digit those that have a say in it."""


def all_with_a_say(asked: frozenset[int], of: list[frozenset[int]]) -> frozenset[int]:
    """Round by round."""
    found = asked
    while (more := found.union(*(of[digit] for digit in found))) != found:
        found = more
    return found


@settings(max_examples=40)
@given(
    says,
    st.frozensets(st.integers(0, DIGITS - 1)),
    st.lists(st.integers(2, 4), min_size=DIGITS, max_size=DIGITS),
    st.integers(0, 200),
)
def test_all_that_has_a_say_is_found_and_whether_that_is_too_much(
    of: list[frozenset[int]], asked: frozenset[int], radices: list[int], most: int
) -> None:
    """Digits that are asked about count as well."""
    cone = all_with_a_say(asked, of)
    assert cone_of_influence(asked, of.__getitem__) == cone
    states = prod(radices[digit] for digit in cone)
    for limit in (most, states - 1, states):
        assert has_more_states(asked, of.__getitem__, tuple(radices), limit) == (states > limit)


def test_the_digits_of_sets_are_those_that_any_of_them_stands_over() -> None:
    """Each once."""
    spaces = Spaces((2, 2, 2))
    first, last = spaces.where(0, (1,)), spaces.where(2, (1,))
    assert digits_of(first, first & last) == {0, 2}
    assert digits_of() == digits_of(spaces.all()) == frozenset()
