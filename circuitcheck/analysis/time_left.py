"""How long relays that wait to move may still take: a set of constraints on the times left, and how it changes.

Relays that wait each have a time left. What is known of them is a square of bounds: `known[i][j]` is the most by which
the i-th time left can exceed the j-th, where the 0th stands for no time at all. So `known[i][0]` is the longest that
the i-th may still take and `-known[0][i]` the shortest. All bounds are as tight as the others allow.

Source: state classes of time Petri nets (Berthomieu and Diaz, "Modeling and Verification of Time Dependent Systems
Using Time Petri Nets", IEEE Transactions on Software Engineering 17, 1991; from memory).

The same relays meet in state after state, so what follows from what is kept.
"""

from collections.abc import Sequence
from functools import lru_cache
from math import inf
from typing import Final

Range = tuple[float, float]
"""The least and the greatest time that a move takes once it is wanted, in whole nanoseconds; inf for no limit."""
Known = tuple[tuple[float, ...], ...]

ANY_TIME: Range = (0, inf)

KEPT: Final = 10_000
"""Answers that are kept of each question, some 1 kB each."""


def just_begun(ranges: Sequence[Range]) -> Known:
    """What is known where all begin to wait at once."""
    return extended(((0,),), tuple(ranges))


@lru_cache(KEPT)
def extended(known: Known, ranges: tuple[Range, ...]) -> Known:
    """More relays begin to wait; theirs come last."""
    longest = [row[0] for row in known] + [most for _, most in ranges]
    shortest = [*known[0]] + [-least for least, _ in ranges]
    old, size = len(known), len(longest)
    return tuple(
        tuple(0 if i == j else known[i][j] if i < old and j < old else longest[i] + shortest[j] for j in range(size))
        for i in range(size)
    )


@lru_cache(KEPT)
def of_these(known: Known, kept: tuple[int, ...]) -> Known:
    """What is known of some of them; the others stop waiting."""
    places = (0, *kept)
    return tuple(tuple(known[i][j] for j in places) for i in places)


@lru_cache(KEPT)
def once_first_moves(known: Known, first: int) -> Known | None:
    """What is left at the moment when the relay at place `first` moves before all others; None where it never does.

    The moved relay's own time has become no time: its row takes the place of the 0th and the last one goes.
    """
    others = [place for place in range(1, len(known)) if place != first]
    bounds = [list(row) for row in known]
    for place in others:
        bounds[first][place] = min(bounds[first][place], 0)
    tight = _tight(bounds)
    if tight is None:
        return None
    places = (first, *others)
    return tuple(tuple(tight[i][j] for j in places) for i in places)


@lru_cache(KEPT)
def some_time_later(known: Known) -> Known:
    """What is left after any while during which none of them moves."""
    bounds = [list(row) for row in known]
    bounds[0] = [0] * len(bounds)
    tight = _tight(bounds)
    assert tight is not None, "no while at all is always possible"
    return tight


def _tight(bounds: list[list[float]]) -> Known | None:
    """The same bounds, each as tight as the others allow; None where they contradict each other."""
    size = range(len(bounds))
    for middle in size:
        for row in bounds:
            reach = row[middle]
            for place in size:
                if row[place] > reach + bounds[middle][place]:
                    row[place] = reach + bounds[middle][place]
    if any(bounds[place][place] < 0 for place in size):
        return None
    return tuple(tuple(row) for row in bounds)
