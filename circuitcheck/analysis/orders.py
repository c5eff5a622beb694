"""One state from which the order of relays' moves matters, gone through move by move."""

from collections import deque
from collections.abc import Callable, Iterator
from typing import NamedTuple

from circuitcheck.analysis.behaviour import Behaviour
from circuitcheck.analysis.resting import Step
from circuitcheck.analysis.settling import Unsettled
from circuitcheck.analysis.single_state import Change, Story, story_through

Move = tuple[Step, int]
"""A relay's step, and the state after it."""


class Order(NamedTuple):
    """What follows if the relay with digit `first` is quicker (-1 where it makes no difference who is): the changes up
    to the end, and the word for what is told of then; for what never ends, the changes of one round come after."""

    first: int
    changes: tuple[Change, ...]
    word: str
    round: tuple[Change, ...] = ()


def first_start(found: Unsettled) -> tuple[int, Story]:
    """The start that takes the fewest steps from power-up, as a state of the course, and the story so far."""
    course = found.behaviour.course
    for number, reached in enumerate(course.rounds):
        met = reached & found.starts
        if met:
            state = (met & -met).bit_length() - 1
            return state, story_through(found.behaviour, state, number)
    raise LookupError("no start is reached")


def two_orders(found: Unsettled, start: int) -> tuple[Order, Order]:
    """Two orders that end differently, told apart at the last moment at which either may follow; where relays may go
    round before it is decided there is no such moment, and they are told apart where they part."""
    parting = _parting(found, start)
    if parting is None:
        one, other = (
            _shortest(found.behaviour, start, _is_end(found, word)) for word in sorted(_ends(found, start))[:2]
        )
    else:
        begun, *moves = parting
        one, other = ([*begun, move, *_shortest(found.behaviour, move[1], _is_end(found))] for move in moves)
    apart = next(place for place, pair in enumerate(zip(one, other, strict=False)) if pair[0] != pair[1])
    return _order(found, one, apart), _order(found, other, apart)


def going_round(found: Unsettled, start: int) -> Order:
    """How relays come into a group that they never leave, and once round in it."""
    behaviour = found.behaviour
    before = _shortest(behaviour, start, _is_end(found))
    here = before[-1][1] if before else start
    first = min(_moves(behaviour, here), key=lambda move: len(_shortest(behaviour, move[1], here.__eq__)))
    again = [first, *_shortest(behaviour, first[1], here.__eq__)]
    return Order(-1, _changes(behaviour, before), "", _changes(behaviour, again))


def _parting(found: Unsettled, start: int) -> tuple[list[Move], Move, Move] | None:
    """The moves up to where two relays want to move and the end hangs on which one does, and those two moves."""

    def parts(state: int) -> tuple[Move, Move] | None:
        decided = [(move, words) for move in _moves(found.behaviour, state) if len(words := _ends(found, move[1])) == 1]
        return next(((one, two) for one, words in decided for two, others in decided if words != others), None)

    try:
        begun = _shortest(found.behaviour, start, lambda state: parts(state) is not None, found.everywhere)
    except LookupError:
        return None
    pair = parts(begun[-1][1] if begun else start)
    return (begun, *pair) if pair else None


def _order(found: Unsettled, moves: list[Move], apart: int) -> Order:
    word = found.words[next(iter(_ends(found, moves[-1][1])))]
    return Order(moves[apart][0].digit, _changes(found.behaviour, moves), word)


def _is_end(found: Unsettled, word: int | None = None) -> Callable[[int], bool]:
    """Does it end in a state, with this word if one is given?"""
    ends = found.ends if word is None else found.ends & found.leading[word]
    return lambda state: bool(ends >> state & 1)


def _ends(found: Unsettled, state: int) -> frozenset[int]:
    """The words, by number, in which it may end from a state."""
    return frozenset(number for number, leading in enumerate(found.leading) if leading >> state & 1)


def _moves(behaviour: Behaviour, state: int) -> Iterator[Move]:
    space = behaviour.course.steps.space
    for step in behaviour.course.steps.quick:
        # Cheap to ask first: with a clock each step is allowed at one of its readings only.
        if state < step.allowed.bit_length() <= state + behaviour.space.size and step.allowed >> state & 1:
            yield step, state + (step.end - step.start) * space.strides[space.index(step.digit)] + step.clock


def _shortest(behaviour: Behaviour, start: int, wanted: Callable[[int], bool], within: int = -1) -> list[Move]:
    """The fewest moves from a state to one that is wanted, none if it is itself; LookupError where none leads there."""
    came_by: dict[int, list[Move]] = {start: []}
    waiting = deque([start])
    while waiting:
        here = waiting.popleft()
        if wanted(here):
            return came_by[here]
        for move in _moves(behaviour, here):
            if move[1] not in came_by and within >> move[1] & 1:
                came_by[move[1]] = [*came_by[here], move]
                waiting.append(move[1])
    raise LookupError("no moves lead there")


def _changes(behaviour: Behaviour, moves: list[Move]) -> tuple[Change, ...]:
    space = behaviour.space
    return tuple(Change(step.digit, step.start, step.end, space.values(state % space.size)) for step, state in moves)
