"""The shortest story of a fault: sound operation, the fault, and what follows until it shows.

Rounds go through the sound box and through both boxes at once: round n holds what takes n steps in all, whether the
fault came after all of them, after some, or before the first.
"""

from collections.abc import Iterator
from typing import NamedTuple

from circuitcheck.analysis.behaviour import Behaviour
from circuitcheck.analysis.faults.beside import Beside, Joint
from circuitcheck.analysis.resting import Step, following, stepped
from circuitcheck.analysis.single_state import Change, State, Story, story_to


class FaultStory(NamedTuple):
    """before: of the sound box, up to the fault. after: what follows it; of the sound copies' relays nothing is told
    here. state: what holds at the end, of the faulty box."""

    before: Story
    after: tuple[Change, ...]
    state: State


def shortest_story(joint: Joint, states: int, begun: int = -1) -> FaultStory:
    """How one of these states comes about, with the fault in one of the states `begun` if that can lead there.

    LookupError where none of them is reached.
    """
    usual = joint.beside.usual(joint.space)
    if not following(joint.space, list(joint.steps), joint.begun & begun) & states:
        begun = -1
    rounds: list[tuple[int, int]] = []
    for begun_here, frontier in _rounds(joint, usual, begun):
        rounds.append((begun_here, frontier))
        met = frontier & states
        if met:
            return _told(joint, usual, rounds, (met & -met).bit_length() - 1)
    raise LookupError("none of these states is reached")


def _rounds(joint: Joint, usual: Behaviour, where: int) -> Iterator[tuple[int, int]]:
    """Where the fault may come after n steps of the sound box, and all that is new after n steps in all."""
    before = iter(usual.rounds)
    reached, frontier = 0, 0
    while True:
        more = next(before, None)
        begun = 0 if more is None else joint.beside.begun(joint.space, usual, more) & where
        arrived = begun
        for step in joint.steps:
            arrived |= stepped(joint.space, frontier, step)
        frontier = arrived & ~reached
        reached |= frontier
        if not frontier and more is None:
            return
        yield begun & frontier, frontier


def _told(joint: Joint, usual: Behaviour, rounds: list[tuple[int, int]], state: int) -> FaultStory:
    beside = joint.beside
    changes: list[Change] = []
    end, number = _of_faulty(beside, joint.space.values(state)), len(rounds) - 1
    while not rounds[number][0] >> state & 1:
        number -= 1
        origin, step = _step_to(joint, state, rounds[number][1])
        if step.digit < beside.count or beside.circuit.digits[step.digit].kind == "control":
            changes.append(Change(step.digit, step.start, step.end, joint.space.values(state)))
        state = origin
    return FaultStory(_of_sound(joint, usual, number, state), tuple(reversed(changes)), end)


def _step_to(joint: Joint, state: int, before: int) -> tuple[int, Step]:
    """A state of the round before from which one step leads here, and the step."""
    for step in joint.steps:
        position = joint.space.index(step.digit)
        stride = joint.space.strides[position]
        if state // stride % joint.space.radices[position] == step.end:
            origin = state + (step.start - step.end) * stride
            if origin >= 0 and (before & step.allowed) >> origin & 1:
                return origin, step
    raise LookupError("no step leads here from the round before")


def _of_sound(joint: Joint, usual: Behaviour, number: int, state: int) -> Story:
    """A story of the sound box that ends where the fault comes."""
    values = joint.space.values(state)
    here = usual.rounds[number]
    for digit in usual.space.digits:
        if digit in values:
            here &= usual.space.where(digit, (values[digit],))
    return story_to(usual, (here & -here).bit_length() - 1, number)


def _of_faulty(beside: Beside, values: State) -> State:
    return {digit: value for digit, value in values.items() if digit < beside.count}
