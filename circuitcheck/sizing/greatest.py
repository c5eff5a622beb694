"""The most that flows at once: over all states that operation reaches, none sampled.

Each load's current is there in a set of states. Which of these operation reaches is known of each by itself; so their
greatest sum in any state that is reached for each of them is at least what operation ever brings together
(worst_case.py), and where operation is found to reach such a state, exactly that. Where it does not, and all that has a
say is narrow, the states that are reached are asked about together. Else the sum is told as an upper bound: what is
shared by fifty motors depends on the orders in which all of them may be worked.
"""

from collections.abc import Iterable
from functools import reduce
from math import prod
from typing import Final, NamedTuple

from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.single_state import State
from circuitcheck.analysis.states import States, TooWide
from circuitcheck.analysis.worst_case import Choice, Group, Most, TooManyRounds, Worst, WorstCases, or_nothing

NARROW: Final = 1 << 20
"""Combinations up to which operation is asked about all parts of a sum together."""


class Part(NamedTuple):
    """In `states` a load (by number) adds so much to the sum. fed: it comes from a supply, which may limit it.
    held: how much more it adds where it is the one that is held fast."""

    load: int
    amount: float
    states: States
    fed: bool = True
    held: float = 0.0


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

Key = tuple[tuple[int, ...], object]


class Sums:
    """Finds the greatest sums in one circuit; each question is answered once."""

    def __init__(self, facts: Facts) -> None:
        self._facts = facts
        self._cases = WorstCases()
        self._reached: dict[Key, States] = {}
        self._groups: dict[tuple[object, ...], Group] = {}
        self._known: dict[tuple[object, ...], tuple[Greatest, Greatest]] = {}

    def greatest(self, parts: list[Part]) -> Greatest:
        """The greatest sum of parts that meet in a state that operation reaches."""
        return self._found(parts)[0]

    def greatest_held(self, parts: list[Part]) -> Greatest:
        """The same where one of the loads that can be is held fast: the one for which it is most."""
        return self._found(parts)[1]

    def _found(self, parts: list[Part]) -> tuple[Greatest, Greatest]:
        by_load: dict[int, list[Part]] = {}
        for part in sorted(parts, key=lambda one: -one.amount):
            if part.amount > 0 or part.held > 0:
                by_load.setdefault(part.load, []).append(part)
        loads = list(by_load.values())
        key = tuple((part[:2], _key(part.states), part[3:]) for load in loads for part in load)
        if key not in self._known:
            try:
                worst = self._worst(loads, self._facts.spaces.all())
                self._known[key] = self._told(loads, worst.usual, False), self._told(loads, worst.one_more, True)
            except TooManyRounds:
                self._known[key] = _all_at_once(loads, False), _all_at_once(loads, True)
        return self._known[key]

    def _worst(self, loads: list[list[Part]], within: States) -> Worst:
        return self._cases.find([self._group(load) for load in loads], within)

    def _group(self, load: list[Part]) -> Group:
        """One load's parts, each in states that operation reaches, and its being off in any other that it reaches."""
        key = tuple((part.amount, part.held, _key(part.states)) for part in load)
        if key not in self._groups:
            choices = or_nothing(Choice(part.amount, part.states, part.held) for part in load)
            self._groups[key] = tuple(one._replace(states=self.where_reached(one.states)) for one in choices)
        return self._groups[key]

    def where_reached(self, states: States) -> States:
        """Those of the states that operation reaches; all of them where that depends on too much at once: more states
        make a sum greater, never less."""
        key = _key(states)
        if key not in self._reached:
            try:
                self._reached[key] = self._facts.reached(states).tight()
            except TooWide:
                self._reached[key] = states
        return self._reached[key]

    def _told(self, loads: list[list[Part]], most: Most | None, held: bool) -> Greatest:
        """The most, with a state in which operation brings it about; a bound where that isn't known."""
        if most is None or most.amount <= 0:
            return NOTHING
        met = _met(loads, most, held)
        bound = Greatest(most.amount, met, None, False)
        try:
            return self._reached_together(loads, bound, held) or bound
        except TooWide:
            return bound

    def _reached_together(self, loads: list[list[Part]], bound: Greatest, held: bool) -> Greatest | None:
        """The sum that is told, or where operation reaches no state of it, the greatest that it does reach; None where
        all that has a say is wide."""
        if not self._asked_together(bound.parts):
            return None
        states = reduce(lambda states, part: states & part.states, bound.parts, self._facts.spaces.all())
        reached = self._facts.reached(states)
        if reached:
            return bound._replace(state=_first_state(states.tight(), reached), exact=True)
        every = [part for load in loads for part in load]
        if not self._asked_together(every):
            return None
        space = self._facts.spaces.of(digit for part in every for digit in part.states.space.digits)
        worst = self._worst(loads, self._facts.reached(self._facts.spaces.over(space, space.full)))
        return self._told(loads, worst.one_more if held else worst.usual, held)

    def _asked_together(self, parts: Iterable[Part]) -> bool:
        """Is what has a say in any of them narrow, or has it all a say in one of them, which is known then?"""
        digits = [part.states.space.digits for part in parts]
        cone = self._facts.cone(digit for some in digits for digit in some)
        radices = self._facts.spaces.radices
        return prod(radices[digit] for digit in cone) <= NARROW or any(
            self._facts.cone(some) == cone for some in digits
        )


def _all_at_once(loads: list[list[Part]], held: bool) -> Greatest:
    """Every load at its greatest, and one of them, the one for which it is most, held fast."""
    most = [max(load, key=lambda part: part.amount) for load in loads]
    if held:
        fast = [max(load, key=lambda part: part.amount + part.held) for load in loads]
        more = [one.amount + one.held - usual.amount for one, usual in zip(fast, most, strict=True)]
        place = more.index(max(more))
        most[place] = fast[place]._replace(amount=fast[place].amount + fast[place].held)
    parts = sorted((part for part in most if part.amount > 0), key=lambda part: -part.amount)
    return Greatest(sum(part.amount for part in parts), tuple(parts), None, False)


def _met(loads: list[list[Part]], most: Most, held: bool) -> tuple[Part, ...]:
    """The parts that make up the most, the one held fast with all that it takes."""
    state = {digit: 0 for load in loads for part in load for digit in part.states.space.digits}
    for states in most.sets:
        state |= states.space.values((states.bits & -states.bits).bit_length() - 1)
    met = [next((part for part in load if state in part.states), None) for load in loads]
    parts = [part for part in met if part is not None]
    if held:
        fast = max(parts, key=lambda part: part.held)
        parts[parts.index(fast)] = fast._replace(amount=fast.amount + fast.held)
    return tuple(sorted((part for part in parts if part.amount > 0), key=lambda part: -part.amount))


def _key(states: States) -> Key:
    return states.space.digits, states.bits


def _first_state(states: States, reached: States) -> State:
    """The reached state of the lowest number, told by those digits that make the sum."""
    values = reached.space.values((reached.bits & -reached.bits).bit_length() - 1)
    return {digit: value for digit, value in values.items() if digit in states.space.digits}
