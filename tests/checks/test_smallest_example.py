"""The example of a finding names as few digits as it takes."""

from functools import lru_cache
from itertools import product

from hypothesis import assume, given, settings
from hypothesis import strategies as st

from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.single_state import State
from circuitcheck.checks.findings import smallest_example
from tests.reference.asking import facts_of


@lru_cache
def box() -> Facts:
    """A supply, a switch that passes between two positions, one that doesn't, a button."""
    return facts_of(
        "supply PS 12 V 1 A\nswitch S1 spdt positions open close\nswitch S2 spst positions off on\nbutton PB1 no"
    )


def always(bits: int, shown: State) -> bool:
    """Is every state in the set that has these digits so, wherever the others stand?"""
    space = box().spaces.of(range(4))
    choices = [
        (shown[number],) if number in shown else range(len(one.values))
        for number, one in enumerate(box().circuit.digits)
    ]
    return all(bits >> space.number(dict(enumerate(values))) & 1 for values in product(*choices))


@settings(max_examples=60, deadline=None)
@given(st.lists(st.integers(0, (1 << 24) - 1), min_size=2, max_size=3), st.data())
def test_an_example_names_no_digit_that_could_stand_anyhow(sets: list[int], data: st.DataObject) -> None:
    """Whatever the others are, of their positions, it is so; and none that is named could be left out alone."""
    space = box().spaces.of(range(4))
    # Sets that hang on few digits: what is drawn over fewer of them.
    bits = 0
    for one in sets:
        few = box().spaces.of(data.draw(st.sets(st.integers(0, 3), min_size=1, max_size=3)))
        bits |= box().spaces.over(few, one & few.full & one >> 3).over(space)
    members = [number for number in range(space.size) if bits >> number & 1]
    assume(members)
    state = space.values(data.draw(st.sampled_from(members)))
    assume(all(state[number] < len(digit.values) for number, digit in enumerate(box().circuit.digits)))
    shown = smallest_example(box(), box().spaces.over(space, bits), state)
    assert shown.items() <= state.items()
    assert always(bits, shown)
    assert not any(always(bits, {digit: value for digit, value in shown.items() if digit != left}) for left in shown)
