"""From where an axis gets to a known place: one where a limit or cam switch of it is pressed."""

from circuitcheck.analysis.course import at_every_clock, at_some_clock
from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.resting import not_leading_to
from circuitcheck.analysis.states import States
from circuitcheck.analysis.travel import driven


def lost(facts: Facts, axis: int) -> States:
    """The states of power-up from which no working of controls, supplies and outside contacts, with all that follows,
    brings the axis to where one of its limit switches is pressed. What ends in a short is told as a short."""
    digit = facts.circuit.axes[axis].digit
    behaviour = facts.behaviour({digit})
    space, course = behaviour.space, behaviour.course
    known = {zone for limit in facts.circuit.limits if limit.axis == axis for zone in limit.zones}
    home = course.reached & at_every_clock(course.steps.space, space, space.where(digit, known))
    home |= course.steps.shorted & course.reached
    # Whoever begins at power-up stays among what is reached: ways from elsewhere need no looking at.
    onward = [step._replace(allowed=step.allowed & course.reached) for step in course.steps.all]
    left = not_leading_to(course.steps.space, onward, course.rounds[0], home, facts.close_to(digit))
    return facts.spaces.over(space, at_some_clock(space, left))


def has_known_places(facts: Facts, axis: int) -> bool:
    """Is there a limit switch on an axis that something drives?"""
    on_it = any(limit.axis == axis for limit in facts.circuit.limits)
    return on_it and bool(driven(facts, axis, 1) or driven(facts, axis, -1))
