"""One state of a circuit, looked at by itself: which way current takes, and how one got there.

The sets say in which states something holds; a person wants to see one of them.
"""

from collections import deque
from collections.abc import Iterable
from itertools import pairwise
from typing import NamedTuple

from circuitcheck.analysis.behaviour import Behaviour
from circuitcheck.circuit.model import Circuit, Conductor, Terminal

State = dict[int, int]
"""A value for each digit of the circuit."""


class Change(NamedTuple):
    """Digit number `digit` went from `start` to `end`; `state` is what holds afterwards."""

    digit: int
    start: int
    end: int
    state: State


class Story(NamedTuple):
    """From power-up: the state it begins in, and a shortest chain of changes."""

    beginning: State
    changes: tuple[Change, ...]

    def beside(self, still: State) -> "Story":
        """The same with digits that stand still all along."""
        return self._replace(beginning=still | self.beginning)


def conducts(conductor: Conductor, state: State) -> bool:
    """Is this conductor closed in the state?"""
    return conductor.closed is None or state[conductor.closed.digit] in conductor.closed.values


def current_path(
    circuit: Circuit, state: State, start: Terminal, end: Terminal, through_loads: Iterable[int] = ()
) -> tuple[Terminal, ...]:
    """A shortest way for current from `start` to `end` over conductors closed in this state, terminal by terminal.

    through_loads: loads that it may pass as well. Empty where there is no way. Ties go to the plan's order.
    """
    onward: dict[Terminal, list[Terminal]] = {}
    for conductor in circuit.conductors:
        if conducts(conductor, state):
            onward.setdefault(conductor.tail, []).append(conductor.head)
            if not conductor.one_way:
                onward.setdefault(conductor.head, []).append(conductor.tail)
    for number in through_loads:
        load = circuit.loads[number]
        onward.setdefault(load.a, []).append(load.b)
        onward.setdefault(load.b, []).append(load.a)
    came_from: dict[Terminal, Terminal] = {start: start}
    waiting = deque([start])
    while waiting and end not in came_from:
        here = waiting.popleft()
        for there in onward.get(here, ()):
            if there not in came_from:
                came_from[there] = here
                waiting.append(there)
    if end not in came_from:
        return ()
    path = [end]
    while path[-1] != start:
        path.append(came_from[path[-1]])
    return tuple(reversed(path))


def contacts_on(circuit: Circuit, state: State, path: Iterable[Terminal]) -> set[int]:
    """The digits whose contacts a path from `current_path` goes over; where a wire runs beside, the wire counts."""
    steps = list(pairwise(path))
    if not steps:
        return set()
    taken = {*steps, *(ends[::-1] for ends in steps)}
    closing: dict[tuple[Terminal, Terminal], int | None] = {}
    for conductor in circuit.conductors:
        if (conductor.tail, conductor.head) in taken and conducts(conductor, state):
            digit = conductor.closed.digit if conductor.closed else None
            for ends in ((conductor.tail, conductor.head), (conductor.head, conductor.tail)):
                closing[ends] = digit if closing.get(ends, digit) is not None else None
    digits = (closing.get(ends) for ends in steps)
    return {digit for digit in digits if digit is not None}


def first_reached(behaviour: Behaviour, states: int) -> tuple[int, int]:
    """The state of the set (bits over the behaviour's space) that takes the fewest steps, and how many.

    LookupError where none of them is reached. Of several the one with the lowest number, which stands nearest to rest.
    """
    for steps, reached in enumerate(behaviour.rounds):
        met = reached & states
        if met:
            return (met & -met).bit_length() - 1, steps
    raise LookupError("none of these states is reached")


def story_to(behaviour: Behaviour, state: int, rounds: int) -> Story:
    """How a state that is first reached after `rounds` steps comes about."""
    course = behaviour.course
    wide = state
    while not course.rounds[rounds] >> wide & 1:
        wide += behaviour.space.size
    return story_through(behaviour, wide, rounds)


def story_through(behaviour: Behaviour, state: int, rounds: int) -> Story:
    """The same for a state of the behaviour's course, which may tell how long relays have been waiting."""
    space = behaviour.space
    changes = []
    for number in range(rounds, 0, -1):
        origin, step = behaviour.course.predecessor(state, number)
        changes.append(Change(step.digit, step.start, step.end, space.values(state % space.size)))
        state = origin
    return Story(space.values(state % space.size), tuple(reversed(changes)))
