"""Orders that relays' times leave, against going through them tick by tick; and what is known of times left."""

from math import inf

from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from circuitcheck.analysis.course import at_some_clock, follow, steps_in_time
from circuitcheck.analysis.resting import Step, following
from circuitcheck.analysis.space import Space
from circuitcheck.analysis.time_left import (
    ANY_TIME,
    Range,
    extended,
    just_begun,
    once_first_moves,
    some_time_later,
)
from tests.analysis.plain_clocks import Ticks, all_by_moves, all_following

RELAYS = 3
SPACE = Space((0, 1, 2, 3), (2, 2, 2, 2))
RANGES = [(least, most) for least in range(4) for most in (*range(max(least, 1), 5), inf)]


def steps_of(draw: st.DrawFn, digit: int, spare: bool) -> list[Step]:
    """A digit's steps there and back, in random states."""
    steps = []
    for start in (0, 1):
        states = draw(st.integers(0, SPACE.full)) & (draw(st.integers(0, SPACE.full)) if spare else SPACE.full)
        steps.append(Step(digit, start, 1 - start, states & SPACE.where(digit, (start,))))
    return steps


@st.composite
def ticking(draw: st.DrawFn) -> Ticks:
    """Three relays that want to move in random states, each with times; a switch that comes between, or at rest."""
    quick = [step for digit in range(RELAYS) for step in steps_of(draw, digit, True)]
    ranges: list[Range] = [draw(st.sampled_from([ANY_TIME, *RANGES])) for _ in quick]
    switch = steps_of(draw, RELAYS, True)
    return Ticks(SPACE, quick, ranges, *draw(st.permutations([switch, []])))


@settings(max_examples=120, deadline=None, derandomize=True, suppress_health_check=[HealthCheck.too_slow])
@given(ticking(), st.integers(1, SPACE.full))
def test_the_states_reached_are_those_that_a_walk_tick_by_tick_reaches(ticks: Ticks, beginning: int) -> None:
    """From any set of states, with all that can happen at any time or at rest."""
    steps = steps_in_time(SPACE, ticks.quick, ticks.ranges, ticks.anytime, ticks.at_rest, beginning, 0)
    wanted = 0
    for step in steps.quick:
        wanted |= step.allowed
    assume(not steps.rest & wanted & follow(steps, beginning).reached)
    begun = [ticks.begin(state) for state in range(SPACE.size) if beginning >> state & 1]
    expected = {one.state for one in all_following(ticks, begun)}
    reached = at_some_clock(SPACE, follow(steps, beginning).reached)
    assert {state for state in range(SPACE.size) if reached >> state & 1} == expected


@settings(max_examples=120, deadline=None, derandomize=True, suppress_health_check=[HealthCheck.too_slow])
@given(ticking(), st.integers(0, SPACE.size - 1))
def test_the_ends_of_a_start_are_those_of_a_walk_tick_by_tick(ticks: Ticks, start: int) -> None:
    """Where relays come to a standstill, from one state in which all begin to wait at once."""
    steps = steps_in_time(SPACE, ticks.quick, ticks.ranges, [], [], 1 << start, 0)
    reached = at_some_clock(SPACE, following(steps.space, list(steps.quick), 1 << start))
    walked = all_by_moves(ticks, [ticks.begin(start)])
    assert {state for state in range(SPACE.size) if reached >> state & 1} == {one.state for one in walked}
    standing = {state for state in range(SPACE.size) if not any(one.allowed >> state & 1 for one in ticks.quick)}
    ends = {one.state for one in walked if not one.waited}
    assert {state for state in standing if reached >> state & 1} == ends


@st.composite
def chains(draw: st.DrawFn) -> Ticks:
    """Relays that operate once, each wanting to wherever another digit stands in one way, or anyhow; the switch, which
    may be turned at any time or at rest, can turn back only to where it began."""
    quick: list[Step] = []
    ranges: list[Range] = []
    for relay in range(RELAYS):
        other = draw(st.sampled_from([None, *(digit for digit in range(RELAYS + 1) if digit != relay)]))
        wanted = SPACE.full if other is None else SPACE.where(other, (draw(st.integers(0, 1)),))
        quick.append(Step(relay, 0, 1, wanted & SPACE.where(relay, (0,))))
        least = draw(st.integers(0, 4))
        ranges.append((least, draw(st.integers(max(least, 1), 5))))
    switch = [Step(RELAYS, 0, 1, SPACE.where(RELAYS, (0,)))]
    return Ticks(SPACE, quick, ranges, *draw(st.permutations([switch, []])))


@settings(max_examples=40, deadline=None, derandomize=True)
@given(chains())
def test_relays_that_operate_one_after_the_other_do_so_as_in_a_walk_tick_by_tick(ticks: Ticks) -> None:
    """Some begin to wait while others have waited for some time, or lose what they waited for."""
    steps = steps_in_time(SPACE, ticks.quick, ticks.ranges, ticks.anytime, ticks.at_rest, 1, 0)
    reached = at_some_clock(SPACE, follow(steps, 1).reached)
    expected = {one.state for one in all_following(ticks, [ticks.begin(0)])}
    assert {state for state in range(SPACE.size) if reached >> state & 1} == expected


def test_the_first_to_move_takes_its_time_off_the_others() -> None:
    """Of 2..5 and 4..9 ms the first moves first after 2 to 5; the other then has 0 to 7 left."""
    left = once_first_moves(just_begun([(2, 5), (4, 9)]), 1)
    assert left == ((0, 0), (7, 0))


def test_a_relay_that_is_surely_slower_never_moves_first() -> None:
    """Of 2..5 and 6..9 ms the second is never the first; of 2..5 and 5..9 it may be, at the same moment."""
    assert once_first_moves(just_begun([(2, 5), (6, 9)]), 2) is None
    assert once_first_moves(just_begun([(2, 5), (5, 9)]), 2) == ((0, 0), (0, 0))


def test_relays_that_began_apart_keep_their_distance() -> None:
    """One that has 3 ms or less left still beats one that begins to wait 5..8 ms now, whatever while passes."""
    known = extended(just_begun([(1, 3)]), ((5, 8),))
    assert once_first_moves(some_time_later(known), 2) is None
    assert once_first_moves(known, 1) == ((0, -2), (7, 0))


def test_a_switch_may_be_worked_while_relays_go_round_for_ever() -> None:
    """Two relays break their own coils behind it, each at its own pace: it may be turned off at any of their positions,
    and then they release."""
    space = Space((0, 1, 2), (2, 2, 2))
    on = space.where(2, (1,))
    quick = []
    for relay in (0, 1):
        quick += [Step(relay, 0, 1, on & space.where(relay, (0,))), Step(relay, 1, 0, space.where(relay, (1,)))]
    hand = [Step(2, value, 1 - value, space.where(2, (value,))) for value in (0, 1)]
    ranges: list[Range] = [(2, 3), (1, 2), (5, 7), (4, 4)]
    steps = steps_in_time(space, quick, ranges, [], hand, 1, 0)
    assert at_some_clock(space, follow(steps, 1).reached) == space.full
    released = space.where(0, (0,)) & space.where(1, (0,))
    assert at_some_clock(space, steps.rest & follow(steps, 1).reached) == on | released
    assert {step.digit for step in steps.quick} == {0, 1}
    assert {step.digit for step in steps.others} == {2}


def test_what_comes_of_a_switch_worked_meanwhile_may_go_round_as_well() -> None:
    """The second switch can be turned only once the first one is; a third one arrives whenever it likes."""
    space = Space((0, 1, 2, 3), (2, 2, 2, 2))
    first, second, third = (space.where(digit, (1,)) for digit in (1, 2, 3))
    quick = [Step(0, value, 1 - value, space.where(0, (value,))) for value in (0, 1)]
    hands = [Step(1, 0, 1, space.full & ~first), Step(2, 0, 1, first & ~second)]
    steps = steps_in_time(space, quick, [(2, 3), (1, 2)], [Step(3, 0, 1, space.full & ~third)], hands, 1, 0)
    course = follow(steps, 1)
    assert at_some_clock(space, course.reached) == space.full & ~(second & ~first)
    assert at_some_clock(space, steps.rest & course.reached) == space.full & ~(second & ~first)
    assert {step.digit for step in steps.quick} == {0}
    assert {step.digit for step in steps.others} == {1, 2, 3}
