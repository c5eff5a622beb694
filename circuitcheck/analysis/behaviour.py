"""Where a circuit gets to from power-up, in every order in which things can happen.

A step moves one digit: a relay that wants to, a control that somebody works, an axis that its motor drives, a supply
that fails or returns. For all states at once a step is a mask and a shift, so reachability is a breadth-first search
whose frontier is one integer:

    begin      relays released, controls and supplies anyhow, axes anywhere in their range
    relays     one at a time, in every order, until none wants to move (or they never settle)
    at rest    a control moves, a supply fails or returns, a driven axis goes one zone, a timer runs out
    moments    a hand switch passes between its positions; only relays may move meanwhile
    shorted    not followed further

The rounds are kept: round n holds the states that take n steps, so a shortest story can be told from them.
Cost: rounds x steps x the width of the space.
"""

from collections.abc import Iterator
from typing import NamedTuple

from circuitcheck.analysis.devices import MotorStates, RelayMove
from circuitcheck.analysis.resting import Step, resting_states, stepped
from circuitcheck.analysis.states import Space, States
from circuitcheck.circuit.model import Axis, Circuit, Digit


class Behaviour(NamedTuple):
    """What the digits of one space do together.

    rounds: the states first reached after 0, 1, 2 … steps; reached: all of them. rest: where things stand still until
    somebody or a motor moves something (no relay wants to move but timers), or relays go on for ever. settled: no relay
    wants to move at all. proper: no hand switch is between its positions. All are bits over `space`.
    """

    space: Space
    steps: tuple[Step, ...]
    rounds: tuple[int, ...]
    reached: int
    rest: int
    settled: int
    proper: int

    def predecessor(self, state: int, round_number: int) -> tuple[int, Step]:
        """A state of the round before from which one step leads here. LookupError for a state of another round."""
        before = self.rounds[round_number - 1]
        for step in self.steps:
            stride = self.space.strides[self.space.index(step.digit)]
            if state // stride % self.space.radices[self.space.index(step.digit)] == step.end:
                origin = state + (step.start - step.end) * stride
                if before >> origin & 1 and step.allowed >> origin & 1:
                    return origin, step
        raise LookupError("no step leads here from the round before")


def behave(
    circuit: Circuit, space: Space, moves: list[RelayMove], motors: list[tuple[int, MotorStates]], shorted: States
) -> Behaviour:
    """The behaviour of a space's digits. `moves`: of its relays; `motors`: by number, those that drive its axes."""
    alive = space.full ^ shorted.over(space)
    proper = space.full
    for digit in space.digits:
        proper &= space.where(digit, range(len(circuit.digits[digit].values)))
    fast = [_relay_step(circuit, space, move, alive) for move in moves if not move.timed]
    timed = [_relay_step(circuit, space, move, alive) for move in moves if move.timed]
    rest = resting_states(space, fast, space.full ^ alive)
    calm = rest & proper & alive
    steps = fast + [step._replace(allowed=step.allowed & calm) for step in timed]
    for digit in space.digits:
        steps += _control_steps(space, digit, circuit.digits[digit], calm, alive)
    for number, states in motors:
        motor = circuit.motors[number]
        if motor.axis is not None:
            steps += _axis_steps(space, circuit.axes[motor.axis], states, motor.upward, calm)
    steps = [step for step in steps if step.allowed]
    rounds = tuple(_search(space, steps, _beginning(circuit, space)))
    reached = 0
    for states_of_round in rounds:
        reached |= states_of_round
    settled = rest & alive
    for step in fast + timed:
        settled &= ~step.allowed
    return Behaviour(space, tuple(steps), rounds, reached, rest, settled, proper)


def _search(space: Space, steps: list[Step], beginning: int) -> Iterator[int]:
    reached, frontier = beginning, beginning
    while frontier:
        yield frontier
        found = 0
        for step in steps:
            found |= stepped(space, frontier, step)
        frontier = found & ~reached
        reached |= found


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
        states &= space.where(number, values)
    return states


def _relay_step(circuit: Circuit, space: Space, move: RelayMove, alive: int) -> Step:
    return Step(circuit.relays[move.relay].digit, move.start, move.end, move.wanted.over(space) & alive)


def _control_steps(space: Space, number: int, digit: Digit, calm: int, alive: int) -> Iterator[Step]:
    """Every position to every other, by way of the moment between them where there is one."""
    if digit.kind not in ("control", "outside", "supply"):
        return
    by_way: set[tuple[int, int]] = set()
    for place, moment in enumerate(digit.moments, len(digit.values)):
        by_way |= moment.moves
        for start in sorted({start for start, _ in moment.moves}):
            yield Step(number, start, place, calm & space.where(number, (start,)))
        for end in sorted({end for _, end in moment.moves}):
            yield Step(number, place, end, alive & space.where(number, (place,)))
    for start in range(len(digit.values)):
        for end in range(len(digit.values)):
            if start != end and (start, end) not in by_way:
                yield Step(number, start, end, calm & space.where(number, (start,)))


def _axis_steps(space: Space, axis: Axis, motor: MotorStates, upward: bool, calm: int) -> Iterator[Step]:
    """One zone at a time toward where the motor drives; a linear axis ends in its zones of overtravel."""
    rising, falling = (motor.forward, motor.reverse) if upward else (motor.reverse, motor.forward)
    zones = space.radices[space.index(axis.digit)]
    for states, direction in ((rising, 1), (falling, -1)):
        allowed = states.over(space) & calm
        for zone in range(zones):
            onward = zone + direction
            if axis.turning:
                onward %= zones
            if 0 <= onward < zones and onward != zone:
                yield Step(axis.digit, zone, onward, allowed & space.where(axis.digit, (zone,)))
