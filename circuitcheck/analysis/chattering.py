"""Limits that let their own axis start again.

Where a drive has ended on a limit or cam switch, the axis may go one zone off it with nothing driving it: it springs
back, or coasts through. If then, with no control touched, it is driven onto the switch again and comes to the same
state, it goes on so without end. It may first do so where it has gone back once or twice, and relays remember it; and
from several switches in turn.
"""

from collections.abc import Iterator
from typing import NamedTuple

from circuitcheck.analysis.behaviour import Behaviour, Further
from circuitcheck.analysis.course import at_every_clock, at_some_clock
from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.influence import digits_of
from circuitcheck.analysis.resting import Step, at_position_of_lowest, following, leading_to, stepped
from circuitcheck.analysis.rounds import joined
from circuitcheck.analysis.sequels import Sequel, hands_off, then, with_further
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
    usual = facts.behaviour({digit, *moving.space.digits, *held.space.digits})
    space = usual.space
    shorted = at_some_clock(space, usual.course.steps.shorted)
    loose = usual.proper & hands_off(facts.circuit, space) & ~held.over(space) & ~shorted
    sides = [(limit, *side) for limit in facts.circuit.limits for side in _sides(facts, axis, limit)]
    backs = [Step(digit, *way, loose & space.where(digit, way[:1])) for way in sorted({side[1:] for side in sides})]
    begun = at_some_clock(space, usual.course.reached & usual.course.steps.rest) & loose
    if not any(back.allowed & begun for back in backs):
        return
    behaviour = with_further(facts, usual, Further(at_rest=tuple(backs)))
    going = _going(facts, behaviour, digit, loose, begun)
    recurring = _recurring(going)
    for limit, zone, beside in sides if recurring else ():
        back = [one for one in going.backs if (one.start, one.end) == (zone, beside)]
        found, again = _returning(going, back, recurring)
        if found:
            # One that operation itself comes to is shown at once.
            at_once = found & going.begun
            after = (
                then(behaviour, at_once, back, going.onward)
                if at_once
                else then(behaviour, going.begun, going.backs, [*going.onward, *going.backs])
            )
            yield Chatter(limit, facts.spaces.over(space, at_some_clock(space, again)), Sequel(after))


class _Going(NamedTuple):
    """How an axis goes on with no control touched. Steps and states are those of a course's space.

    backs: where it goes off its limits with nothing driving it; drives: of its motors; relays: what else moves by
    itself, other axes too. begun: the states of operation from which it may first go back. rest: of relays.
    """

    space: Space
    backs: list[Step]
    drives: list[Step]
    relays: list[Step]
    begun: int
    rest: int

    @property
    def onward(self) -> list[Step]:
        """All but going back."""
        return [*self.relays, *self.drives]


def _going(facts: Facts, behaviour: Behaviour, digit: int, loose: int, begun: int) -> _Going:
    """loose, begun: over the behaviour's own space."""
    steps = behaviour.course.steps
    free = at_every_clock(steps.space, behaviour.space, loose)
    own = [step for step in steps.all if step.digit == digit]
    # What is loose is not driven, so no step is both.
    backs = [step._replace(allowed=step.allowed & free) for step in own if step.allowed & free]
    drives = [step._replace(allowed=step.allowed & ~free) for step in own if step.allowed & ~free]
    others = [step for step in steps.all if step.digit != digit]
    relays = [step for step in others if facts.circuit.digits[step.digit].kind in ("relay", "axis")]
    first = behaviour.course.reached & steps.rest & at_every_clock(steps.space, behaviour.space, begun)
    return _Going(steps.space, backs, drives, relays, first, steps.rest)


def _recurring(going: _Going) -> int:
    """The states that follow of going back again and again, without end. There are none where no run of it comes back
    to where it began."""
    first = joined(_stepped(going.space, going.begun, going.backs))
    left = going.begun | following(going.space, [*going.onward, *going.backs], first)
    before = 0
    while left != before:
        before = left
        left = following(going.space, going.onward, joined(_stepped(going.space, left, going.backs)))
    return left


def _stepped(space: Space, states: int, steps: list[Step]) -> Iterator[int]:
    return (stepped(space, states, step) for step in steps)


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


def _returning(going: _Going, back: list[Step], recurring: int) -> tuple[int, int]:
    """The recurring states from which this way back is followed by a drive from where it ends, and then by the same
    state again; and the rests at which that drive begins. One position of all that moves by itself at a time, at every
    setting of the others at once."""
    space, every = going.space, [*going.onward, *going.backs]
    moving = {step.digit for step in every} | ({space.digits[-1]} if any(step.clock for step in every) else set())
    left, found, again = recurring & joined(step.allowed for step in back), 0, 0
    driven_there = going.rest & joined(step.allowed for step in going.drives)
    while left:
        here = at_position_of_lowest(space, left, moving, left)
        left &= ~here
        there = following(space, going.relays, joined(_stepped(space, here, back))) & driven_there
        came = following(space, every, joined(_stepped(space, there, going.drives))) & here
        if came:
            found |= came
            again |= there & leading_to(space, every, came)
    return found, again
