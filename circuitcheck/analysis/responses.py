"""What comes of something within a time: `after ES1 pressed within 1 s M1 stopped`.

Begun wherever the first condition comes to hold, in operation or with power-up. From then on controls, supplies,
outside contacts and axes stand still; relays settle and timing relays run out, in every order. The answer must come, at
one rest, before the time is over.

Time is counted so: a relay that just moves takes none. A rest at which timing relays are running lasts as long as the
shortest of their times, and no longer. Along a chain of them the times are added up, since one may begin when the last
has ended; where they run side by side the sum is more than the truth, so a chain's sum only says what it may take.
"""

from collections.abc import Iterator
from typing import NamedTuple

from circuitcheck.analysis.behaviour import Behaviour
from circuitcheck.analysis.course import Steps, at_every_clock, at_some_clock, follow, joined
from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.resting import Step, following, leading_to, stepped
from circuitcheck.analysis.sequels import Sequel, behaviour_of, then
from circuitcheck.analysis.states import Space, States


class Late(NamedTuple):
    """The rests that outlast the time without the answer, and how they come about.

    seconds: the time from the beginning to where it can come, None where it never comes. summed: several timing relays
    make up that time, so that it may be less.
    """

    states: States
    sequel: Sequel
    seconds: float | None
    summed: bool


class Progress(NamedTuple):
    """What goes on after the beginning: quick steps, and those of timers with their times, shortest first. `waiting`:
    rests at which the answer isn't there; at `met` it is. All are bits over a course's space."""

    space: Space
    quick: list[Step]
    timed: list[tuple[float, list[Step]]]
    waiting: int
    met: int

    def unanswered(self, states: int) -> int:
        """The rests that come next from some states, if the answer isn't there."""
        return following(self.space, self.quick, states) & self.waiting

    def run_out(self, rests: int) -> int:
        """The states that come of some rests when one of the running timers, whichever, has run out."""
        return joined(stepped(self.space, rests, step) for _, steps in self.timed for step in steps)


def late_answer(facts: Facts, first: States, answer: States, seconds: float) -> Late | None:
    """How the answer can fail to come within so many seconds of `first` coming to hold; None where it can't."""
    behaviour = facts.behaviour({*first.space.digits, *answer.space.digits})
    progress = _progress(facts, behaviour, answer.over(behaviour.space))
    for origin, begun in _begun(behaviour, first.over(behaviour.space)):
        found = _outlasting(progress, begun, seconds)
        if found is not None:
            rests, passed, summed = found
            after = _told(behaviour, progress, origin, begun)
            states = facts.spaces.over(behaviour.space, at_some_clock(behaviour.space, rests))
            return Late(states, Sequel(after), passed, summed)
    return None


def begins_to_hold(facts: Facts, first: States) -> bool:
    """Does operation ever bring a condition about?"""
    behaviour = facts.behaviour(first.space.digits)
    return any(begun for _, begun in _begun(behaviour, first.over(behaviour.space)))


def _begun(behaviour: Behaviour, first: int) -> Iterator[tuple[list[Step], int]]:
    """Where the condition comes to hold: by a step of operation (those steps, and the states after them), with power-up
    (no step)."""
    course = behaviour.course
    space = course.steps.space
    holding = at_every_clock(space, behaviour.space, first)
    steps = []
    for step in course.steps.all:
        # All that can go this way and arrives where the condition holds, from where it does not.
        leading_in = leading_to(space, [step], stepped(space, space.full, step) & holding) & step.allowed
        step = step._replace(allowed=leading_in & course.reached & ~holding)
        if step.allowed:
            steps.append(step)
    yield steps, joined(stepped(space, space.full, step) for step in steps)
    yield [], course.rounds[0] & holding


def _progress(facts: Facts, behaviour: Behaviour, answered: int) -> Progress:
    circuit, steps = facts.circuit, behaviour.course.steps
    delays = {
        (circuit.relays[move.relay].digit, move.start, move.end): circuit.relays[move.relay].seconds_at(move.start)
        for move in facts.relay_moves
        if move.timed
    }
    quick: list[Step] = []
    timed: dict[float, list[Step]] = {}
    for step in steps.all:
        digit, move = circuit.digits[step.digit], (step.digit, step.start, step.end)
        if move in delays:
            timed.setdefault(delays[move], []).append(step)
        elif digit.kind == "relay" or step.start >= len(digit.values):
            quick.append(step)
    rests = steps.rest & at_every_clock(steps.space, behaviour.space, behaviour.proper)
    met = rests & at_every_clock(steps.space, behaviour.space, answered)
    return Progress(steps.space, quick, sorted(timed.items()), rests & ~met, met)


def _outlasting(progress: Progress, begun: int, seconds: float) -> tuple[int, float | None, bool] | None:
    """The rests that last beyond the time without the answer, how long until it can come, and whether that is a sum."""
    waiting = {0.0: progress.unanswered(begun)}
    while waiting:
        passed = min(waiting)
        rests = waiting.pop(passed)
        for delay, steps in progress.timed:
            ending = joined(step.allowed & rests for step in steps)
            rests &= ~ending
            over = round(passed + delay, 6)
            if ending and over > seconds:
                return ending, over, passed > 0
            onward = progress.unanswered(progress.run_out(ending))
            if onward:
                waiting[over] = waiting.get(over, 0) | onward
        if rests:
            return rests, None, False
    return None


def _told(behaviour: Behaviour, progress: Progress, origin: list[Step], begun: int) -> Behaviour:
    """The story's steps from before the beginning on; none goes on from where the answer is there."""
    onward = [*progress.quick, *(step for _, steps in progress.timed for step in steps)]
    onward = [step._replace(allowed=step.allowed & ~progress.met) for step in onward]
    if origin:
        return then(behaviour, joined(step.allowed for step in origin), origin, onward)
    steps = behaviour.course.steps
    after = follow(Steps(steps.space, (), tuple(onward), steps.rest, steps.shorted), begun)
    return behaviour_of(behaviour, after)
