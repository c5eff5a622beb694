"""The most that flows at once: over all states that operation reaches, none sampled.

Each load's current is there in a set of states. A sum is met where the sets of its loads have a reachable state in
common; so loads are taken in one by one, largest first, as long as there is such a state, and what can't beat the best
sum so far is left.

Where that takes too many steps, or the states are too many to count together, the sum of all is told instead: an upper
bound, and marked as one.
"""

from typing import Final, NamedTuple

from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.single_state import State
from circuitcheck.analysis.states import States, TooWide

MOST_STEPS: Final = 2_000


class Part(NamedTuple):
    """In `states` a load (by number) adds so much to the sum. fed: it comes from a supply, which may limit it."""

    load: int
    amount: float
    states: States
    fed: bool = True


class Greatest(NamedTuple):
    """The sum, its parts from the largest down, and a state in which they meet: a value for each digit that matters.

    exact: False where it is an upper bound; then there is no state. limit: of the supplies, where it cut the sum.
    """

    amount: float
    parts: tuple[Part, ...]
    state: State | None
    exact: bool
    limit: float = 0.0

    def limited(self, limit: float) -> "Greatest":
        """The same with what the supplies give cut at `limit` amperes; 0 for none."""
        fed = sum(part.amount for part in self.parts if part.fed)
        if not 0 < limit < fed:
            return self
        return self._replace(amount=self.amount - fed + limit, limit=limit)


NOTHING: Final = Greatest(0.0, (), None, True)


class Sums:
    """Finds the greatest sums in one circuit; each question is answered once."""

    def __init__(self, facts: Facts) -> None:
        self._facts = facts
        self._known: dict[tuple[object, ...], Greatest] = {}

    def greatest(self, parts: list[Part]) -> Greatest:
        """The greatest sum of parts that meet in a state that operation reaches."""
        return self._greatest([], sorted((part for part in parts if part.amount > 0), key=lambda part: -part.amount))

    def greatest_with(self, first: Part, parts: list[Part]) -> Greatest:
        """The same of sums that `first` belongs to."""
        return self._greatest([first], sorted((part for part in parts if part.amount > 0), key=lambda p: -p.amount))

    def _greatest(self, chosen: list[Part], parts: list[Part]) -> Greatest:
        key = (len(chosen), *((part[:2], part.states.space.digits, part.states.bits) for part in (*chosen, *parts)))
        if key not in self._known:
            self._known[key] = self._search(chosen, parts)
        return self._known[key]

    def _search(self, chosen: list[Part], parts: list[Part]) -> Greatest:
        try:
            return _Search(self._facts, parts).run(chosen)
        except (TooWide, _TooManySteps):
            every = _one_for_each_load([*chosen, *parts])
            return Greatest(sum(part.amount for part in every), tuple(every), None, False)


class _TooManySteps(Exception):
    """The search has gone on for MOST_STEPS."""


class _Search:
    def __init__(self, facts: Facts, parts: list[Part]) -> None:
        self._facts = facts
        self._parts = parts
        self._left = [sum(part.amount for part in _one_for_each_load(parts[first:])) for first in range(len(parts))]
        self._best = NOTHING
        self._steps = 0

    def run(self, chosen: list[Part]) -> Greatest:
        states = self._facts.spaces.all()
        for part in chosen:
            states = states & part.states
        reached = self._facts.reached(states)
        if reached:
            self._extend(tuple(chosen), states, reached)
        return self._best

    def _extend(self, chosen: tuple[Part, ...], states: States, reached: States) -> None:
        """Takes in one part after another; `waiting` has, for each sum on the way, the next part that it may take."""
        waiting = [(0, self._met(chosen, states, reached), chosen, states)]
        while waiting:
            number, amount, chosen, states = waiting.pop()
            if number == len(self._parts) or amount + self._left[number] <= self._best.amount + 1e-12:
                continue
            self._steps += 1
            if self._steps > MOST_STEPS:
                raise _TooManySteps
            waiting.append((number + 1, amount, chosen, states))
            part = self._parts[number]
            both = states & part.states
            met = self._facts.reached(both) if both else both
            if met:
                more = (*chosen, part)
                waiting.append((number + 1, self._met(more, both, met), more, both))

    def _met(self, chosen: tuple[Part, ...], states: States, reached: States) -> float:
        """A sum that is met: the best one if it is greater than all before."""
        amount = sum(part.amount for part in chosen)
        if amount > self._best.amount:
            self._best = Greatest(amount, chosen, _first_state(states.tight(), reached), True)
        return amount


def _first_state(states: States, reached: States) -> State:
    """The reached state of the lowest number, told by those digits that make the sum."""
    values = reached.space.values((reached.bits & -reached.bits).bit_length() - 1)
    return {digit: value for digit, value in values.items() if digit in states.space.digits}


def _one_for_each_load(parts: list[Part]) -> list[Part]:
    """The greatest part of each load: a load is in one condition at a time."""
    best: dict[int, Part] = {}
    for part in parts:
        if part.load not in best or part.amount > best[part.load].amount:
            best[part.load] = part
    return sorted(best.values(), key=lambda part: -part.amount)
