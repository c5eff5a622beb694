"""Where relays come to rest when nothing else moves.

Mostly a state in which no relay wants to move. But relays that break their own coils go on for ever; then the rest is a
group of states with no way out, through which they go round, and controls may move in any of them.

Such groups are looked for only among the states from which no standstill can be reached. For each position v of the
relays, at all settings of the other digits at once: v is in a group where everything that follows v leads back to v,
and that is the group. From a v that is in none one goes on to what follows it and doesn't lead back.
"""

from collections.abc import Callable, Collection, Iterable, Iterator
from typing import NamedTuple

from circuitcheck.analysis.rounds import joined
from circuitcheck.analysis.states import Space


class Step(NamedTuple):
    """`digit` goes from value `start` to `end`, in the states `allowed` (bits over one space, all at `start`).

    clock: how far the step leads besides, counted in states; only where relays' times are told apart (see clocks.py).
    """

    digit: int
    start: int
    end: int
    allowed: int
    clock: int = 0


def resting_states(space: Space, steps: list[Step], stopped: int) -> int:
    """The states at rest under the relays' steps: none is allowed, or the state is in a group that they never leave.

    stopped: states that are not followed further (shorted); they count as a standstill.
    """
    standing = space.full
    for step in steps:
        standing &= ~step.allowed
    standing |= stopped
    endless = space.full ^ leading_to(space, steps, standing)
    return standing | (_groups(space, steps, endless) if endless else 0)


def following(space: Space, steps: list[Step], states: int) -> int:
    """The states that some steps lead to from `states`, those included.

    Each step goes on at once from what the steps before it have found, so that few passes over all of them do: about a
    quarter of the rounds that it takes when every step begins with the same states.
    """
    block = _block(space, steps)
    reached = _apart(states, space.size // block, block)
    parts = [(part, part.here, part.there) for part in _by_clock(space, steps)]
    return _one_after_another(_closed(space, reached, parts, _onward), block)


def leading_to(space: Space, steps: list[Step], states: int, asked: int | None = None) -> int:
    """The states from which some steps lead into `states`, those included. asked: once these are all among them, no
    others are looked for."""
    block = _block(space, steps)
    reached = _apart(states, space.size // block, block)
    parts = [(part, part.there, part.here) for part in reversed(_by_clock(space, steps))]
    enough = None if asked is None else _apart(asked, space.size // block, block)
    return _one_after_another(_closed(space, reached, parts, _backward, enough), block)


def not_leading_to(space: Space, steps: list[Step], origins: int, goal: int, close: Collection[int]) -> int:
    """Those of the origins from which no steps lead into `goal`. close: digits whose steps are mostly enough to get
    there, so that what all others do is looked at only for the origins that are left."""
    left = origins & ~leading_to(space, [step for step in steps if step.digit in close], goal, origins)
    return left & ~leading_to(space, steps, goal, left) if left else left


def rounds_from(space: Space, steps: list[Step], states: int) -> Iterator[int]:
    """The states first reached after 0, 1, 2 … steps."""
    block = _block(space, steps)
    frontier = _apart(states, space.size // block, block)
    arriving: list[list[_Part]] = [[] for _ in frontier]
    for part in _by_clock(space, steps):
        arriving[part.there].append(part)
    reached = list(frontier)
    while any(frontier):
        yield _one_after_another(frontier, block)
        found = [joined(_onward(space, part, frontier[part.here]) for part in each) for each in arriving]
        frontier = [new & ~old for new, old in zip(found, reached, strict=True)]
        reached = [new | old for new, old in zip(found, reached, strict=True)]


class _Part(NamedTuple):
    """A step of a digit at one reading of the clock: `here` it begins, in the states `allowed`; `there` it ends, so far
    away. arriving: the states with the digit where the step ends; over diagrams only, which are not shifted."""

    here: int
    allowed: int
    shift: int
    there: int
    digit: int
    arriving: int


def _onward(space: Space, part: _Part, states: int) -> int:
    if space.has_diagrams:
        return space.anyhow_in_both(states, part.allowed, part.digit) & part.arriving
    going = states & part.allowed
    return going << part.shift if part.shift >= 0 else going >> -part.shift


def _backward(space: Space, part: _Part, states: int) -> int:
    if space.has_diagrams:
        return space.anyhow_in_both(states, part.arriving, part.digit) & part.allowed
    return (states >> part.shift if part.shift >= 0 else states << -part.shift) & part.allowed


def _closed(
    space: Space,
    reached: list[int],
    parts: list[tuple[_Part, int, int]],
    step: Callable[[Space, _Part, int], int],
    enough: list[int] | None = None,
) -> list[int]:
    """`reached`, with all that parts add to it, or as soon as there is `enough`. parts: each with the reading that it
    is asked at and the one it adds to; one is asked again only once its reading has got new states."""
    news, asked = [1] * len(reached), [0] * len(parts)
    growing = True
    while growing and (enough is None or any(one & ~found for one, found in zip(enough, reached, strict=True))):
        growing = False
        for number, (part, here, there) in enumerate(parts):
            if asked[number] == news[here]:
                continue
            asked[number] = news[here]
            arrived = step(space, part, reached[here])
            if arrived and (grown := reached[there] | arrived) != reached[there]:
                reached[there] = grown
                news[there] += 1
                growing = True
    return reached


def _block(space: Space, steps: list[Step]) -> int:
    """How many states there are at one reading of the clock; all of them where no step moves it."""
    return space.strides[-1] if any(step.clock for step in steps) else space.size


def _by_clock(space: Space, steps: list[Step]) -> list[_Part]:
    """Steps begin at one reading each, so that each needs looking at the states of that reading alone."""
    block = _block(space, steps)
    parts = []
    for step in steps:
        if step.allowed:
            here = (step.allowed.bit_length() - 1) // block if block < space.size else 0
            shift = (step.end - step.start) * space.strides[space.index(step.digit)]
            # Shifting by nothing would copy the set.
            allowed = step.allowed >> here * block if here else step.allowed
            arriving = space.where(step.digit, (step.end,)) if space.has_diagrams else 0
            parts.append(_Part(here, allowed, shift, here + step.clock // block, step.digit, arriving))
    return parts


def _apart(states: int, count: int, block: int) -> list[int]:
    if count == 1:
        return [states]
    within = (1 << block) - 1
    return [states >> here * block & within for here in range(count)]


def _one_after_another(blocks: list[int], block: int) -> int:
    if len(blocks) == 1:
        return blocks[0]
    result = 0
    for here, states in enumerate(blocks):
        if states:
            result |= states << here * block
    return result


def stepped(space: Space, states: int, step: Step) -> int:
    """The states after the step, from those of `states` that allow it."""
    going = states & step.allowed
    shift = _shift(space, step)
    return going << shift if shift >= 0 else going >> -shift


def _shift(space: Space, step: Step) -> int:
    return (step.end - step.start) * space.strides[space.index(step.digit)] + step.clock


def _groups(space: Space, steps: list[Step], endless: int) -> int:
    digits = {step.digit for step in steps if step.allowed & endless}
    if any(step.clock for step in steps):
        digits.add(space.digits[-1])
    within = [step._replace(allowed=step.allowed & endless) for step in steps]
    found, left, deeper = 0, endless, 0
    while left:
        here = at_position_of_lowest(space, deeper or left, digits, left)
        after, before = following(space, within, here), leading_to(space, within, here)
        lost = after & ~before
        for digit in digits:
            lost = space.anyhow(lost, digit)
        found |= after & ~lost
        # Whatever leads here is in the same group or in none, so it need not be asked for itself.
        left &= ~before
        deeper = after & left
    return found


def at_position_of_lowest(space: Space, left: int, digits: Iterable[int], states: int) -> int:
    """Those of `states` whose `digits` stand as they do in the lowest state of `left`."""
    values = space.values((left & -left).bit_length() - 1)
    for digit in digits:
        states &= space.where(digit, (values[digit],))
    return states
