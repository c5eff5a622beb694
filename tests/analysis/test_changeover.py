"""What comes about while contacts travel, against going through every state and every position of the poles."""

from collections.abc import Iterator
from functools import lru_cache
from itertools import combinations, product

from hypothesis import given, settings
from hypothesis import strategies as st

from circuitcheck.analysis.changeover import Apart, Travelling, not_usual, place_poles, poles_apart, while_travelling
from circuitcheck.analysis.poles_apart import side
from circuitcheck.analysis.single_state import State
from circuitcheck.analysis.states import Space, States
from tests.reference.asking import facts_of

BOX = """
    supply PS 12 V 10 A
    switch S1 spdt positions open close
    button PB1 no
    relay  K1 K2 spdt coil 12 V 160 ohm with diode
    relay  K3 no nc coil 12 V 160 ohm with diode
    rung   PS.+, PB1, K1.A1-A2, PS.-
    rung   PS.+, S1.com-open, K2.A1-A2, PS.-
    rung   PS.+, K1.11-14, K3.A1-A2, PS.-
"""
PLACES = ("PS", "S1", "PB1", "K1", "K2", "K3")
Set = frozenset[int]


@lru_cache
def apart() -> Apart:
    """The box with its poles apart."""
    return poles_apart(facts_of(BOX))


def space_of_all() -> Space:
    """The space of the plan's own digits."""
    return apart().base.spaces.of(range(len(PLACES)))


def members(states: States) -> Set:
    """The numbers of the states of a set over the plan's own digits."""
    bits = states.over(space_of_all())
    return frozenset(number for number in range(space_of_all().size) if bits >> number & 1)


def placed_somehow(state: State, moving: tuple[int, ...]) -> Iterator[State]:
    """The state with every position of the moving relays' poles, all others at their relay's side."""
    poles, relays = apart().poles, apart().base.circuit.relays
    choices = [
        range(len(poles.circuit.digits[pole].values)) if relay in moving else (side(state[relays[relay].digit]),)
        for pole, relay in poles.relay_of.items()
    ]
    for values in product(*choices):
        yield state | dict(zip(poles.relay_of, values, strict=True))


@lru_cache
def free_in(number: int) -> Set:
    """The digits that may move in a state."""
    steps = apart().base.behaviour(range(len(PLACES))).steps
    return frozenset(step.digit for step in steps if step.allowed >> number & 1)


def worked_out(bad: States, passed: Set) -> Iterator[tuple[tuple[int, ...], Set]]:
    """The definition: every set of moving relays, fewest first, in every state from which each of them may go."""
    base, relay_of, space = apart().base, apart().poles.relay_of, space_of_all()
    passed &= members(base.spaces.over(space, base.behaviour(range(len(PLACES))).reached))
    concerned = sorted({relay_of[digit] for digit in bad.space.digits if digit in relay_of})
    told: list[set[int]] = []
    for many in range(len(concerned) + 1):
        for moving in combinations(concerned, many):
            found = set()
            for number in range(space.size):
                goes = {base.circuit.relays[one].digit for one in moving} <= free_in(number)
                shown = (placed in bad for placed in placed_somehow(space.values(number), moving))
                if number in passed and goes and any(shown):
                    found.add(number)
            if found and not any(fewer <= set(moving) for fewer in told):
                told += [set(moving)] if moving else []
                yield moving, frozenset(found)


@st.composite
def bad_things(draw: st.DrawFn) -> States:
    """Poles, a switch and a button that stand so or so: one way or another."""
    spaces, digits = apart().facts.spaces, apart().poles.circuit.digits
    found = spaces.none()
    for _ in range(draw(st.integers(1, 2))):
        together = spaces.all()
        for digit in draw(st.lists(st.integers(1, len(digits) - 1), min_size=1, max_size=3, unique=True)):
            values = draw(st.sets(st.integers(0, digits[digit].radix - 1), min_size=1, max_size=2))
            together = together & spaces.where(digit, values)
        found = found | together
    return found


@st.composite
def own_states(draw: st.DrawFn) -> States:
    """States of the plan's own digits."""
    space = space_of_all()
    return apart().base.spaces.over(space, draw(st.sampled_from([space.full, draw(st.integers(0, space.full))])))


@settings(max_examples=15, deadline=None)
@given(bad_things(), own_states())
def test_what_comes_about_while_contacts_travel_is_found_with_the_fewest_relays(bad: States, passed: States) -> None:
    """In just the states that going through them all finds; the poles shown make it so, and others stand still."""
    found = list(while_travelling(apart(), bad, passed))
    expected = list(worked_out(bad, members(passed)))
    assert [(one.relays, members(one.states)) for one in found] == expected
    for one, (moving, states) in zip(found, expected, strict=True):
        for number in sorted(states)[:3]:
            state = space_of_all().values(number)
            placed = place_poles(one, state)
            assert placed in list(placed_somehow(state, moving))
            shown = [one for one in placed_somehow(state, moving) if one in bad]
            assert bad.space.number(placed) == min(map(bad.space.number, shown))


@settings(max_examples=10, deadline=None)
@given(own_states(), own_states(), st.sampled_from([(), (0,), (1, 2)]))
def test_what_is_usual_just_before_or_after_is_left_out(states: States, usual: States, moving: tuple[int, ...]) -> None:
    """With the moving relays, and switches that are between positions, turned anyhow."""
    base = apart().base
    left = not_usual(base, Travelling(moving, states, states, apart()), usual).states
    turning = {base.circuit.relays[relay].digit for relay in moving}
    expected = set()
    for number in members(states):
        state = space_of_all().values(number)
        anyhow = [
            range(digit.radix) if place in turning or state[place] >= len(digit.values) else (state[place],)
            for place, digit in enumerate(base.circuit.digits)
        ]
        if not any(dict(enumerate(values)) in usual for values in product(*anyhow)):
            expected.add(number)
    assert members(left) == expected


def test_two_relays_that_it_takes_together_are_told_beside_one_that_does_it_alone() -> None:
    """K1's contact on its way; or K2's, while one of K3's has moved and the other not."""
    poles, where = apart().poles.poles, apart().facts.spaces.where
    (first,), (second,), (ahead, behind) = poles
    together = where(second, (2,)) & where(ahead, (1,)) & where(behind, (0,))
    assert [one.relays for one in while_travelling(apart(), where(first, (2,)) | together)] == [(0,), (1, 2)]


def test_with_no_relay_moving_only_a_switch_between_positions_counts() -> None:
    """At rest nothing travels; K2's pole on its released side is nothing to tell there."""
    base, poles = apart().base, apart().poles
    (pole,) = poles.poles[1]
    released = while_travelling(apart(), apart().facts.spaces.where(pole, (0,)))
    none, k2 = released
    between = base.spaces.where(PLACES.index("S1"), (2,)) & base.spaces.where(PLACES.index("K2"), (0,))
    assert (none.relays, k2.relays) == ((), (1,))
    assert none.states.same_as(between)
