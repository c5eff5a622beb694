"""The most that several things add up to in one state, exactly, however many digits they have together.

Each thing is in one of some cases, each with an amount and the states in which it holds. Things whose cases share no
digit are independent: their most add up. Things that share digits are taken together as long as those are few: what all
of them add up to parts the states into levels, thing by thing. Where they are too many, the digit that most of them
share is given each of its values in turn, after which they fall apart again: an emergency stop before thirty motors
costs two rounds.
"""

from collections import Counter
from collections.abc import Callable, Iterable, Iterator
from functools import reduce
from math import prod
from typing import Final, NamedTuple

from circuitcheck.analysis.currents import CurrentCase
from circuitcheck.analysis.states import States

TOLD: Final = 1 << 14
"""Combinations up to which the states of a worst case are told."""

TOGETHER: Final = 1 << 18
"""Combinations up to which things that share digits are taken together: 32 kB a set."""


Share = Callable[[CurrentCase], float]
"""What of a case counts."""


MOST_ROUNDS: Final = 2_000
"""So many values are given to digits at most; an emergency stop and a main relay before fifty motors take some 50."""


class TooManyRounds(Exception):
    """Things hang together so closely that one digit after the other would have to be given."""


class Choice(NamedTuple):
    """In `states` a thing has this amount; and `extra` more if it is the one that has more than usual."""

    amount: float
    states: States
    extra: float = 0.0


Group = tuple[Choice, ...]
"""Exactly one of these holds."""


class Most(NamedTuple):
    """The most, within the states that were asked about. It is reached where all of `sets` hold."""

    amount: float
    within: States
    sets: tuple[States, ...]

    @property
    def states(self) -> States:
        """States in which it is reached; where those depend on too much at once, the states that were asked about."""
        spaces = self.within.spaces
        digits = {digit for one in (self.within, *self.sets) for digit in one.space.digits}
        if prod(spaces.radices[digit] for digit in digits) > TOLD:
            return self.within
        return reduce(lambda states, one: states & one, self.sets, self.within).tight()


class Worst(NamedTuple):
    """usual: the most of all amounts; one_more: the most where one thing, the one for which it is most, has its extra
    too. None where no state allows any choice, or nothing has an extra."""

    usual: Most | None
    one_more: Most | None


class _Found(NamedTuple):
    """An amount, and sets of states that hold together where it is reached."""

    amount: float
    sets: tuple[States, ...]


_Pair = tuple[_Found | None, _Found | None]
"""The same two as in Worst."""


def or_nothing(choices: Iterable[Choice]) -> Group:
    """These choices, none overlapping those before it, and in all other states nothing."""
    apart: list[Choice] = []
    rest: States | None = None
    for one in choices:
        states = one.states if rest is None else one.states & rest
        rest = ~one.states if rest is None else rest - one.states
        apart.append(one._replace(states=states.tight()))
    return tuple(apart) if rest is None else (*apart, Choice(0.0, rest.tight()))


class WorstCases:
    """Finds the most of some groups; what was found of the same choices before is kept."""

    def __init__(self) -> None:
        self._given: dict[tuple[States, int, int], States] = {}
        self._known: dict[tuple[Group, ...], _Pair] = {}
        self._rounds = 0

    def find(self, groups: Iterable[Group], within: States) -> Worst:
        """The most of one choice a group, in some of the states `within`. TooManyRounds past MOST_ROUNDS."""
        self._rounds = 0
        usual, more = self._best(((Choice(0.0, within),), *groups))
        return Worst(usual and Most(usual.amount, within, usual.sets), more and Most(more.amount, within, more.sets))

    def _best(self, groups: tuple[Group, ...]) -> _Pair:
        possible = [tuple(choice for choice in group if choice.states) for group in groups]
        if not all(possible):
            return None, None
        usual, more = _Found(0.0, ()), None
        for part in _parts(possible):
            alone, one_more = self._of_part(tuple(part))
            if alone is None:
                return None, None
            both = [_together(more, alone)] if more else []
            both += [_together(usual, one_more)] if one_more else []
            usual, more = _together(usual, alone), max(both, key=lambda one: one.amount, default=None)
        return usual, more

    def _of_part(self, groups: tuple[Group, ...]) -> _Pair:
        """The same of groups that hang together."""
        if groups not in self._known:
            digits = {digit for group in groups for digit in _digits(group)}
            radices = groups[0][0].states.spaces.radices
            narrow = prod(radices[digit] for digit in digits) <= TOGETHER
            self._known[groups] = _by_levels(groups) if narrow else self._by_values(groups)
        return self._known[groups]

    def _by_values(self, groups: tuple[Group, ...]) -> _Pair:
        """Each value of the digit that most of them share, in turn."""
        shared = Counter(digit for group in groups for digit in _digits(group))
        digit = max(shared, key=lambda one: (shared[one], -one))
        spaces = groups[0][0].states.spaces
        best: list[_Found | None] = [None, None]
        for value in range(spaces.radices[digit]):
            self._rounds += 1
            if self._rounds > MOST_ROUNDS:
                raise TooManyRounds
            given = tuple(
                tuple(one._replace(states=self._with(one.states, digit, value)) for one in group) for group in groups
            )
            for place, found in enumerate(self._best(given)):
                before = best[place]
                if found is not None and (before is None or found.amount > before.amount):
                    best[place] = _Found(found.amount, (*found.sets, spaces.where(digit, (value,))))
        return best[0], best[1]

    def _with(self, states: States, digit: int, value: int) -> States:
        if digit not in states.space.digits:
            return states
        key = (states, digit, value)
        if key not in self._given:
            self._given[key] = states.given(digit, value).tight()
        return self._given[key]


class CasesTogether:
    """Cases from `Currents.of_all`: what hangs together in several of them is in one at a time."""

    def __init__(self, cases: Iterable[CurrentCase]) -> None:
        self._by_load: dict[int, list[CurrentCase]] = {}
        for case in cases:
            self._by_load.setdefault(case.network.carrying[0], []).append(case)
        self._groups = [or_nothing(Choice(0.0, case.states) for case in load) for load in self._by_load.values()]
        self._worst_cases = WorstCases()

    def no_more_than(self, share: Share) -> float:
        """A bound for `most` at hardly any cost."""
        return sum(max(0.0, *map(share, cases)) for cases in self._by_load.values())

    def most(self, share: Share, within: States) -> Most:
        """The most that the shares of the cases add up to in some of the states; a bound where they hang together too
        closely."""
        groups = []
        for cases, group in zip(self._by_load.values(), self._groups, strict=True):
            amounts = [*map(share, cases), 0.0]
            if any(amounts):
                groups.append(tuple(one._replace(amount=amount) for one, amount in zip(group, amounts, strict=True)))
        try:
            return self._worst_cases.find(groups, within).usual or Most(0.0, within, ())
        except TooManyRounds:
            return Most(self.no_more_than(share), within, ())


def _together(one: _Found, other: _Found) -> _Found:
    return _Found(one.amount + other.amount, (*one.sets, *other.sets))


def _by_levels(groups: Iterable[Group]) -> _Pair:
    """What the groups add up to so far, with the states in which it is that: no state is in two of these levels."""
    every = next(iter(groups))[0].states.spaces.all()
    usual, more = [(0.0, every)], list[tuple[float, States]]()
    for group in groups:
        longer, held = [], []
        for choice in group:
            amount = choice.amount
            longer += [(so_far + amount, states & choice.states) for so_far, states in usual]
            held += [(so_far + amount, states & choice.states) for so_far, states in more]
            if choice.extra:
                held += [(so_far + amount + choice.extra, states & choice.states) for so_far, states in usual]
        usual, more = _highest(longer), _highest(held)
    return _first(usual), _first(more)


def _highest(levels: list[tuple[float, States]]) -> list[tuple[float, States]]:
    """Of what a state has several of, only the most can become the most of all."""
    apart: list[tuple[float, States]] = []
    covered: States | None = None
    for amount, states in sorted((one for one in levels if one[1]), key=lambda one: -one[0]):
        left = states if covered is None else states - covered
        covered = states if covered is None else covered | states
        if left and apart and apart[-1][0] == amount:
            apart[-1] = (amount, apart[-1][1] | left)
        elif left:
            apart.append((amount, left))
    return apart


def _first(levels: list[tuple[float, States]]) -> _Found | None:
    return _Found(levels[0][0], (levels[0][1].tight(),)) if levels else None


def _digits(group: Group) -> set[int]:
    return {digit for choice in group for digit in choice.states.space.digits}


def _parts(groups: list[Group]) -> Iterator[list[Group]]:
    """The groups, parted where they share no digit."""
    left = [(group, _digits(group)) for group in groups]
    while left:
        group, digits = left.pop(0)
        part, grown = [group], True
        while grown:
            beside = [one for one in left if one[1] & digits]
            left = [one for one in left if not one[1] & digits]
            part += [other for other, _ in beside]
            digits = digits.union(*(more for _, more in beside))
            grown = bool(beside)
        yield part
