"""Which of some branches can carry current from one net to another.

A branch counts where current can pass it on a way without repetition: neither past a diode the wrong way, nor over
contacts that are never closed together. The last is asked of all states at once, while they are few enough; where they
aren't, a branch too many is drawn, which says nothing wrong.
"""

from collections.abc import Iterable
from functools import reduce
from math import prod
from operator import and_
from typing import Final, NamedTuple

from circuitcheck.analysis.chains import Branch, between
from circuitcheck.analysis.network import Net
from circuitcheck.analysis.states import Spaces, States, union
from circuitcheck.circuit.model import Circuit

MOST_COMBINATIONS: Final = 1 << 14
MOST_TOGETHER: Final = 1 << 20
"""Combinations up to which contacts that exclude each other are looked for: in one network, in several in turn."""


class Between(NamedTuple):
    """The conductors from one net to another, each a branch by its index. leads: when they conduct in that direction;
    None where that depends on too much."""

    start: Net
    end: Net
    branches: tuple[Branch, ...]
    leads: States | None


class Pruner:
    """Prunes networks of one circuit."""

    def __init__(self, circuit: Circuit, spaces: Spaces) -> None:
        self._circuit = circuit
        self._spaces = spaces

    def pruned(self, branches: Iterable[Branch], start: Net, end: Net, within: States | None = None) -> Between | None:
        """Those of the branches that can carry current from start to end; None where none lead there.

        within: only what conducts in these states counts; None for all.
        """
        count, kept = -1, tuple(branches)
        while len(kept) != count:
            count = len(kept)
            found = between(self._agreeing(kept, start, end), start, end)
            if found is None:
                return None
            kept = self._passable(found, start, end, within)
        leads = self._leads(kept, start, end)
        return Between(start, end, tuple(sorted(kept)), leads)

    def _closed(self, branch: Branch) -> States:
        closed = self._circuit.conductors[branch.number].closed
        return self._spaces.where(closed.digit, closed.values) if closed else self._spaces.all()

    def _passable(
        self, branches: tuple[Branch, ...], start: Net, end: Net, within: States | None
    ) -> tuple[Branch, ...]:
        onward = _onward(branches)
        kept = [one for one in branches if not one.one_way or _fits(onward, one, start, end)]
        if len(kept) < len(branches) or self._is_wide(kept, within):
            return tuple(kept)
        come, gone = self._reach(kept, start, within), self._reach([_turned(one) for one in kept], end)
        none = self._spaces.none()

        def carries(one: Branch) -> bool:
            closed = self._closed(one)
            ahead = come.get(one.tail, none) & closed & gone.get(one.head, none)
            return bool(ahead or (not one.one_way and come.get(one.head, none) & closed & gone.get(one.tail, none)))

        return tuple(one for one in kept if carries(one))

    def _agreeing(self, branches: tuple[Branch, ...], start: Net, end: Net) -> tuple[Branch, ...]:
        """Without contacts that agree with none that current could go on to: past 12 it can't go on to 14."""
        at: dict[Net, set[int]] = {}
        kept = {one.number: one for one in branches}
        for one in branches:
            for net in (one.tail, one.head):
                at.setdefault(net, set()).add(one.number)
        waiting = list(at)
        while waiting:
            net = waiting.pop()
            if net in (start, end):
                continue
            for number in sorted(at[net]):
                if all(other == number or self._exclude(number, other) for other in at[net]):
                    gone = kept.pop(number)
                    for near in (gone.tail, gone.head):
                        at[near].discard(number)
                        waiting.append(near)
        return tuple(kept.values())

    def _exclude(self, one: int, other: int) -> bool:
        """Are these two contacts of one part never closed together?"""
        conductors = self._circuit.conductors
        first, second = conductors[one].closed, conductors[other].closed
        return bool(first and second and first.digit == second.digit and not first.values & second.values)

    def _leads(self, branches: tuple[Branch, ...], start: Net, end: Net) -> States | None:
        if self._is_wide(branches):
            return None
        return self._reach(branches, start).get(end, self._spaces.none()).tight()

    def _is_wide(self, branches: Iterable[Branch], within: States | None = None) -> bool:
        closings = (self._circuit.conductors[one.number].closed for one in branches)
        digits = {closed.digit for closed in closings if closed} | {*(within.space.digits if within else ())}
        return prod(self._spaces.radices[digit] for digit in digits) > MOST_COMBINATIONS

    def _reach(self, branches: Iterable[Branch], start: Net, within: States | None = None) -> dict[Net, States]:
        """In which states, of those within, each net is reached from the start."""
        onward: dict[Net, list[tuple[Net, States]]] = {}
        for one in branches:
            onward.setdefault(one.tail, []).append((one.head, self._closed(one)))
            if not one.one_way:
                onward.setdefault(one.head, []).append((one.tail, self._closed(one)))
        none = self._spaces.none()
        reached = {start: self._spaces.all() if within is None else within}
        waiting = [start]
        while waiting:
            here = waiting.pop()
            for there, closed in onward.get(here, ()):
                before = reached.get(there, none)
                after = union((before, reached[here] & closed), none)
                if not after.same_as(before):
                    reached[there] = after
                    waiting.append(there)
        return reached


def together(*found: Between) -> bool:
    """May these networks conduct all at once?"""
    known = [one.leads for one in found if one.leads is not None]
    if not known or not all(known):
        return not known
    radices = known[0].spaces.radices
    digits = {digit for states in known for digit in states.space.digits}
    if prod(radices[digit] for digit in digits) > MOST_TOGETHER:
        return True
    return bool(reduce(and_, known))


def _turned(branch: Branch) -> Branch:
    return branch._replace(tail=branch.head, head=branch.tail)


Onward = dict[Net, list[Net]]
"""Where current can go at once from each net."""


def _onward(branches: Iterable[Branch]) -> Onward:
    onward: Onward = {}
    for one in branches:
        onward.setdefault(one.tail, []).append(one.head)
        if not one.one_way:
            onward.setdefault(one.head, []).append(one.tail)
    return onward


def _fits(onward: Onward, one: Branch, start: Net, end: Net) -> bool:
    """Can current come to its tail and go on from its head, neither over the other?"""
    return _connected(onward, start, one.tail, one.head) and _connected(onward, one.head, end, one.tail)


def _connected(onward: Onward, start: Net, end: Net, without: Net) -> bool:
    seen, waiting = {start, without}, [start] if start != without else []
    while waiting:
        here = waiting.pop()
        if here == end:
            return True
        for there in onward.get(here, ()):
            if there not in seen:
                seen.add(there)
                waiting.append(there)
    return False
