"""Limits that let their own axis start again.

Where a drive has ended on a limit or cam switch, the axis may go one zone off it with nothing driving it: it springs
back, or coasts through. If then, with no control touched, it is driven onto the switch again and comes to the same
state, it goes on so without end.
"""

from collections.abc import Iterator
from typing import NamedTuple

from circuitcheck.analysis.course import at_every_clock
from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.influence import digits_of
from circuitcheck.analysis.resting import Step, following, leading_to, stepped
from circuitcheck.analysis.sequels import Sequel, hands_off, then
from circuitcheck.analysis.states import Space, States, union
from circuitcheck.analysis.travel import digits_of_drive, driven
from circuitcheck.analysis.vicinity import is_ruled_out
from circuitcheck.circuit.model import Limit


class Chatter(NamedTuple):
    """`limit` has let its axis go, and in `states`, which follow of the sequel, it is driven toward it again."""

    limit: Limit
    states: States
    sequel: Sequel


def chatter(facts: Facts, axis: int) -> Iterator[Chatter]:
    """Each limit switch off which an axis goes back without end, once for each side.

    One that is not said to spring back is held where its motors are braked.
    """
    digits = digits_of_drive(facts, axis) | digits_of(_braked(facts, axis))
    if not is_ruled_out(facts, digits, lambda facts: list(_chatter(facts, axis))):
        yield from _chatter(facts, axis)


def _chatter(facts: Facts, axis: int) -> Iterator[Chatter]:
    digit, told = facts.circuit.axes[axis].digit, facts.circuit.axes[axis].springs_back
    moving = driven(facts, axis, 1) | driven(facts, axis, -1)
    held = moving if told else moving | _braked(facts, axis)
    behaviour = facts.behaviour({digit, *moving.space.digits, *held.space.digits})
    wide, course = behaviour.course.steps.space, behaviour.course
    loose = course.reached & course.steps.rest & ~at_every_clock(wide, behaviour.space, held.over(behaviour.space))
    let_go = behaviour.proper & hands_off(facts.circuit, behaviour.space)
    loose &= at_every_clock(wide, behaviour.space, let_go) & ~course.steps.shorted
    onward = [step for step in course.steps.all if facts.circuit.digits[step.digit].kind in ("relay", "axis")]
    for limit in facts.circuit.limits:
        for zone, beside in _sides(facts, axis, limit):
            back = Step(digit, zone, beside, loose & wide.where(digit, (zone,)))
            found = _returning(wide, onward, back)
            if found:
                after = then(behaviour, found, [back._replace(allowed=found)], onward)
                again = behaviour.space.where(digit, (beside,)) & moving.over(behaviour.space)
                states = facts.spaces.over(behaviour.space, after.reached & after.rest & again)
                yield Chatter(limit, states, Sequel(after))


def _braked(facts: Facts, axis: int) -> States:
    motors = zip(facts.circuit.motors, facts.motors, strict=True)
    return union((does.braked for motor, does in motors if motor.axis == axis), facts.spaces.none())


def _sides(facts: Facts, axis: int, limit: Limit) -> Iterator[tuple[int, int]]:
    """The zones in which a limit is pressed, each with a zone beside it, of the axis' range, in which it is not."""
    first, last = facts.circuit.axes[axis].range
    for zone in sorted(limit.zones) if limit.axis == axis else ():
        for beside in (zone - 1, zone + 1):
            if facts.circuit.axes[axis].turning:
                beside %= last + 1
            if first <= beside <= last and beside not in limit.zones:
                yield zone, beside


def _returning(space: Space, onward: list[Step], back: Step) -> int:
    """The states from which the step back is followed by the same state again: one position of all that moves by itself
    at a time, at every setting of the others at once."""
    moving = sorted({back.digit, *(step.digit for step in onward)})
    ways = stepped(space, space.full, back) & leading_to(space, onward, back.allowed)
    left, found = leading_to(space, [back], ways) & back.allowed, 0
    while left:
        values = space.values((left & -left).bit_length() - 1)
        here = left
        for digit in moving:
            here &= space.where(digit, (values[digit],))
        left &= ~here
        found |= following(space, onward, stepped(space, here, back)) & here
    return found
