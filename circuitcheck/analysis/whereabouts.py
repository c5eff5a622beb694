"""Where one run of events has come to, as the proofs see it: what may move next.

What moves a digit is decided in its cone of influence, and a larger cone around it may know better in which order
relays move there. So the run is followed in every cone at once: as a set of states of the cone's course, which is one
state, or several that differ in how long relays have been waiting. A digit may move where all cones that have it agree.
"""

from collections.abc import Iterable, Iterator
from copy import copy
from typing import NamedTuple, Self

from circuitcheck.analysis.behaviour import Behaviour
from circuitcheck.analysis.course import at_some_clock
from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.resting import Step, following, stepped
from circuitcheck.analysis.rounds import joined
from circuitcheck.analysis.single_state import State

Move = tuple[int, int]
"""A digit, and the value that it goes to."""


class End(NamedTuple):
    """Where relays may come to rest: how they stand there. how: "settles", "shorted" or "never settles"."""

    positions: State
    how: str


class Whereabouts:
    """A run of events from a state of power-up on; `after` each event it is another."""

    def __init__(self, facts: Facts, beginning: State) -> None:
        self._facts = facts
        self._cone_of: dict[int, tuple[int, ...]] = {}
        self._behaviours: dict[tuple[int, ...], Behaviour] = {}
        for digit in range(len(facts.circuit.digits)):
            behaviour = facts.behaviour((digit,))
            self._cone_of[digit] = behaviour.space.digits
            self._behaviours[behaviour.space.digits] = behaviour
        self._now = {cone: 1 << one.space.number(beginning) for cone, one in self._behaviours.items()}

    def after(self, digit: int, start: int, end: int) -> Self:
        """The same run once this digit has moved."""
        now = dict(self._now)
        for cone, behaviour in self._behaviours.items():
            if digit in cone:
                now[cone] = 0
                for step in behaviour.course.steps.all:
                    if step[:3] == (digit, start, end):
                        now[cone] |= stepped(behaviour.course.steps.space, self._now[cone], step)
        moved = copy(self)
        moved._now = now
        return moved

    def quick_moves(self, digits: Iterable[int]) -> list[Move]:
        """What those of these digits can do at once that are relays, timers left alone."""
        return [move for digit in digits for move in self._moves(digit, quick=True)]

    def slow_moves(self, digits: Iterable[int]) -> list[Move]:
        """What these digits can do once relays are at rest: timers, axes, controls."""
        return [move for digit in digits for move in self._moves(digit, quick=False)]

    @property
    def at_rest(self) -> bool:
        """Do relays stand still, or go round for ever?"""
        return all(self._now[cone] & one.course.steps.rest for cone, one in self._behaviours.items())

    def ends(self, state: State) -> Iterator[tuple[End, ...]]:
        """Where relays can come to rest from this state, by whatever order their times leave: for each of the smallest
        groups of them that have more ends than one."""
        racing: list[set[int]] = []
        for cone in sorted(self._behaviours, key=len):
            if not any(smaller <= set(cone) for smaller in racing):
                ends = self._ends(cone, state)
                if len(ends) > 1:
                    racing.append(set(cone))
                    yield ends

    def may_short(self, state: State, relays: Iterable[int]) -> bool:
        """Can these relays, in some order from this state, come to a short? A cone knows only of those within it."""
        shorts = self._facts.shorted
        for digit in shorts.space.digits:
            if digit not in relays:
                shorts = shorts & shorts.spaces.where(digit, (state[digit],))
        return bool(shorts) and any(there in shorts for there in self._followed(state, tuple(relays)))

    def _followed(self, state: State, relays: tuple[int, ...]) -> Iterator[State]:
        """Every state that relays bring about from this one, while nothing else moves."""
        waiting, seen = [(state, self)], set()
        while waiting:
            here, whereabouts = waiting.pop()
            key = tuple(whereabouts._now.values())
            if key not in seen:
                seen.add(key)
                yield here
                for digit, end in whereabouts.quick_moves(relays):
                    waiting.append(({**here, digit: end}, whereabouts.after(digit, here[digit], end)))

    def _moves(self, digit: int, *, quick: bool) -> Iterator[Move]:
        """The moves that the digit's own cone has, as far as no larger one is against them."""
        cone = self._cone_of[digit]
        for step in _open(self._behaviours[cone], self._now[cone], digit, quick=quick):
            larger = [other for other in self._behaviours if digit in other and other != cone]
            if all(self._agrees(other, step, quick=quick) for other in larger):
                yield digit, step.end

    def _agrees(self, cone: tuple[int, ...], step: Step, *, quick: bool) -> bool:
        others = _open(self._behaviours[cone], self._now[cone], step.digit, quick=quick)
        return any(other.end == step.end for other in others)

    def _ends(self, cone: tuple[int, ...], state: State) -> tuple[End, ...]:
        behaviour = self._behaviours[cone]
        steps, size = behaviour.course.steps, behaviour.space.size
        after = following(steps.space, list(steps.quick), self._now[cone])
        going = joined(step.allowed for step in steps.quick)
        found = []
        standing = at_some_clock(behaviour.space, after & steps.rest & ~going)
        while standing:
            there = state | behaviour.space.values((standing & -standing).bit_length() - 1)
            found.append(End(there, "shorted" if there in self._facts.shorted else "settles"))
            standing &= standing - 1
        endless = after & steps.rest & going
        if endless:
            number = ((endless & -endless).bit_length() - 1) % size
            found.append(End(state | behaviour.space.values(number), "never settles"))
        relays = [relay.digit for relay in self._facts.circuit.relays]
        differing = [digit for digit in relays if len({end.positions[digit] for end in found}) > 1]
        return tuple(End({digit: end.positions[digit] for digit in differing}, end.how) for end in found)


def _open(behaviour: Behaviour, now: int, digit: int, *, quick: bool) -> list[Step]:
    steps = behaviour.course.steps.quick if quick else behaviour.course.steps.others
    taken: dict[int, Step] = {}
    for step in steps:
        if step.digit == digit and now & step.allowed:
            taken.setdefault(step.end, step)
    return list(taken.values())
