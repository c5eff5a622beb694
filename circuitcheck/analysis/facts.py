"""All that is known of a circuit: the one value that checks and reports read.

`analyse` is the whole of this folder, a line a file. Behaviour is worked out when first asked for, cluster by cluster.
"""

from typing import NamedTuple

from circuitcheck.analysis.behaviour import Behaviour, behave
from circuitcheck.analysis.clusters import cluster_digits, digits_of
from circuitcheck.analysis.conduction import Conduction
from circuitcheck.analysis.devices import (
    LampStates,
    MotorStates,
    RelayMove,
    all_relay_moves,
    lamp_states,
    motor_states,
)
from circuitcheck.analysis.feeding import Fed, Feeding, feed_loads
from circuitcheck.analysis.network import build_network
from circuitcheck.analysis.operating_point import volts_where_open
from circuitcheck.analysis.rails import Difference, Short, differences, shorts
from circuitcheck.analysis.states import Spaces, States, union
from circuitcheck.circuit.model import Circuit


class Facts:
    """What holds of `circuit` in which states. Every set covers all states; nothing is sampled.

    shorts: each way to short-circuit a supply; shorted: their union. feeding: each load by conduction alone, in the
    order of Circuit.loads; volts: each load with what conduction left open solved. motors, relay_moves: in the
    circuit's order; lamps: by the index of their load.
    """

    def __init__(
        self,
        circuit: Circuit,
        conduction: Conduction,
        differences_of_rails: tuple[Difference, ...],
        shorts_found: tuple[Short, ...],
        feeding: tuple[Feeding, ...],
        volts: tuple[tuple[Fed, ...], ...],
    ) -> None:
        self.circuit = circuit
        self.conduction = conduction
        self.spaces: Spaces = conduction.spaces
        self.differences = differences_of_rails
        self.shorts = shorts_found
        self.shorted: States = union((short.states for short in shorts_found), self.spaces.none()).tight()
        self.feeding = feeding
        self.volts = volts
        self.motors: tuple[MotorStates, ...] = tuple(motor_states(one, volts, conduction) for one in circuit.motors)
        self.relay_moves: tuple[RelayMove, ...] = all_relay_moves(circuit, volts, self.spaces)
        self.lamps: dict[int, LampStates] = {
            number: lamp_states(volts[number], load.volts, self.spaces)
            for number, load in enumerate(circuit.loads)
            if load.kind in ("lamp", "buzzer", "solenoid")
        }
        self.clusters = cluster_digits(circuit, self._coupled())
        self._behaviours: dict[frozenset[int], Behaviour] = {}

    def behaviour(self, digits: set[int]) -> Behaviour:
        """How these digits behave, with all that hangs together with them and every supply that feeds it."""
        members = frozenset(number for number, cluster in enumerate(self.clusters) if cluster & digits)
        if members not in self._behaviours:
            self._behaviours[members] = self._behave(members)
        return self._behaviours[members]

    def reached(self, states: States) -> States:
        """Those of the states that operation gets to from power-up, on the way between two rests included."""
        behaviour = self.behaviour(set(states.space.digits))
        return self._within(behaviour, states, behaviour.reached & behaviour.proper)

    def reached_at_rest(self, states: States) -> States:
        """Those of the states in which operation comes to rest: they last until a hand or a motor moves something."""
        behaviour = self.behaviour(set(states.space.digits))
        return self._within(behaviour, states, behaviour.reached & behaviour.proper & behaviour.rest)

    def possible(self, states: States) -> States:
        """Those of the states in which every switch is at a position, not between two."""
        for digit in states.space.digits:
            states = states & self.spaces.where(digit, range(len(self.circuit.digits[digit].values)))
        return states

    def _within(self, behaviour: Behaviour, states: States, bits: int) -> States:
        space = behaviour.space
        if set(states.space.digits) <= set(space.digits):
            return self.spaces.over(space, states.over(space) & bits)
        return states & self.spaces.over(space, bits)

    def _behave(self, members: frozenset[int]) -> Behaviour:
        digits = {digit for number in members for digit in self.clusters[number]}
        moves = [move for move in self.relay_moves if self.circuit.relays[move.relay].digit in digits]
        motors = [
            (number, states)
            for number, states in enumerate(self.motors)
            if (axis := self.circuit.motors[number].axis) is not None and self.circuit.axes[axis].digit in digits
        ]
        space = self.spaces.of(digits | {supply.digit for supply in self.circuit.supplies})
        shorted = self.shorted if set(self.shorted.space.digits) <= set(space.digits) else self.spaces.none()
        return behave(self.circuit, space, moves, motors, shorted)

    def _coupled(self) -> list[set[int]]:
        """Groups of digits of which one's steps depend on the others."""
        groups: dict[int, set[int]] = {}
        for move in self.relay_moves:
            groups.setdefault(self.circuit.relays[move.relay].digit, set()).update(digits_of(move.wanted))
        for motor, states in zip(self.circuit.motors, self.motors, strict=True):
            if motor.axis is not None:
                digit = self.circuit.axes[motor.axis].digit
                groups.setdefault(digit, {digit}).update(digits_of(states.forward, states.reverse))
        return [*groups.values(), digits_of(self.shorted)]


def analyse(circuit: Circuit) -> Facts:
    """Everything that holds of a circuit. TooWide or TooManyCases where an exact answer needs too much at once."""
    spaces = Spaces(tuple(digit.radix for digit in circuit.digits))
    conduction = Conduction(build_network(circuit, spaces), spaces)
    between_rails = differences(circuit, conduction)
    found = shorts(circuit, conduction)
    shorted = union((short.states for short in found), spaces.none()).tight()
    feeding = feed_loads(circuit, conduction, between_rails, shorted)
    volts = tuple(
        _all_volts(one, volts_where_open(circuit, conduction, number, one.open) if one.open else ())
        for number, one in enumerate(feeding)
    )
    return Facts(circuit, conduction, between_rails, found, feeding, volts)


def _all_volts(feeding: Feeding, solved: tuple[Fed, ...]) -> tuple[Fed, ...]:
    return tuple(sorted(feeding.fed + solved, key=lambda fed: -fed.volts))


class Counts(NamedTuple):
    """How many states there are in all, how many operation reaches, how many are settled, supplies on or off."""

    combinations: int
    reachable: int
    settled: int


def count_states(facts: Facts) -> Counts:
    """Counts over all digits at once, without laying them out: clusters are independent once supplies are given."""
    circuit = facts.circuit
    combinations = 1
    for digit in circuit.digits:
        combinations *= len(digit.values)
    supplies = [supply.digit for supply in circuit.supplies]
    behaviours = [facts.behaviour(set(cluster)) for cluster in facts.clusters]
    reachable = settled = 0
    for number in range(2 ** len(supplies)):
        given = {digit: number >> place & 1 for place, digit in enumerate(supplies)}
        every, still = 1, 1
        for behaviour in behaviours:
            here = behaviour.reached & behaviour.proper
            for supply_digit, value in given.items():
                here &= behaviour.space.where(supply_digit, (value,))
            every *= here.bit_count()
            still *= (here & behaviour.settled).bit_count()
        reachable += every
        settled += still
    return Counts(combinations, reachable, settled)
