"""Decision diagrams of a few digits, one of which has a single value, against plain integers and sets."""

from itertools import product
from math import prod

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from oxidd.bdd import BDDFunction

from circuitcheck.analysis import diagrams as module
from circuitcheck.analysis.diagrams import Diagrams
from circuitcheck.analysis.space import TooMuchWork
from circuitcheck.analysis.states import Space, Spaces

RADICES = (2, 3, 1, 5)
DIGITS = tuple(range(len(RADICES)))
PLAIN = Space(DIGITS, RADICES)
STATES = range(PLAIN.size)

bits_of_sets = st.integers(0, PLAIN.full)


def members(bits: int) -> list[int]:
    """The numbers of a set's states, each asked for by itself."""
    return [state for state in STATES if bits >> state & 1]


def built(diagrams: Diagrams, bits: int) -> BDDFunction:
    """A set made state by state of its digits' values."""
    found = diagrams.false
    for state in STATES:
        if bits >> state & 1:
            term = diagrams.true
            for digit, value in PLAIN.values(state).items():
                term &= diagrams.has_value(digit, value)
            found |= term
    return found


@settings(max_examples=25)
@given(bits_of_sets)
def test_a_set_of_bits_as_a_diagram_has_the_same_states_and_gives_the_same_bits(bits: int) -> None:
    """It is the one diagram that there is for them."""
    diagrams = Diagrams(RADICES)
    function = diagrams.of_bits(DIGITS, bits)
    assert function == built(diagrams, bits)
    assert diagrams.bits_of(function, DIGITS, {}) == bits


@settings(max_examples=25)
@given(bits_of_sets)
def test_a_diagram_depends_on_the_digits_whose_turning_leads_in_or_out(bits: int) -> None:
    """And on no others."""
    diagrams = Diagrams(RADICES)
    assert diagrams.support(diagrams.of_bits(DIGITS, bits), len(DIGITS)) == {
        one for one in DIGITS if PLAIN.depends(bits, one)
    }


@settings(max_examples=25)
@given(bits_of_sets, st.integers(0, RADICES[-1] - 1))
def test_a_diagram_at_a_value_of_its_highest_digit_is_what_is_left_of_it(bits: int, value: int) -> None:
    """The states of the other digits in which it holds with that value."""
    diagrams = Diagrams(RADICES)
    size = prod(RADICES[:-1])
    left = bits >> value * size & (1 << size) - 1
    assert diagrams.at_value(diagrams.of_bits(DIGITS, bits), DIGITS[-1], value) == diagrams.of_bits(DIGITS[:-1], left)


@settings(max_examples=25)
@given(bits_of_sets)
def test_a_set_brought_from_a_circuit_with_other_digits_further_on_is_the_same_set(bits: int) -> None:
    """Its variables have other numbers there."""
    narrow, wide = Diagrams(RADICES), Diagrams((*RADICES, 4, 2))
    there = wide.brought_from(narrow, narrow.of_bits(DIGITS, bits))
    assert there == wide.of_bits(DIGITS, bits)
    assert wide.brought_from(wide, there) == there


def test_the_values_of_a_digit_part_all_codes_among_them() -> None:
    """No two values share a code, none is left over, and only one code of each is counted."""
    diagrams = Diagrams(RADICES)
    for digit, radix in enumerate(RADICES):
        values = [diagrams.has_value(digit, value) for value in range(radix)]
        every = diagrams.false
        for one in values:
            assert (one & every) == diagrams.false
            every |= one
        assert every == diagrams.true
        spare = diagrams.count - len(diagrams.variables[digit])
        for one in values:
            assert (one & diagrams.within([digit])).sat_count(diagrams.count) == 1 << spare


@settings(max_examples=25)
@given(bits_of_sets, st.sampled_from([digits for n in (1, 2, 3) for digits in product(DIGITS, repeat=n)]))
def test_leaving_digits_open_adds_the_states_that_differ_in_them(bits: int, digits: tuple[int, ...]) -> None:
    """One after the other, or all at once."""
    space = Spaces(RADICES, 0).of(DIGITS)
    expected = bits
    for digit in digits:
        expected = PLAIN.anyhow(expected, digit)
    assert members(space.all_anyhow(space.widened(bits, PLAIN), digits)) == members(expected)


@settings(max_examples=25)
@given(bits_of_sets, st.sampled_from(DIGITS), st.data())
def test_a_shift_by_a_digits_stride_turns_that_digit(bits: int, digit: int, data: st.DataObject) -> None:
    """States that have no place to go are lost, as they are where a plain integer is shifted within one value."""
    space = Spaces(RADICES, 0).of(DIGITS)
    by = data.draw(st.integers(1 - RADICES[digit], RADICES[digit] - 1))
    expected = {
        state + by * PLAIN.strides[digit]
        for state in members(bits)
        if 0 <= PLAIN.values(state)[digit] + by < RADICES[digit]
    }
    wide, shift = space.widened(bits, PLAIN), abs(by) * PLAIN.strides[digit]
    assert set(members(wide << shift if by >= 0 else wide >> shift)) == expected


@settings(max_examples=25)
@given(bits_of_sets, bits_of_sets)
def test_a_diagram_is_told_like_the_integer_that_it_stands_for(bits: int, other: int) -> None:
    """Equal, counted, empty, the highest bit, turned round, and with all that only one of two has."""
    space = Spaces(RADICES, 0).of(DIGITS)
    wide, further = space.widened(bits, PLAIN), space.widened(other, PLAIN)
    assert wide.bit_count() == bits.bit_count()
    assert wide.bit_length() == bits.bit_length()
    assert bool(wide) == bool(bits)
    assert (wide == further) == (bits == other)
    assert (wide != further) == (bits != other)
    assert (wide == 0, wide == -1) == (bits == 0, bits == PLAIN.full)
    assert space.integer(~wide) == PLAIN.full & ~bits
    assert space.integer(wide ^ further) == bits ^ other
    assert not wide >> PLAIN.size
    assert space.integer(wide & -wide) == bits & -bits


def test_a_plan_is_given_so_much_work_and_no_more(monkeypatch: pytest.MonkeyPatch) -> None:
    """Each eighth result is counted for eight, with its nodes; what is asked next begins at nothing."""
    diagrams = Diagrams((2, 2))
    both = diagrams.has_value(0, 1) & diagrams.has_value(1, 1)
    monkeypatch.setattr(module, "STEPS_AT_LEAST", 1)
    monkeypatch.setattr(module, "MOST_STEPS", 8 * (1 + both.node_count()))
    for _ in range(2):
        for _ in range(15):
            diagrams.count_steps(both)
        with pytest.raises(TooMuchWork):
            diagrams.count_steps(both)
        diagrams.begin_counting()


@settings(max_examples=25)
@given(bits_of_sets, bits_of_sets, st.sampled_from(DIGITS))
def test_leaving_a_digit_open_in_two_sets_at_once_takes_the_states_of_both(bits: int, others: int, digit: int) -> None:
    """As if their common states had been asked for first."""
    space = Spaces(RADICES, 0).of(DIGITS)
    found = space.anyhow_in_both(space.widened(bits, PLAIN), space.widened(others, PLAIN), digit)
    assert members(found) == members(PLAIN.anyhow(bits & others, digit))
    assert PLAIN.anyhow_in_both(bits, others, digit) == PLAIN.anyhow(bits & others, digit)
