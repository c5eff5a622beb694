"""Where a circuit gets to from power-up, in every order in which things can happen.

A step moves one digit: a relay that wants to, a control that somebody works, an axis that its motor drives, a supply
that fails or returns. For all states at once a step is a mask and a shift, so reachability is a breadth-first search
whose frontier is one integer:

    begin      relays released, controls and supplies anyhow, axes anywhere in their range
    relays     one at a time, in every order, until none wants to move (or they never settle)
    at rest    a control moves, a supply fails or returns, a driven axis goes one zone, a timer runs out
    moments    a hand switch passes between its positions; only relays may move meanwhile
    shorted    not followed further

Where operate and release times are given, they leave fewer orders: then the same goes on over a space with a clock
besides (clocks.py), and what is told of states here holds at some reading of the clock.

Round n holds the states that take n steps, so a shortest story can be told from the rounds; they are worked out when
one is. Cost: passes x steps x the width of the space.
"""

from collections.abc import Iterator
from typing import Final, NamedTuple

from circuitcheck.analysis.course import Course, at_some_clock, follow, steps_in_time, steps_with_rest
from circuitcheck.analysis.devices import MotorStates, RelayMove
from circuitcheck.analysis.move_times import ANY_MOVE_TIMES, MoveTimes
from circuitcheck.analysis.resting import Step, resting_states
from circuitcheck.analysis.rounds import Rounds
from circuitcheck.analysis.states import Space, States
from circuitcheck.analysis.time_left import Range
from circuitcheck.circuit.model import Axis, Circuit, Digit


class Behaviour(NamedTuple):
    """What the digits of one space do together.

    rounds: the states first reached after 0, 1, 2 … steps; reached: all of them. rest: where things stand still until
    somebody or a motor moves something (no relay wants to move but timers), or relays go on for ever. settled: no relay
    wants to move at all. proper: no hand switch is between its positions. All are bits over `space`. course: the same
    in full, where it makes a difference how long relays have been waiting.
    """

    space: Space
    steps: tuple[Step, ...]
    rounds: Rounds
    reached: int
    rest: int
    settled: int
    proper: int
    course: Course


class Further(NamedTuple):
    """Steps of one question alone, over the plain space: at any moment, and at rest."""

    anytime: tuple[Step, ...] = ()
    at_rest: tuple[Step, ...] = ()


NONE_FURTHER: Final = Further()


def behave(
    circuit: Circuit,
    space: Space,
    moves: list[RelayMove],
    times: dict[int, MoveTimes],
    motors: list[tuple[int, MotorStates]],
    shorted: States,
    beginning: int | None = None,
    further: Further = NONE_FURTHER,
) -> Behaviour:
    """The behaviour of a space's digits. `moves`: of its relays; `times`: of those relays that have any; `motors`: by
    number, those that drive its axes. beginning: where it begins (bits over the space), None for power-up. further:
    what else may happen."""
    moving = _moving(circuit, space, moves, times, motors, shorted)
    moving.anytime.extend(further.anytime)
    moving.at_rest.extend(further.at_rest)
    beginning = _beginning(circuit, space) if beginning is None else beginning
    steps = steps_in_time(space, moving.quick, moving.ranges, moving.anytime, moving.at_rest, beginning, moving.stopped)
    settled = space.full ^ moving.stopped
    for step in moving.quick + moving.timed:
        settled &= ~step.allowed
    course = follow(steps, beginning)
    if steps.space is space:
        return Behaviour(
            space, tuple(steps.all), course.rounds, course.reached, steps.rest, settled, moving.proper, course
        )
    return _without_clock(space, course, resting_states(space, moving.quick, moving.stopped), settled, moving.proper)


def behave_loosely(
    circuit: Circuit,
    space: Space,
    moves: list[RelayMove],
    motors: list[tuple[int, MotorStates]],
    shorted: States,
    rest: int,
    beginning: int | None = None,
) -> Behaviour:
    """The same where relays come to rest in other states than in those where none of the moves is wanted."""
    moving = _moving(circuit, space, moves, {}, motors, shorted)
    stopped = moving.stopped
    steps = steps_with_rest(space, moving.quick, moving.anytime, moving.at_rest, rest | stopped, stopped)
    course = follow(steps, _beginning(circuit, space) if beginning is None else beginning)
    return Behaviour(space, tuple(steps.all), course.rounds, course.reached, steps.rest, rest, moving.proper, course)


class _Moving(NamedTuple):
    """All that can move. quick: relays, with the times that they take; timed: those whose move takes long; anytime,
    at_rest: what moves when relays do, or only once they rest. proper, stopped: as in a Behaviour, and shorted."""

    quick: list[Step]
    ranges: list[Range]
    timed: list[Step]
    anytime: list[Step]
    at_rest: list[Step]
    proper: int
    stopped: int


def _moving(
    circuit: Circuit,
    space: Space,
    moves: list[RelayMove],
    times: dict[int, MoveTimes],
    motors: list[tuple[int, MotorStates]],
    shorted: States,
) -> _Moving:
    stopped = shorted.over(space)
    alive = space.full ^ stopped
    proper = space.full
    for digit in space.digits:
        if circuit.digits[digit].moments:
            proper &= space.where(digit, range(len(circuit.digits[digit].values)))
    quick, ranges, timed = relay_steps(circuit, space, moves, times, alive)
    calm = alive & proper
    at_rest = [step._replace(allowed=step.allowed & calm) for step in timed]
    at_rest += hand_steps(circuit, space, calm, False)
    at_rest += axes_steps(circuit, space, motors, calm)
    return _Moving(quick, ranges, timed, list(hand_steps(circuit, space, alive, True)), at_rest, proper, stopped)


def _without_clock(space: Space, course: Course, usual_rest: int, settled: int, proper: int) -> Behaviour:
    """What holds at some reading of the clock. Where operation doesn't get, rest is what it is without times."""
    steps, rounds = course.steps, Rounds(at_some_clock(space, one) for one in course.rounds)
    plain = (step._replace(allowed=at_some_clock(space, step.allowed & course.reached), clock=0) for step in steps.all)
    reached = at_some_clock(space, course.reached)
    rest = usual_rest & ~reached | at_some_clock(space, course.reached & steps.rest)
    return Behaviour(space, tuple(plain), rounds, reached, rest, settled, proper, course)


def relay_steps(
    circuit: Circuit, space: Space, moves: list[RelayMove], times: dict[int, MoveTimes], alive: int
) -> tuple[list[Step], list[Range], list[Step]]:
    """Relays' steps that take milliseconds, with how long each takes, and those that take a timer's time."""
    quick: list[Step] = []
    ranges: list[Range] = []
    timed: list[Step] = []
    for move in moves:
        step = Step(circuit.relays[move.relay].digit, move.start, move.end, move.wanted.over(space) & alive)
        (timed if move.timed else quick).append(step)
        if not move.timed:
            known = times.get(move.relay, ANY_MOVE_TIMES)
            ranges.append(known.operate if move.end == 1 else known.release)
    return quick, ranges, timed


def _beginning(circuit: Circuit, space: Space) -> int:
    """All relays released but latching ones, which remember; all else anyhow, axes within their range."""
    states = space.full
    latching = {relay.digit for relay in circuit.relays if relay.function == "latching"}
    ranges = {axis.digit: axis.range for axis in circuit.axes}
    for number in space.digits:
        digit = circuit.digits[number]
        values = range(len(digit.values))
        if digit.kind == "relay" and number not in latching:
            values = range(1)
        if number in ranges:
            values = range(ranges[number][0], ranges[number][1] + 1)
        if len(values) < digit.radix:
            states &= space.where(number, values)
    return states


def hand_steps(circuit: Circuit, space: Space, alive: int, from_between: bool) -> Iterator[Step]:
    """The steps of controls, supplies and outside contacts that begin between two positions, or else at one."""
    for number in space.digits:
        digit = circuit.digits[number]
        if digit.kind in ("control", "outside", "supply"):
            for start, end in sorted(_ways(digit)):
                if (start >= len(digit.values)) == from_between:
                    yield Step(number, start, end, alive & space.where(number, (start,)))


def _ways(digit: Digit) -> set[tuple[int, int]]:
    """Every position to every other, by way of the moment between them where there is one."""
    positions = range(len(digit.values))
    direct = {(start, end) for start in positions for end in positions if start != end}
    ways: set[tuple[int, int]] = set()
    for place, moment in enumerate(digit.moments, len(digit.values)):
        direct -= moment.moves
        ways |= {(start, place) for start, _ in moment.moves} | {(place, end) for _, end in moment.moves}
    return direct | ways


def axes_steps(circuit: Circuit, space: Space, motors: list[tuple[int, MotorStates]], alive: int) -> Iterator[Step]:
    """The steps of axes to where these motors drive them."""
    for number, states in motors:
        motor = circuit.motors[number]
        if motor.axis is not None:
            yield from _axis_steps(space, circuit.axes[motor.axis], states, motor.upward, alive)


def _axis_steps(space: Space, axis: Axis, motor: MotorStates, upward: bool, alive: int) -> Iterator[Step]:
    """One zone at a time toward where the motor drives; a linear axis ends in its zones of overtravel."""
    rising, falling = (motor.forward, motor.reverse) if upward else (motor.reverse, motor.forward)
    zones = space.radices[space.index(axis.digit)]
    for states, direction in ((rising, 1), (falling, -1)):
        allowed = states.over(space) & alive
        for zone in range(zones):
            onward = zone + direction
            if axis.turning:
                onward %= zones
            if 0 <= onward < zones and onward != zone:
                yield Step(axis.digit, zone, onward, allowed & space.where(axis.digit, (zone,)))
