"""The fewest readings that together show every fault: a minimum set cover.

Readings that show no more than another, and faults that every reading of another fault shows too, are left out, again
and again; what remains goes to a solver for least sets of broken wishes (RC2: Ignatiev, Morgado and Marques-Silva,
JSAT 11, 2019, in python-sat), with the wish for each reading that it not be taken. Where its time runs out the answer
is that of a greedy choice, and it is said by how much it may be too long.
"""

from collections.abc import Iterable, Sequence
from threading import Timer
from typing import Final, NamedTuple

import numpy as np

MOST_SECONDS: Final = 30.0


class Cover(NamedTuple):
    """chosen: the sets' numbers, ascending. at_least: no cover has fewer; equal to their count where that is proved."""

    chosen: tuple[int, ...]
    at_least: int

    @property
    def shortest(self) -> bool:
        """Is it proved that there is no shorter one?"""
        return len(self.chosen) == self.at_least


def least_cover(sets: Sequence[int]) -> Cover:
    """A least cover of all that the sets (each an integer, a bit for each member) have. Of equal ones earlier ones."""
    rows = _reduced(sets)
    if not rows:
        return Cover((), 0)
    best = _greedy(rows)
    apart = _apart(rows)
    if len(best) == apart:
        return Cover(tuple(sorted(best)), apart)
    best, at_least = _shortened(rows, best, apart)
    return Cover(tuple(sorted(best)), at_least)


def _reduced(sets: Sequence[int]) -> list[frozenset[int]]:
    """For each member that has a say the sets that it is in, as far as these have a say; reduced until nothing goes."""
    members = list(range(max((one.bit_length() for one in sets), default=0)))
    columns, rows = list(range(len(sets))), list[frozenset[int]]()
    while True:
        kept = sum(1 << member for member in members)
        columns = _undominated([one & kept for one in sets], columns)
        hardest = _hardest(sets, columns, members)
        if len(hardest) == len(members) and rows == list(hardest.values()):
            return rows
        members, rows = list(hardest), list(hardest.values())


def _undominated(sets: Sequence[int], columns: Iterable[int]) -> list[int]:
    """The numbers of those that are in no other; of equal ones the first."""
    left = np.array(sorted(columns, key=lambda number: (-sets[number].bit_count(), number)), np.intp)
    words = max((one.bit_length() for one in sets), default=0) // 64 + 1
    bits = np.array([_in_words(sets[number], words) for number in left], np.uint64).reshape(len(left), words)
    some = bits.any(axis=1)
    left, bits = left[some], bits[some]
    kept: list[int] = []
    while len(left):
        kept.append(int(left[0]))
        beyond = (bits & ~bits[0]).any(axis=1)
        left, bits = left[beyond], bits[beyond]
    return sorted(kept)


def _in_words(one: int, words: int) -> list[int]:
    """An integer, 64 bits at a time."""
    return [one >> 64 * place & 0xFFFF_FFFF_FFFF_FFFF for place in range(words)]


def _hardest(sets: Sequence[int], columns: Sequence[int], members: Iterable[int]) -> dict[int, frozenset[int]]:
    """By member the sets that it is in; only the least of these: what meets them meets the others as well."""
    rows = {member: frozenset(number for number in columns if sets[number] >> member & 1) for member in members}
    kept: dict[int, frozenset[int]] = {}
    for member, row in sorted(rows.items(), key=lambda one: (len(one[1]), sorted(one[1]))):
        if row and not any(other <= row for other in kept.values()):
            kept[member] = row
    return kept


def _greedy(rows: Sequence[frozenset[int]]) -> list[int]:
    """The set that meets most rows, again and again; then what turned out to be needless is taken back."""
    left, chosen = list(rows), list[int]()
    while left:
        counts: dict[int, int] = {}
        for row in left:
            for number in row:
                counts[number] = counts.get(number, 0) + 1
        best = min(counts, key=lambda number: (-counts[number], number))
        chosen.append(best)
        left = [row for row in left if best not in row]
    for number in list(chosen):
        others = set(chosen) - {number}
        if all(row & others for row in rows):
            chosen.remove(number)
    return chosen


def _apart(rows: Sequence[frozenset[int]]) -> int:
    """So many rows that share no set: each needs one of its own."""
    met: set[int] = set()
    count = 0
    for row in sorted(rows, key=lambda row: (sum(1 for other in rows if row & other), sorted(row))):
        if not row & met:
            met |= row
            count += 1
    return count


def _shortened(rows: Sequence[frozenset[int]], best: list[int], at_least: int) -> tuple[list[int], int]:
    """The least cover, or where time runs out the best known; and how many any cover has at least."""
    from pysat.examples.rc2 import RC2  # type: ignore[import-untyped]
    from pysat.formula import WCNF  # type: ignore[import-untyped]

    numbers = sorted(frozenset[int]().union(*rows))
    literal = {number: place for place, number in enumerate(numbers, 1)}
    asked = WCNF()
    for row in rows:
        asked.append(sorted(literal[number] for number in row))
    for one in literal.values():
        asked.append([-one], weight=1)
    with RC2(asked, solver="g4", adapt=True, exhaust=True, minz=True) as solver:
        bell = Timer(MOST_SECONDS, solver.interrupt)
        bell.start()
        model = solver.compute(expect_interrupt=True)
        bell.cancel()
        if model is None:
            return best, max(at_least, solver.cost)
        chosen = set(model)
        return [number for number in numbers if literal[number] in chosen], solver.cost
