"""What operation goes through, step by step.

A course is kept over the digits that it is about; where relays' operate and release times are given, over a clock as
well (clocks.py), since what can follow then hangs on how long relays have been waiting.
"""

from collections.abc import Iterable
from typing import NamedTuple

from circuitcheck.analysis.clocks import TooManyTimes, clocked
from circuitcheck.analysis.resting import Step, following, resting_states, rounds_from
from circuitcheck.analysis.rounds import Rounds, joined
from circuitcheck.analysis.states import Space, TooWide
from circuitcheck.analysis.time_left import ANY_TIME, Range


class Steps(NamedTuple):
    """What can follow what. Sets are bits over `space`, whose last digit may be a clock.

    quick: the steps of relays that take milliseconds; others: all other steps, where they can happen. rest: the states
    in which relays stand still, or go round for ever. shorted: not followed further.
    """

    space: Space
    quick: tuple[Step, ...]
    others: tuple[Step, ...]
    rest: int
    shorted: int

    @property
    def all(self) -> list[Step]:
        """The quick ones first."""
        return [*self.quick, *self.others]


class Course(NamedTuple):
    """rounds: the states first reached after 0, 1, 2 … steps; reached: all of them."""

    steps: Steps
    rounds: Rounds
    reached: int

    def predecessor(self, state: int, round_number: int) -> tuple[int, Step]:
        """A state of the round before from which one step leads here. LookupError for a state of another round."""
        before = self.rounds[round_number - 1]
        space = self.steps.space
        for step in self.steps.all:
            position = space.index(step.digit)
            stride = space.strides[position]
            if state // stride % space.radices[position] == step.end:
                origin = state + (step.start - step.end) * stride - step.clock
                if origin >= 0 and before >> origin & 1 and step.allowed >> origin & 1:
                    return origin, step
        raise LookupError("no step leads here from the round before")

    def origin(self, state: int, round_number: int) -> int:
        """The state of round 0 from which a chain of predecessors leads to this one."""
        for number in range(round_number, 0, -1):
            state, _ = self.predecessor(state, number)
        return state


def steps_in_time(
    space: Space,
    quick: list[Step],
    ranges: list[Range],
    anytime: list[Step],
    at_rest: list[Step],
    beginning: int,
    shorted: int,
) -> Steps:
    """The steps that there are from `beginning` on.

    ranges: how long each quick step takes. anytime: steps that wait for nothing. at_rest: steps that happen only at
    rest, allowed as if all were. TooWide where all that is known of times left makes the space too wide, and where
    sets are diagrams, which have no digit for a clock. Where times left would have to be told apart without end, they
    are left out of account: every order counts.
    """
    timed = any(one != ANY_TIME for one in ranges)
    if timed and space.has_diagrams:
        raise TooWide(space.digits, space.size)
    try:
        if timed:
            return _steps_by_clock(space, quick, ranges, anytime, at_rest, beginning, shorted)
    except TooManyTimes:
        # Every order then counts, as if no times were given: nothing that can happen is left out.
        pass
    return steps_with_rest(space, quick, anytime, at_rest, resting_states(space, quick, shorted), shorted)


def _steps_by_clock(
    space: Space,
    quick: list[Step],
    ranges: list[Range],
    anytime: list[Step],
    at_rest: list[Step],
    beginning: int,
    shorted: int,
) -> Steps:
    found = clocked(space, quick, ranges, anytime, at_rest, beginning, shorted)
    stopped = at_every_clock(found.space, space, shorted)
    rest = resting_states(found.space, list(found.quick), stopped)
    return steps_with_rest(found.space, found.quick, found.anytime, found.at_rest, rest, stopped)


def follow(steps: Steps, beginning: int) -> Course:
    """All that follows, and round by round where somebody looks."""
    rounds = Rounds(rounds_from(steps.space, steps.all, beginning))
    return Course(steps, rounds, following(steps.space, steps.all, beginning))


def at_some_clock(space: Space, bits: int) -> int:
    """The states of `space` that belong to a set of a course at some reading of its clock."""
    found = bits & space.full
    while bits := bits >> space.size:
        found |= bits & space.full
    return found


def at_every_clock(wide: Space, space: Space, bits: int) -> int:
    """A set over `space`, whatever a course's clock reads."""
    return joined(bits << clock * space.size for clock in range(wide.size // space.size))


def steps_with_rest(
    space: Space, quick: Iterable[Step], anytime: Iterable[Step], at_rest: Iterable[Step], rest: int, shorted: int
) -> Steps:
    """The steps that there are where relays stand still in the states `rest`."""
    others = [*anytime, *(step._replace(allowed=step.allowed & rest) for step in at_rest)]
    return Steps(space, _happening(quick), _happening(others), rest, shorted)


def _happening(steps: Iterable[Step]) -> tuple[Step, ...]:
    return tuple(step for step in steps if step.allowed)
