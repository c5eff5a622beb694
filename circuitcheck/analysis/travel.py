"""How axes move: what drives them outward at their ends, what never leads back, what goes to and fro by itself."""

from collections.abc import Iterator
from typing import NamedTuple

from circuitcheck.analysis.behaviour import Behaviour
from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.influence import digits_of
from circuitcheck.analysis.parking import standing_anyhow
from circuitcheck.analysis.resting import Step, following, not_leading_to, stepped
from circuitcheck.analysis.rounds import joined
from circuitcheck.analysis.states import Space, States, union
from circuitcheck.analysis.vicinity import first_found, is_ruled_out, nearby
from circuitcheck.circuit.model import Axis, Limit


class End(NamedTuple):
    """An end of a linear axis: `zone` is its last zone, `past` the zone of overtravel, `direction` outward (+1, -1)."""

    axis: int
    place: str
    zone: int
    past: int
    direction: int


def ends_of(facts: Facts) -> Iterator[End]:
    """Both ends of every linear axis that some state drives at all; an axis that nothing drives is no question."""
    for number in range(len(facts.circuit.axes)):
        yield from ends_of_axis(facts, number)


def ends_of_axis(facts: Facts, number: int) -> Iterator[End]:
    """The same for one axis."""
    axis = facts.circuit.axes[number]
    if not axis.turning and (driven(facts, number, 1) or driven(facts, number, -1)):
        first, last = axis.range
        yield End(number, axis.places[0], first, first - 1, -1)
        yield End(number, axis.places[-1], last, last + 1, 1)


def driven(facts: Facts, axis: int, direction: int) -> States:
    """The states in which some motor drives the axis upward (+1) or downward (-1)."""
    found = []
    for number, motor in enumerate(facts.circuit.motors):
        if motor.axis == axis:
            does = facts.motors[number]
            found.append(does.forward if motor.upward == (direction > 0) else does.reverse)
    return union(found, facts.spaces.none())


def digits_of_drive(facts: Facts, axis: int) -> frozenset[int]:
    """An axis' digit, and those that have a say in whether it is driven either way."""
    return digits_of(driven(facts, axis, 1), driven(facts, axis, -1)) | {facts.circuit.axes[axis].digit}


def motors_of(facts: Facts, axis: int) -> tuple[str, ...]:
    """The names of the motors that drive an axis."""
    return tuple(motor.name for motor in facts.circuit.motors if motor.axis == axis)


def driven_outward(facts: Facts, end: End) -> States:
    """The states at rest, reached in operation, with the axis at or past its end and still driven outward."""
    at_end = facts.spaces.where(facts.circuit.axes[end.axis].digit, (end.zone, end.past))
    return facts.reached_at_rest(facts.possible(at_end & driven(facts, end.axis, end.direction)) - facts.shorted)


def may_rest_driven_outward(facts: Facts, end: End) -> bool:
    """Is there any state at all at rest, reached or not, with the axis at or past its end and driven outward?

    Rest with the axis in one zone hangs on the contacts in that zone alone. So where there is none, a contact that is
    open in those zones could as well be missing: no such state would come of it.
    """
    axis = facts.circuit.axes[end.axis]
    at_end = facts.spaces.where(axis.digit, (end.zone, end.past)) & driven(facts, end.axis, end.direction)

    def ask(facts: Facts) -> bool:
        behaviour = facts.behaviour(at_end.space.digits)
        return bool(at_end.over(behaviour.space) & behaviour.rest & behaviour.proper)

    return not is_ruled_out(facts, at_end.space.digits, ask) and ask(facts)


def alone_changes_drive(facts: Facts, end: End, limit: Limit) -> bool:
    """Is it plain that a limit at an end has a say in the drive: the drive differs between the end and the zone before
    it, and no other limit switch changes there? (Where it is not plain, the limit may still have a say.)"""
    before = end.zone - end.direction
    changing = [
        one for one in facts.circuit.limits if one.axis == end.axis and (end.zone in one.zones) != (before in one.zones)
    ]
    if changing != [limit]:
        return False
    digit = facts.circuit.axes[end.axis].digit
    return any(
        not states.given(digit, end.zone).same_as(states.given(digit, before)) for states in drive_of(facts, end.axis)
    )


def drive_of(facts: Facts, axis: int) -> tuple[States, ...]:
    """All that decides how an axis is driven, and how fast: the volts on its motors' windings, their brakes, and what
    moves the relays that have a say in those."""
    own: list[States] = []
    for motor, does in zip(facts.circuit.motors, facts.motors, strict=True):
        if motor.axis == axis:
            own.append(does.braked)
            for winding in motor.windings:
                own += [states for fed in facts.volts[winding.load] for states in (fed.forward, fed.backward)]
    cone = facts.cone(digits_of(*own))
    for relay, moves in zip(facts.circuit.relays, facts.moves, strict=True):
        if relay.digit in cone:
            own += [move.wanted for move in moves]
    return tuple(own)


def trapped(facts: Facts, end: End) -> States:
    """The states at rest at or past an end from which no working of controls, supplies and outside contacts leads to a
    drive inward."""
    digit = facts.circuit.axes[end.axis].digit
    parked = nearby(facts, {digit}, lambda facts: _trapped(facts, end, standing_anyhow(facts, {digit})))
    if not facts.shorted and not all(parked):
        return facts.spaces.none()
    return _trapped(facts, end, facts.behaviour({digit}))


def _trapped(facts: Facts, end: End, behaviour: Behaviour) -> States:
    axis = facts.circuit.axes[end.axis]
    space = behaviour.space
    at_end = space.where(axis.digit, (end.zone, end.past))
    axis_steps = _steps_of(behaviour, axis)
    inward = joined(step.allowed for step in axis_steps if (step.end - step.start) * end.direction < 0)
    others = [step for step in behaviour.steps if step.digit != axis.digit]
    standing = behaviour.reached & behaviour.rest & behaviour.proper & at_end
    back = inward & at_end
    left = not_leading_to(space, others, standing, back, facts.close_to(axis.digit))
    return facts.spaces.over(space, left) - facts.shorted


def is_ever_brought_to(facts: Facts, end: End) -> bool:
    """Does some way of working the controls drive the axis from inside to this end?"""
    digit = facts.circuit.axes[end.axis].digit
    if is_ruled_out(facts, {digit}, lambda facts: _is_brought_to(facts, end)):
        return False
    return first_found(facts, {digit}, lambda facts: _is_brought_to(facts, end))


def _is_brought_to(facts: Facts, end: End) -> bool:
    axis = facts.circuit.axes[end.axis]
    behaviour = facts.behaviour({axis.digit})
    return any(
        step.end == end.zone and step.start == end.zone - end.direction and step.allowed & behaviour.reached
        for step in _steps_of(behaviour, axis)
    )


def back_and_forth(facts: Facts, axis: int) -> States:
    """The reached states in which an axis is driven one way and, with no control touched, comes to be driven the other
    way and back to the same state, again and again."""
    digits = digits_of_drive(facts, axis)
    if is_ruled_out(facts, digits, lambda facts: _back_and_forth(facts, axis, digits)):
        return facts.spaces.none()
    return _back_and_forth(facts, axis, digits)


def _back_and_forth(facts: Facts, axis: int, digits: frozenset[int]) -> States:
    digit = facts.circuit.axes[axis].digit
    behaviour = facts.behaviour(digits)
    space = behaviour.space
    free = [
        step for step in behaviour.steps if facts.circuit.digits[step.digit].kind in ("relay", "axis") and step.allowed
    ]
    # An axis of two zones turns from each to the other whichever way it goes, so motors tell the way, not zones.
    drives = [driven(facts, axis, direction) for direction in (1, -1)]
    ways = [drive.over(space) for drive in drives]
    rises = [step._replace(allowed=step.allowed & ways[0]) for step in free if step.digit == digit]
    going_round = _rising_again(space, free, rises, behaviour.reached)
    if not going_round:
        return facts.spaces.none()
    core = _recurring(behaviour, free, going_round)
    kept = [step._replace(allowed=step.allowed & core) for step in free]
    rising, falling = (
        [step._replace(allowed=step.allowed & way) for step in kept if step.digit == digit] for way in ways
    )
    found = joined(_returning(behaviour, kept, step, falling) for step in rising)
    return facts.spaces.over(space, found)


def _steps_of(behaviour: Behaviour, axis: Axis) -> list[Step]:
    return [step for step in behaviour.steps if step.digit == axis.digit]


def _rising_again(space: Space, steps: list[Step], rises: list[Step], reached: int) -> int:
    """The reached states that follow from rising steps and lead to others that follow from such, for ever: most axes
    have none, since no zone that they have left behind comes back."""
    onward = [step._replace(allowed=step.allowed & reached) for step in steps]
    after, before = reached, 0
    while after and after != before:
        before = after
        after = following(space, onward, joined(stepped(space, before, step) for step in rises))
    return after


def _recurring(behaviour: Behaviour, steps: list[Step], core: int) -> int:
    """Those of the states that have a way on and a way back within them for ever: every round trip lies inside."""
    before = 0
    while core != before:
        before = core
        onward, arrived = 0, 0
        for step in steps:
            moved = stepped(behaviour.space, core, step) & core
            arrived |= moved
            back = Step(step.digit, step.end, step.start, behaviour.space.full)
            onward |= stepped(behaviour.space, moved, back)
        core = onward & arrived
    return core


def _returning(behaviour: Behaviour, steps: list[Step], rise: Step, falling: list[Step]) -> int:
    """The states of a rising step from which a falling step follows and then the same state again.

    One position of all digits that move by themselves at a time, at every setting of the others at once: no step
    changes those, so whoever comes back to the position comes back to the state.
    """
    space = behaviour.space
    moving = sorted({step.digit for step in steps})
    left, found = rise.allowed, 0
    while left:
        values = space.values((left & -left).bit_length() - 1)
        here = rise.allowed
        for digit in moving:
            here &= space.where(digit, (values[digit],))
        left &= ~here
        after = following(space, steps, stepped(space, here, rise))
        turned = joined(stepped(space, after, step) for step in falling)
        found |= following(space, steps, turned) & here
    return found
