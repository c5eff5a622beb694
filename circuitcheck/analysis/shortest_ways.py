"""The ways that pass as few things as any: all of them together, so that it makes no difference which is found first.

What is passed counts, wires don't: a splice makes no way longer.
"""

from collections import deque
from collections.abc import Iterable, Sequence
from typing import Generic, NamedTuple, TypeVar

from circuitcheck.circuit.model import Terminal

Passed = TypeVar("Passed")


class Step(NamedTuple, Generic[Passed]):
    """Current passes from `start` into `end` through something, or over a wire: None."""

    start: Terminal
    end: Terminal
    through: Passed | None


class Ways(NamedTuple, Generic[Passed]):
    """way: one of the shortest, which begins at a start and ends at an end; empty where one is both. every: what is
    passed on any of the shortest, in the order of the steps."""

    way: tuple[Step[Passed], ...]
    every: tuple[Passed, ...]


def shortest_ways(
    steps: Sequence[Step[Passed]], starts: Sequence[Terminal], ends: Sequence[Terminal]
) -> Ways[Passed] | None:
    """From any of the starts to any of the ends; None where there is no way."""
    before = _passed_at_least(_starting(steps), starts)
    after = _passed_at_least(_starting(Step(one.end, one.start, one.through) for one in steps), ends)
    fewest = min((before[end] for end in ends if end in before), default=None)
    if fewest is None:
        return None
    kept = [
        one
        for one in steps
        if one.start in before and one.end in after and before[one.start] + _counts(one) + after[one.end] == fewest
    ]
    return Ways(_one_way(_starting(kept), starts, ends), tuple(one.through for one in kept if one.through is not None))


def _counts(step: Step[Passed]) -> int:
    return int(step.through is not None)


def _starting(steps: Iterable[Step[Passed]]) -> dict[Terminal, list[Step[Passed]]]:
    """By where they start."""
    onward: dict[Terminal, list[Step[Passed]]] = {}
    for step in steps:
        onward.setdefault(step.start, []).append(step)
    return onward


def _passed_at_least(onward: dict[Terminal, list[Step[Passed]]], starts: Sequence[Terminal]) -> dict[Terminal, int]:
    fewest = dict.fromkeys(starts, 0)
    waiting = deque(starts)
    while waiting:
        here = waiting.popleft()
        for step in onward.get(here, ()):
            passed = fewest[here] + _counts(step)
            if passed < fewest.get(step.end, passed + 1):
                fewest[step.end] = passed
                # What a wire reaches comes next, so that what is passed is counted in order.
                (waiting.append if _counts(step) else waiting.appendleft)(step.end)
    return fewest


def _one_way(
    onward: dict[Terminal, list[Step[Passed]]], starts: Sequence[Terminal], ends: Sequence[Terminal]
) -> tuple[Step[Passed], ...]:
    """Breadth first, which takes few wires too."""
    ways: deque[tuple[Terminal, tuple[Step[Passed], ...]]] = deque((start, ()) for start in starts)
    seen = set(starts)
    while ways[0][0] not in ends:
        here, way = ways.popleft()
        for step in onward.get(here, ()):
            if step.end not in seen:
                seen.add(step.end)
                ways.append((step.end, (*way, step)))
    return ways[0][1]
