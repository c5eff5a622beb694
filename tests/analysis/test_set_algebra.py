"""Sets of states, as integers and as decision diagrams, against plain Python sets of tuples."""

from collections.abc import Callable
from itertools import product
from unittest.mock import patch

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from circuitcheck.analysis import space as space_module
from circuitcheck.analysis.states import Space, Spaces, States, TooWide, union

Plain = frozenset[tuple[int, ...]]
RADICES = (2, 3, 2, 4, 2)
DIGITS = tuple(range(len(RADICES)))
EVERY = tuple(product(*(range(radix) for radix in RADICES)))


def plainly(states: States) -> Plain:
    """The set, state by state, over all digits."""
    return frozenset(state for state in EVERY if dict(enumerate(state)) in states)


@st.composite
def sets(draw: st.DrawFn, spaces: Spaces) -> States:
    """Any set over any digits."""
    digits = tuple(sorted(draw(st.sets(st.integers(0, len(RADICES) - 1)))))
    plain, space = Space(digits, tuple(RADICES[digit] for digit in digits)), spaces.of(digits)
    return spaces.over(space, space.widened(draw(st.integers(0, plain.full)), plain))


@st.composite
def two_sets(draw: st.DrawFn) -> tuple[States, States]:
    """Two sets of the same circuit, kept as integers, as diagrams, or as either."""
    spaces = Spaces(RADICES, draw(st.sampled_from([None, 0, 7])))
    return draw(sets(spaces)), draw(sets(spaces))


OPERATIONS: tuple[tuple[Callable[[States, States], States], Callable[[Plain, Plain], Plain]], ...] = (
    (lambda a, b: a & b, lambda a, b: a & b),
    (lambda a, b: a | b, lambda a, b: a | b),
    (lambda a, b: a - b, lambda a, b: a - b),
    (lambda a, b: union((a,), b), lambda a, b: a | b),
    (lambda a, b: union((a, b), a & b), lambda a, b: a | b),
    (lambda a, _: ~a, lambda a, _: frozenset(EVERY) - a),
)


@settings(max_examples=60, deadline=None)
@given(two_sets())
def test_set_operations_are_those_of_plain_sets(pair: tuple[States, States]) -> None:
    """Intersection, union, difference and complement hold in the states in which they should."""
    left, right = plainly(pair[0]), plainly(pair[1])
    for on_states, on_plain in OPERATIONS:
        assert plainly(on_states(*pair)) == on_plain(left, right)
        assert set(on_states(*pair).space.digits) >= set(pair[0].space.digits)
    assert pair[0].same_as(pair[1]) == (left == right)
    assert bool(pair[0]) == bool(left)
    assert pair[0].everything == (left == frozenset(EVERY))
    assert pair[0].bits.bit_count() * len(EVERY) == len(left) * pair[0].space.size


@settings(max_examples=60, deadline=None)
@given(two_sets(), st.integers(0, len(RADICES) - 1))
def test_turning_a_digit_leads_into_the_set(pair: tuple[States, States], digit: int) -> None:
    """`turned` holds where some value of the digit leads into the set; a set depends on it where not every one does."""
    states, inside = pair[0], plainly(pair[0])
    anyhow = {(*state[:digit], value, *state[digit + 1 :]) for state in inside for value in range(RADICES[digit])}
    assert plainly(states.turned(digit)) == anyhow
    assert states.depends_on(digit) == (anyhow != inside)
    for value in range(RADICES[digit]):
        assert plainly(states.given(digit, value)) == {
            state for state in EVERY if (*state[:digit], value, *state[digit + 1 :]) in inside
        }


@settings(max_examples=20, deadline=None)
@given(two_sets(), st.sets(st.integers(0, len(RADICES) - 1), max_size=3))
def test_leaving_some_digits_open_makes_a_set_of_the_others(pair: tuple[States, States], digits: set[int]) -> None:
    """It holds wherever some values of those lead into the set."""
    inside, left = plainly(pair[0]), pair[0].at_some(digits)
    others = [digit for digit in DIGITS if digit not in digits]
    kept = {tuple(state[digit] for digit in others) for state in inside}
    assert plainly(left) == {state for state in EVERY if tuple(state[digit] for digit in others) in kept}
    assert not digits & set(left.space.digits)


@settings(max_examples=60, deadline=None)
@given(two_sets())
def test_a_tight_set_is_the_same_over_fewer_digits(pair: tuple[States, States]) -> None:
    """`tight` changes no state's membership and keeps only digits that the set depends on."""
    tight = pair[0].tight()
    assert plainly(tight) == plainly(pair[0])
    assert all(tight.depends_on(digit) for digit in tight.space.digits)


@settings(max_examples=40, deadline=None)
@given(st.lists(st.tuples(st.sets(st.integers(0, 16), max_size=4), st.integers(0, 1)), min_size=1, max_size=4))
def test_a_wide_set_is_tight_over_the_digits_that_it_depends_on(terms: list[tuple[set[int], int]]) -> None:
    """Over 2^17 states as well: just the digits stay whose turning leads into the set or out of it."""
    spaces = Spaces((2,) * 17)
    wide, found = spaces.of(range(17)), spaces.none()
    for digits, value in terms:
        term = spaces.all()
        for digit in digits:
            term = term & spaces.where(digit, (value,))
        found = found | term
    states = spaces.over(wide, found.over(wide))
    tight = states.tight()
    assert tight.space.digits == tuple(digit for digit in range(17) if wide.depends(states.bits, digit))
    assert tight.over(wide) == states.bits


@settings(max_examples=100, deadline=None)
@given(st.data(), st.sampled_from([None, 0]))
def test_moving_a_digit_is_a_shift(data: st.DataObject, integers: int | None) -> None:
    """`moved` turns the digit from one value to another in exactly the states that stand at the first; so do shifts."""
    plain, space = Space(DIGITS, RADICES), Spaces(RADICES, integers).of(DIGITS)
    bits = space.widened(data.draw(st.integers(0, plain.full)), plain)
    digit = data.draw(st.integers(0, len(RADICES) - 1))
    start, end = data.draw(st.tuples(*[st.integers(0, RADICES[digit] - 1)] * 2))
    before = members(space, bits)
    after = {
        space.number({**space.values(state), digit: end}) for state in before if space.values(state)[digit] == start
    }
    assert members(space, space.moved(bits, digit, start, end)) == after
    shift, going = (end - start) * space.strides[digit], bits & space.where(digit, (start,))
    assert members(space, (going << shift if shift >= 0 else going >> -shift) & space.full) == after


@settings(max_examples=12, deadline=None)
@given(st.data(), st.sampled_from([None, 0]), st.sampled_from(DIGITS))
def test_the_parts_of_a_set_are_what_is_left_at_each_value(
    data: st.DataObject, integers: int | None, highest: int
) -> None:
    """Of a set that hangs on no digit higher than this."""
    narrow, space = Space(DIGITS[: highest + 1], RADICES[: highest + 1]), Spaces(RADICES, integers).of(DIGITS)
    bits = data.draw(st.integers(0, narrow.full))
    below = space.where(highest, (0,))
    for value, part in enumerate(space.parts(space.widened(bits, narrow), highest)):
        lower = {state for state in members(space, part & below) if state < space.strides[highest]}
        left = bits >> value * space.strides[highest]
        assert lower == {state for state in range(space.strides[highest]) if left >> state & 1}


@settings(max_examples=60, deadline=None)
@given(st.data(), st.sampled_from([None, 0]))
def test_the_lowest_and_the_highest_state_are_the_outermost_bits(data: st.DataObject, integers: int | None) -> None:
    """Of any set that has any; and each alone is a set of one."""
    plain, space = Space(DIGITS, RADICES), Spaces(RADICES, integers).of(DIGITS)
    bits = space.widened(data.draw(st.integers(1, plain.full)), plain)
    lowest = bits & -bits
    assert members(space, lowest) == {min(members(space, bits))}
    assert lowest.bit_length() - 1 == min(members(space, bits))
    assert bits.bit_length() - 1 == max(members(space, bits))


def members(space: Space, bits: int) -> set[int]:
    """The numbers of a set's states."""
    return {state for state in range(space.size) if bits >> state & 1}


def test_sets_that_cannot_be_put_together_are_refused() -> None:
    """A space that lacks a digit of the set, sets of two circuits, and an integer that is no set of a wide space."""
    small, whole = Space((0,), (2,)), Space((0, 1), (2, 3))
    with pytest.raises(ValueError, match="all its digits"):
        small.widened(whole.full, whole)
    wide, other = (Spaces(RADICES, 0).of(DIGITS) for _ in range(2))
    with pytest.raises(ValueError, match="two circuits"):
        wide.moved(other.full, 1, 0, 2)
    with pytest.raises(TypeError, match="no plain integer"):
        wide.moved(6, 1, 0, 2)
    assert wide.moved(0, 1, 0, 2) == wide.full & 0
    for space in (small, Spaces(RADICES, 0).of((0,))):
        with pytest.raises(ValueError, match="not in"):
            space.where(1, (0,))


def test_a_space_may_be_just_as_wide_as_is_allowed() -> None:
    """Up to `wide` states its sets are integers, up to `widest` diagrams; more are too many."""
    spaces = Spaces(RADICES, 6, 24)
    assert [spaces.of(digits).has_diagrams for digits in ((0, 1), (0, 3), (0, 1, 3))] == [False, True, True]
    assert spaces.engine == "decision diagrams"
    assert Spaces(RADICES, 6).engine == "integers"
    with pytest.raises(TooWide):
        spaces.of((0, 1, 2, 3))
    assert spaces.unlimited().of((0, 1, 2, 3)).size == 48
    assert spaces.alike(RADICES) is spaces
    other = spaces.alike((2, 2, 4, 4))
    assert [other.of(digits).has_diagrams for digits in ((0, 1), (0, 2))] == [False, True]
    with pytest.raises(TooWide):
        other.of((1, 2, 3))
    with patch.object(space_module, "WIDEST", 6):
        assert Space((0, 1), (2, 3)).size == 6
        with pytest.raises(TooWide):
            Space((0, 1), (2, 4))
