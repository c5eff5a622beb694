"""What a fault leads to, in words that exclude a good deal of talk.

A faulty box stands beside a sound one that is worked by the same hands (beside.py). At every rest that both come to and
that lasts, and for every motor and solenoid:

    does not stop      driven where the sound box has stopped it, and driven ever since both drove it
    overtravel         driven outward at or past an end of its axis, where the sound box doesn't
    unexpected motion  driven where the sound box leaves it, or the other way, and not since both drove it
    brake lost         neither driven nor braked where the sound box brakes it
    supply short       conductors close a loop through a supply
    limit trapped      driven outward to an end, where no working of the controls drives back, as it does short of it
    does nothing       not driven where the sound box drives it
    holds              none of these: it still stops, brakes and limits
"""

from collections.abc import Iterator
from typing import Final, NamedTuple

from circuitcheck.analysis.devices import LampStates
from circuitcheck.analysis.faults.beside import Beside, Joint
from circuitcheck.analysis.influence import digits_of
from circuitcheck.analysis.rails import Short
from circuitcheck.analysis.resting import following, leading_to
from circuitcheck.analysis.rounds import joined
from circuitcheck.analysis.states import States, union
from circuitcheck.circuit.model import Axis, Motor

CONSEQUENCES: Final = (
    "does not stop",
    "overtravel",
    "unexpected motion",
    "brake lost",
    "supply short",
    "limit trapped",
    "does nothing",
    "holds",
)
"""The worst first."""


class Outcome(NamedTuple):
    """One thing that a fault leads to.

    consequence: of CONSEQUENCES. device: the motor, solenoid or supply. axis, place: of overtravel and limit trapped.
    joint, states: where it is so, as bits over the joint's space, all of them reached. begun: of where the fault may
    come, that from which it shows best. short: of a supply short.
    """

    consequence: str
    device: str
    joint: Joint
    states: int
    axis: str = ""
    place: str = ""
    begun: int = -1
    short: Short | None = None


def outcomes(beside: Beside) -> Iterator[Outcome]:
    """All that a fault leads to, device by device; nothing of those that it doesn't touch."""
    yield from new_shorts(beside)
    for number, motor in enumerate(beside.faulty.circuit.motors):
        yield from _of_motor(beside, number, motor)
    for number, lamp in beside.faulty.lamps.items():
        if beside.faulty.circuit.loads[number].kind == "solenoid":
            yield from _of_solenoid(beside, number, lamp)


def new_shorts(beside: Beside) -> Iterator[Outcome]:
    """Each way in which the faulty box shorts a supply and the sound one doesn't."""
    for short in beside.faulty.shorts:
        fresh = (short.states - beside.sound.shorted).tight()
        if fresh:
            joint = beside.joint(fresh.space.digits)
            found = fresh.over(joint.space) & joint.reached
            if found:
                names = " and ".join(beside.circuit.supplies[number].name for number in short.supplies)
                yield Outcome("supply short", names, joint, found, short=short)


def _of_motor(beside: Beside, number: int, motor: Motor) -> Iterator[Outcome]:
    does, sound = beside.motor(number)
    if all(one.same_as(other) for one, other in zip(does, sound, strict=True)):
        return
    axis = None if motor.axis is None else beside.circuit.axes[motor.axis]
    asked = digits_of(*does, *sound)
    joint = beside.joint(asked if axis is None else {*asked, axis.digit})
    ways = ((motor.upward, does.forward, sound.forward), (not motor.upward, does.reverse, sound.reverse))
    for upward, driven, right in ways:
        states = _over(joint, driven - right)
        outside = _at_end(joint, axis, upward) if axis and not axis.turning else 0
        if axis and states & outside:
            place = axis.places[-1 if upward else 0]
            yield Outcome("overtravel", motor.name, joint, states & outside, axis.name, place)
        standing = ~sound.driven.over(joint.space)
        yield from _driven_on(joint, motor.name, states & ~outside, _over(joint, driven & right), driven, standing)
    if not motor.may_coast:
        lost = sound.braked - does.braked - does.driven
        yield from _told("brake lost", motor.name, joint, _over(joint, lost))
    yield from _told("does nothing", motor.name, joint, _over(joint, sound.driven - does.driven))
    if axis and not axis.turning and motor.axis is not None:
        yield from _trapped(beside, joint, motor, axis)


def _of_solenoid(beside: Beside, number: int, lamp: LampStates) -> Iterator[Outcome]:
    load = beside.faulty.circuit.loads[number]
    sound = beside.of_sound(beside.sound.lamps[number].lit)
    if not lamp.lit.same_as(sound):
        joint = beside.joint(digits_of(lamp.lit, sound))
        rightly = _over(joint, lamp.lit & sound)
        yield from _driven_on(joint, load.name, _over(joint, lamp.lit - sound), rightly, lamp.lit, -1)
        yield from _told("does nothing", load.name, joint, _over(joint, sound - lamp.lit))


def _driven_on(joint: Joint, name: str, wrong: int, rightly: int, driven: States, standing: int) -> Iterator[Outcome]:
    """Wrongly driven: where the sound box has it standing, ever since it was rightly driven; or else unexpectedly."""
    if not wrong:
        return
    stopped = joint.rest & ~driven.over(joint.space)
    steps = [step._replace(allowed=step.allowed & ~stopped) for step in joint.steps]
    since = following(joint.space, steps, rightly) & wrong & standing
    if since:
        yield Outcome("does not stop", name, joint, since, begun=rightly)
    yield from _told("unexpected motion", name, joint, wrong & ~since)


def _trapped(beside: Beside, joint: Joint, motor: Motor, axis: Axis) -> Iterator[Outcome]:
    space = joint.space
    others = [step for step in joint.steps if step.digit != axis.digit]
    moving = [step for step in joint.steps if step.digit == axis.digit]
    for place, upward in ((axis.places[0], False), (axis.places[-1], True)):
        at_end = _at_end(joint, axis, upward)
        outward = joined(step.allowed for step in moving if (step.end > step.start) == upward)
        inward = joined(step.allowed for step in moving if (step.end > step.start) != upward)
        led_back = leading_to(space, others, inward)
        end, before = _end_zones(axis, upward)[0], axis.range[upward] + (-1 if upward else 1)
        elsewhere = space.moved(led_back, axis.digit, before, end)
        found = joint.lasting & space.where(axis.digit, (end,)) & ~led_back & elsewhere
        if found and outward & joint.reached & ~at_end and not _sound_is_trapped(beside, motor, axis, upward):
            yield Outcome("limit trapped", motor.name, joint, found, axis.name, place)


def _sound_is_trapped(beside: Beside, motor: Motor, axis: Axis, upward: bool) -> bool:
    """Does the sound box never drive inward at this end either?"""
    zones = _end_zones(axis, upward)
    drives = [
        does.reverse if other.upward == upward else does.forward
        for other, does in zip(beside.sound.circuit.motors, beside.sound.motors, strict=True)
        if other.axis == motor.axis
    ]
    inward = union(drives, beside.sound.spaces.none()) & beside.sound.spaces.where(axis.digit, zones)
    return not beside.sound.reached(inward)


def _at_end(joint: Joint, axis: Axis, upward: bool) -> int:
    return joint.space.where(axis.digit, _end_zones(axis, upward))


def _end_zones(axis: Axis, upward: bool) -> tuple[int, int]:
    """The last zone, and that beyond it."""
    first, last = axis.range
    return (last, last + 1) if upward else (first, first - 1)


def _over(joint: Joint, states: States) -> int:
    """Those of the states that both boxes come to, at rest and for good."""
    return states.over(joint.space) & joint.lasting


def _told(consequence: str, device: str, joint: Joint, states: int) -> Iterator[Outcome]:
    if states:
        yield Outcome(consequence, device, joint, states)


def worst(found: list[Outcome]) -> Outcome | None:
    """The worst of them; of several the first."""
    return min(found, key=lambda one: CONSEQUENCES.index(one.consequence), default=None)
