"""From where an axis gets to a known place: one where a limit or cam switch of it is pressed."""

from circuitcheck.analysis.behaviour import Behaviour
from circuitcheck.analysis.course import at_every_clock, at_some_clock
from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.parking import standing_anyhow
from circuitcheck.analysis.resting import not_leading_to
from circuitcheck.analysis.states import States
from circuitcheck.analysis.travel import driven
from circuitcheck.analysis.vicinity import nearby


def lost(facts: Facts, axis: int) -> States:
    """The states of power-up from which no working of controls, supplies and outside contacts, with all that follows,
    brings the axis to where one of its limit switches is pressed. What ends in a short is told as a short."""
    digit = facts.circuit.axes[axis].digit
    parked = nearby(facts, {digit}, lambda facts: _lost(facts, axis, standing_anyhow(facts, {digit})))
    if not facts.shorted and not all(parked):
        return facts.spaces.none()
    return _lost(facts, axis, facts.behaviour({digit}))


def _lost(facts: Facts, axis: int, behaviour: Behaviour) -> States:
    digit, (first, last) = facts.circuit.axes[axis].digit, facts.circuit.axes[axis].range
    space, course = behaviour.space, behaviour.course
    beginning = course.rounds[0] & at_every_clock(course.steps.space, space, space.where(digit, range(first, last + 1)))
    known = {zone for limit in facts.circuit.limits if limit.axis == axis for zone in limit.zones}
    home = at_every_clock(course.steps.space, space, space.where(digit, known)) | course.steps.shorted
    left = not_leading_to(course.steps.space, course.steps.all, beginning, home, facts.close_to(digit))
    return facts.spaces.over(space, at_some_clock(space, left))


def has_known_places(facts: Facts, axis: int) -> bool:
    """Is there a limit switch on an axis that something drives?"""
    on_it = any(limit.axis == axis for limit in facts.circuit.limits)
    return on_it and bool(driven(facts, axis, 1) or driven(facts, axis, -1))
