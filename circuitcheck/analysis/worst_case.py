"""The most that several things add up to in one state, exactly, however many digits they have together.

Each thing is in one of some cases, each with an amount and the states in which it holds. Things whose cases share no
digit are independent: their most add up. Where they share digits, the digit that most of them share is given each of
its values in turn, after which they fall apart again: an emergency stop before thirty motors costs two rounds.
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


Choice = tuple[float, States]
Group = list[Choice]
"""Exactly one of these holds."""

Best = tuple[float, tuple[States, ...]]
"""An amount, and sets of states that hold together where it is reached."""


def no_more_than(cases: Iterable[CurrentCase], share: Callable[[CurrentCase], float]) -> float:
    """A bound for `most_together` at hardly any cost: what hangs together in several cases is in one of them."""
    most: dict[int, float] = {}
    for case in cases:
        of = min(case.volts)
        most[of] = max(most.get(of, 0.0), share(case))
    return sum(most.values())


def most_together(cases: Iterable[CurrentCase], share: Callable[[CurrentCase], float], within: States) -> Most:
    """The most that the shares of cases from `Currents.of_all` add up to in some of the states."""
    groups: dict[int, Group] = {}
    for case in cases:
        groups.setdefault(min(case.volts), []).append((share(case), case.states))
    for group in groups.values():
        rest = ~group[0][1]
        for _, states in group[1:]:
            rest = rest - states
        group.append((0.0, rest.tight()))
    best = _best([[(0.0, within)], *groups.values()])
    return Most(0.0, within, ()) if best is None else Most(best[0], within, best[1])


def _best(groups: list[Group]) -> Best | None:
    """The best choice of one case a group that some state allows; None where no state allows any."""
    possible = [[choice for choice in group if choice[1]] for group in groups]
    if not all(possible):
        return None
    amount = 0.0
    sets: tuple[States, ...] = ()
    for part in _parts(possible):
        best = max(part[0], key=lambda choice: choice[0]) if len(part) == 1 else None
        found = (best[0], (best[1],)) if best else _by_values(part)
        if found is None:
            return None
        amount, sets = amount + found[0], (*sets, *found[1])
    return amount, sets


def _by_values(groups: list[Group]) -> Best | None:
    """The same for groups that hang together: each value of the digit that most of them share, in turn."""
    shared = Counter(digit for group in groups for digit in _digits(group))
    digit = max(shared, key=lambda one: (shared[one], -one))
    spaces = groups[0][0][1].spaces
    best: Best | None = None
    for value in range(spaces.radices[digit]):
        given = [[(amount, states.given(digit, value).tight()) for amount, states in group] for group in groups]
        found = _best(given)
        if found is not None and (best is None or found[0] > best[0]):
            best = found[0], (*found[1], spaces.where(digit, (value,)))
    return best


def _digits(group: Group) -> set[int]:
    return {digit for _, states in group for digit in states.space.digits}


def _parts(groups: list[Group]) -> Iterator[list[Group]]:
    """The groups, parted where they share no digit."""
    left = [(group, _digits(group)) for group in groups]
    while left:
        group, digits = left.pop()
        part, grown = [group], True
        while grown:
            beside = [one for one in left if one[1] & digits]
            left = [one for one in left if not one[1] & digits]
            part += [other for other, _ in beside]
            digits = digits.union(*(more for _, more in beside))
            grown = bool(beside)
        yield part
