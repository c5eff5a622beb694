"""From where an axis gets to a known place: one where a limit or cam switch of it is pressed."""

from collections.abc import Callable

from circuitcheck.analysis.course import Course, at_every_clock, at_some_clock
from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.resting import not_leading_to
from circuitcheck.analysis.states import States
from circuitcheck.analysis.travel import driven
from circuitcheck.analysis.vicinity import with_others_parked


def lost(facts: Facts, axis: int) -> States:
    """The states of power-up from which no working of controls, supplies and outside contacts, with all that follows,
    brings the axis to where one of its limit switches is pressed. What ends in a short is told as a short."""
    digit = facts.circuit.axes[axis].digit
    if not facts.shorted and any(not _lost(here, axis, _standing) for here in with_others_parked(facts, {digit})):
        return facts.spaces.none()
    return _lost(facts, axis, lambda _, course: course.rounds[0])


def _standing(facts: Facts, course: Course) -> int:
    """Wherever relays rest with the axes as power may find them: relays come to rest, and others are parked, before
    anything else is done."""
    space = course.steps.space
    axes = {axis.digit for axis in facts.circuit.axes}
    return course.steps.rest & space.all_anyhow(course.rounds[0], set(space.digits) - axes)


def _lost(facts: Facts, axis: int, beginning: Callable[[Facts, Course], int]) -> States:
    digit = facts.circuit.axes[axis].digit
    behaviour = facts.behaviour({digit})
    space, course = behaviour.space, behaviour.course
    known = {zone for limit in facts.circuit.limits if limit.axis == axis for zone in limit.zones}
    home = at_every_clock(course.steps.space, space, space.where(digit, known)) | course.steps.shorted
    left = not_leading_to(course.steps.space, course.steps.all, beginning(facts, course), home, facts.close_to(digit))
    return facts.spaces.over(space, at_some_clock(space, left))


def has_known_places(facts: Facts, axis: int) -> bool:
    """Is there a limit switch on an axis that something drives?"""
    on_it = any(limit.axis == axis for limit in facts.circuit.limits)
    return on_it and bool(driven(facts, axis, 1) or driven(facts, axis, -1))
