"""What follows of one event in operation: power returns, an emergency stop is reset, a relay sticks.

Hands are taken off the controls first: those that spring back have done so, the others stay as they are. Only what the
event turns is still held till then. Then the event comes, and relays, timers and axes go on by themselves.
"""

from itertools import chain
from typing import NamedTuple

from circuitcheck.analysis.behaviour import Behaviour, Further
from circuitcheck.analysis.course import Course, Steps, at_every_clock, at_some_clock, follow
from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.resting import Step, leading_to, stepped
from circuitcheck.analysis.rounds import Rounds, joined
from circuitcheck.analysis.single_state import Story, story_through
from circuitcheck.analysis.states import Space, States
from circuitcheck.analysis.vicinity import is_ruled_out
from circuitcheck.circuit.model import Circuit


class Sequel(NamedTuple):
    """behaviour: its round 0 holds the states of operation in which the event comes, the later rounds what follows of
    it, and so does `reached`. incident: the event in words, where no step of the behaviour is the event itself."""

    behaviour: Behaviour
    incident: str = ""


class Starts(NamedTuple):
    """A motor that starts: `states` at rest after the event in which it is driven. `remembering`: the latching relays
    (by number) that decide whether it does."""

    states: States
    sequel: Sequel
    remembering: tuple[int, ...]


def starts_after(facts: Facts, motor: int, digits: frozenset[int], value: int) -> Starts | None:
    """How a motor that stands still starts once one of these digits (supplies, an emergency stop) is turned to `value`
    and no control is touched. None where it doesn't."""
    asked = {*facts.motors[motor].driven.space.digits, *facts.shorted.space.digits, *digits}
    if is_ruled_out(facts, asked, lambda facts: _starts_after(facts, motor, digits, value)):
        return None
    return _starts_after(facts, motor, digits, value)


def _starts_after(facts: Facts, motor: int, digits: frozenset[int], value: int) -> Starts | None:
    driven = facts.motors[motor].driven - facts.shorted
    behaviour = facts.behaviour({*driven.space.digits, *digits})
    space, course, moving = behaviour.space, behaviour.course, driven.over(behaviour.space)
    turned = space.full
    for digit in digits:
        turned &= space.where(digit, (value,))
    still = behaviour.proper & hands_off(facts.circuit, space, digits) & ~turned & ~moving
    still &= at_some_clock(space, course.reached & course.steps.rest)
    if len(digits) > 1:
        # Power may return to several supplies before any relay has moved.
        returning = (step for step in behaviour.steps if step.digit in digits and step.end == value)
        shorted = at_some_clock(space, course.steps.shorted)
        behaviour = with_further(
            facts,
            behaviour,
            Further(
                anytime=tuple(
                    step._replace(allowed=space.where(step.digit, (step.start,)) & ~shorted) for step in returning
                )
            ),
        )
    steps = behaviour.course.steps
    before = behaviour.course.reached & steps.rest & at_every_clock(steps.space, space, still)
    turning = [step for step in steps.all if step.digit in digits and turns(facts.circuit, step, value)]
    by_itself = [step for step in steps.all if facts.circuit.digits[step.digit].kind in ("relay", "axis")]
    after = then(behaviour, before, turning, by_itself)
    rests = at_some_clock(space, after.course.reached & after.course.steps.rest)
    found = rests & after.proper & moving
    if not found:
        return None
    return Starts(facts.spaces.over(space, found), Sequel(after), _remembering(facts.circuit, after, found))


def with_further(facts: Facts, behaviour: Behaviour, further: Further) -> Behaviour:
    """The behaviour with further steps among those of its course. What operation reaches may grow by them."""
    course, space = behaviour.course, behaviour.space
    if course.steps.space is not space:
        # Where times are told apart, so is how long relays have been waiting when such a step comes.
        return facts.behave(frozenset(space.digits), further=further)
    at_rest = (step._replace(allowed=step.allowed & course.steps.rest) for step in further.at_rest)
    steps = course.steps._replace(others=(*course.steps.others, *further.anytime, *at_rest))
    return behaviour._replace(course=course._replace(steps=steps))


def then(behaviour: Behaviour, before: int, event: list[Step], onward: list[Step]) -> Behaviour:
    """What follows when one of the steps `event` is taken in the states `before`, and then those of `onward`, or of the
    event again. Steps and states are those of the behaviour's course."""
    steps = behaviour.course.steps
    first = joined(stepped(steps.space, before, step) for step in event)
    after = follow(Steps(steps.space, tuple(event), tuple(onward), steps.rest, steps.shorted), first)
    return behaviour_of(behaviour, after._replace(rounds=Rounds(chain((before,), after.rounds))))


def behaviour_of(behaviour: Behaviour, course: Course) -> Behaviour:
    """The behaviour with another course."""
    space = behaviour.space
    rounds = Rounds(at_some_clock(space, one) for one in course.rounds)
    return behaviour._replace(rounds=rounds, reached=at_some_clock(space, course.reached), course=course)


def story_of(usual: Behaviour, sequel: Behaviour, states: int) -> tuple[Story, Story]:
    """The shortest story from the event to one of these states, and before it the one that leads to the event."""
    wide = at_every_clock(sequel.course.steps.space, sequel.space, states)
    rounds = next(number for number, one in enumerate(sequel.course.rounds) if one & wide)
    met = sequel.course.rounds[rounds] & wide
    state = (met & -met).bit_length() - 1
    origin = sequel.course.origin(state, rounds)
    before = next((number for number, one in enumerate(usual.course.rounds) if one >> origin & 1), None)
    if before is None:
        origin %= usual.space.size
        before = next(number for number, one in enumerate(usual.rounds) if one >> origin & 1)
        origin = next(
            wide
            for wide in range(origin, usual.course.steps.space.size, usual.space.size)
            if usual.course.rounds[before] >> wide & 1
        )
    return story_through(usual, origin, before), story_through(sequel, state, rounds)


def hands_off(circuit: Circuit, space: Space, but: frozenset[int] = frozenset()) -> int:
    """The states in which every control that springs back has done so, but these."""
    states = space.full
    for number in set(space.digits) - but:
        springs_to = circuit.digits[number].springs_to
        if springs_to is not None:
            states &= space.where(number, (springs_to,))
    return states


def turns(circuit: Circuit, step: Step, value: int) -> bool:
    """Does the step bring a digit to the value, or into a moment on the way there?"""
    digit = circuit.digits[step.digit]
    passed = len(digit.values)
    if step.end >= passed:
        return (step.start, value) in digit.moments[step.end - passed].moves
    return step.end == value


def _remembering(circuit: Circuit, after: Behaviour, found: int) -> tuple[int, ...]:
    """The latching relays without which some start would not be: the other way round, the same state stays still."""
    space, course = after.space, after.course
    latching = [
        number
        for number, relay in enumerate(circuit.relays)
        if relay.function == "latching" and relay.digit in space.digits
    ]
    if not latching:
        return ()
    wide = at_every_clock(course.steps.space, space, found)
    starting = at_some_clock(space, leading_to(course.steps.space, course.steps.all, wide) & course.rounds[0])
    still = after.rounds[0] & ~starting
    return tuple(number for number in latching if space.anyhow(still, circuit.relays[number].digit) & starting)
