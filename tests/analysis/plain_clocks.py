"""Relays with times, gone through tick by tick: the plain way that sets of states with a clock are held against.

All times are whole ticks, and every bound is itself allowed. Then whatever order of moves is possible at all is
possible with all moves at whole ticks (Henzinger, Manna and Pnueli, "What good are digital clocks?", ICALP 1992; from
memory).
"""

from collections.abc import Iterable, Iterator
from math import inf
from typing import NamedTuple

from circuitcheck.analysis.resting import Step
from circuitcheck.analysis.states import Space
from circuitcheck.analysis.time_left import Range


class Ticking(NamedTuple):
    """A state, and for each quick step that is wanted (by its number) for how many ticks it has been."""

    state: int
    waited: tuple[tuple[int, int], ...]


class Ticks(NamedTuple):
    """Quick steps with their ranges, steps that come at any time, and steps that come where no relay wants to move."""

    space: Space
    quick: list[Step]
    ranges: list[Range]
    anytime: list[Step]
    at_rest: list[Step]

    def begin(self, state: int) -> Ticking:
        """All begin to wait now."""
        return Ticking(state, tuple((number, 0) for number in self._wanted(state)))

    def moved(self, one: Ticking) -> Iterator[Ticking]:
        """What one relay's move, or a tick, leads to."""
        for number, ticks in one.waited:
            if ticks >= self.ranges[number][0]:
                yield self._after(one, self.quick[number])
        later = tuple((number, self._ticked(number, ticks)) for number, ticks in one.waited)
        if all(ticks <= self.ranges[number][1] for number, ticks in later):
            yield Ticking(one.state, later)

    def following(self, one: Ticking) -> Iterator[Ticking]:
        """What anything leads to."""
        yield from self.moved(one)
        for step in (*self.anytime, *(() if one.waited else self.at_rest)):
            if step.allowed >> one.state & 1:
                yield self._after(one, step)

    def _wanted(self, state: int) -> list[int]:
        return [number for number, step in enumerate(self.quick) if step.allowed >> state & 1]

    def _ticked(self, number: int, ticks: int) -> int:
        least, greatest = self.ranges[number]
        return min(ticks + 1, int(least)) if greatest == inf else ticks + 1

    def _after(self, one: Ticking, step: Step) -> Ticking:
        state = one.state + (step.end - step.start) * self.space.strides[self.space.index(step.digit)]
        before = dict(one.waited)
        return Ticking(state, tuple((number, before.get(number, 0)) for number in self._wanted(state)))


def all_by_moves(ticks: Ticks, beginning: Iterable[Ticking]) -> set[Ticking]:
    """All that relays alone lead to."""
    found = set(beginning)
    waiting = list(found)
    while waiting:
        for there in ticks.moved(waiting.pop()):
            if there not in found:
                found.add(there)
                waiting.append(there)
    return found


def all_following(ticks: Ticks, beginning: Iterable[Ticking]) -> set[Ticking]:
    """All that anything leads to."""
    found = set(beginning)
    waiting = list(found)
    while waiting:
        for there in ticks.following(waiting.pop()):
            if there not in found:
                found.add(there)
                waiting.append(there)
    return found
