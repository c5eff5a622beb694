"""All that is known of a circuit: the one value that checks and reports read.

`analyse` is the whole of this folder, a line a file. Behaviour is worked out when first asked for, for as few digits as
the question needs.
"""

from collections.abc import Iterable
from functools import cached_property
from math import prod
from typing import Final, NamedTuple

from circuitcheck.analysis.behaviour import Behaviour, behave
from circuitcheck.analysis.conduction import Conduction
from circuitcheck.analysis.devices import (
    LampStates,
    MotorStates,
    RelayMove,
    lamp_states,
    motor_states,
    relay_moves,
)
from circuitcheck.analysis.feeding import Fed, Feeding, feed_load
from circuitcheck.analysis.held_buses import find_held_buses
from circuitcheck.analysis.influence import cone_of_influence, digits_of
from circuitcheck.analysis.move_times import move_times
from circuitcheck.analysis.network import Network, build_network
from circuitcheck.analysis.on_demand import OnDemand
from circuitcheck.analysis.operating_point import volts_where_open
from circuitcheck.analysis.poles_apart import PolesApart, with_poles_apart
from circuitcheck.analysis.rails import differences, shorts
from circuitcheck.analysis.regions import find_regions
from circuitcheck.analysis.states import Spaces, States, TooWide, union
from circuitcheck.circuit.model import Circuit

NARROW: Final = 1 << 12
"""Pieces with at most this many combinations are left whole; wider ones are cut at their buses."""


class Facts:
    """What holds of `circuit` in which states. Every set covers all states; nothing is sampled.

    shorts: each way to short-circuit a supply; shorted: their union. Worked out when asked for, in the order of the
    circuit's loads, motors and relays: feeding (by conduction alone), volts (what conduction left open solved as well),
    motors, moves (of each relay). lamps: by the index of their load.
    """

    def __init__(self, circuit: Circuit, conduction: Conduction) -> None:
        self.circuit = circuit
        self.conduction = conduction
        self.spaces: Spaces = conduction.spaces
        self.differences = differences(circuit, conduction)
        self.shorts = shorts(circuit, conduction)
        self.shorted: States = union((short.states for short in self.shorts), self.spaces.none()).tight()
        buses = find_held_buses(circuit, conduction, self.differences)
        self.regions = find_regions(circuit, conduction.network, buses)
        self.feeding: OnDemand[Feeding] = OnDemand(
            len(circuit.loads),
            lambda number: feed_load(circuit, number, conduction, self.differences, self.shorted, self.regions),
        )
        self.volts: OnDemand[tuple[Fed, ...]] = OnDemand(len(circuit.loads), self._volts)
        self.motors: OnDemand[MotorStates] = OnDemand(
            len(circuit.motors), lambda number: motor_states(circuit.motors[number], self.volts, conduction)
        )
        self.moves: OnDemand[tuple[RelayMove, ...]] = OnDemand(
            len(circuit.relays), lambda number: relay_moves(number, circuit.relays[number], self.volts, self.spaces)
        )
        self.times = move_times(circuit)
        self._motors_of: dict[int, list[int]] = {}
        for number, motor in enumerate(circuit.motors):
            if motor.axis is not None:
                self._motors_of.setdefault(circuit.axes[motor.axis].digit, []).append(number)
        self._relay_of = {relay.digit: number for number, relay in enumerate(circuit.relays)}
        self._cones: dict[frozenset[int], frozenset[int]] = {}
        self._behaviours: dict[frozenset[int], Behaviour] = {}

    @cached_property
    def with_poles_apart(self) -> "tuple[PolesApart, Facts]":
        """The circuit in which every relay pole stands for itself, and its facts: worked out once for all who ask."""
        apart = with_poles_apart(self.circuit)
        return apart, self.of_other(apart.circuit)

    def of_other(self, circuit: Circuit) -> "Facts":
        """The facts of a circuit that is asked about beside this one, worked out by the same engine."""
        return analyse(circuit, self.spaces.alike(tuple(digit.radix for digit in circuit.digits)))

    @cached_property
    def relay_moves(self) -> tuple[RelayMove, ...]:
        """The moves of all relays."""
        return tuple(move for moves in self.moves for move in moves)

    @cached_property
    def lamps(self) -> dict[int, LampStates]:
        """What each lamp, buzzer and solenoid does, by the index of its load."""
        return {
            number: lamp_states(self.volts[number], load.volts, self.spaces)
            for number, load in enumerate(self.circuit.loads)
            if load.kind in ("lamp", "buzzer", "solenoid")
        }

    def behaviour(self, digits: Iterable[int]) -> Behaviour:
        """How these digits behave, with every digit that has a say in them, and the supplies."""
        supplies = (supply.digit for supply in self.circuit.supplies)
        asked = frozenset((*digits, *supplies))
        if asked not in self._cones:
            self._cones[asked] = cone_of_influence(asked, self.depends_on)
        cone = self._cones[asked]
        if cone not in self._behaviours:
            self._behaviours[cone] = self._behave(cone)
        return self._behaviours[cone]

    def close_to(self, digit: int) -> frozenset[int]:
        """The digits that have a say in a digit's steps, those that have one in theirs, and all relays, which stand
        still for nobody's sake."""
        beside = self.depends_on(digit)
        return frozenset((digit, *self._relay_of)).union(beside, *map(self.depends_on, beside))

    def stuck(self, relay: int, value: int, digits: Iterable[int]) -> Behaviour:
        """How these digits behave once a relay (by number) that has come to `value` in operation never leaves it."""
        digit = self.circuit.relays[relay].digit
        sound = self.behaviour((*digits, digit))
        beginning = sound.reached & sound.space.where(digit, (value,))
        return self._behave(frozenset(sound.space.digits), frozenset({digit}), beginning)

    def reached(self, states: States) -> States:
        """Those of the states that operation gets to from power-up, on the way between two rests included."""
        behaviour = self.behaviour(states.space.digits)
        return self._within(behaviour, states, behaviour.reached & behaviour.proper)

    def reached_at_rest(self, states: States) -> States:
        """Those of the states in which operation comes to rest: they last until a hand or a motor moves something."""
        behaviour = self.behaviour(states.space.digits)
        return self._within(behaviour, states, behaviour.reached & behaviour.proper & behaviour.rest)

    def possible(self, states: States) -> States:
        """Those of the states in which every switch is at a position, not between two."""
        for number in states.space.digits:
            digit = self.circuit.digits[number]
            if digit.moments:
                states = states & self.spaces.where(number, range(len(digit.values)))
        return states

    def _within(self, behaviour: Behaviour, states: States, bits: int) -> States:
        return self.spaces.over(behaviour.space, states.over(behaviour.space) & bits)

    def _volts(self, number: int) -> tuple[Fed, ...]:
        feeding = self.feeding[number]
        solved = volts_where_open(self.circuit, self.conduction, number, feeding.open) if feeding.open else ()
        return tuple(sorted(feeding.fed + solved, key=lambda fed: -fed.volts))

    def _behave(
        self, cone: frozenset[int], held: frozenset[int] = frozenset(), beginning: int | None = None
    ) -> Behaviour:
        relays = [self._relay_of[digit] for digit in sorted(cone - held) if digit in self._relay_of]
        moves = [move for relay in relays for move in self.moves[relay]]
        motors = [number for digit in sorted(cone) for number in self._motors_of.get(digit, ())]
        shorted = (short.states for short in self.shorts if digits_of(short.states) <= cone)
        space = self.spaces.of(cone)
        driven = [(number, self.motors[number]) for number in motors]
        return behave(self.circuit, space, moves, self.times, driven, union(shorted, self.spaces.none()), beginning)

    def depends_on(self, digit: int) -> frozenset[int]:
        """The digits that have a say in this digit's next step."""
        if digit in self._relay_of:
            return digits_of(*(move.wanted for move in self.moves[self._relay_of[digit]]))
        motors = (self.motors[number] for number in self._motors_of.get(digit, ()))
        return digits_of(*(states for motor in motors for states in (motor.forward, motor.reverse)))


def analyse(circuit: Circuit, spaces: Spaces | None = None) -> Facts:
    """Everything that holds of a circuit. TooWide or TooManyCases, here or when a fact is asked for, where an exact
    answer needs too much at once. spaces: of other circuits with the same digits, to go on using what they know."""
    spaces = spaces or Spaces(tuple(digit.radix for digit in circuit.digits))
    return Facts(circuit, conduction_of(circuit, spaces))


def conduction_of(circuit: Circuit, spaces: Spaces) -> Conduction:
    """From where to where its conductors lead, cut at the rails and, where it is wide, at its buses."""
    return Conduction(_cut_where_wide(build_network(circuit, spaces), spaces), spaces)


def _cut_where_wide(network: Network, spaces: Spaces) -> Network:
    if all(prod(spaces.radices[digit] for digit in piece.digits) <= NARROW for piece in network.pieces):
        return network
    from circuitcheck.analysis.buses import cut_at_buses

    return cut_at_buses(network, spaces, NARROW)


class Counts(NamedTuple):
    """How many states there are in all, how many operation reaches, and how many of those are settled.

    reachable and settled are None where all digits together are too many to count them; every finding and every proof
    is exact all the same, each over the digits that it depends on. engine: what the sets were kept as.
    """

    combinations: int
    reachable: int | None
    settled: int | None
    engine: str


def count_states(facts: Facts) -> Counts:
    """Counts over all digits of the circuit at once."""
    combinations = 1
    for digit in facts.circuit.digits:
        combinations *= len(digit.values)
    try:
        behaviour = facts.behaviour(range(len(facts.circuit.digits)))
    except TooWide:
        # What checks ask is narrower, and mostly needs none of this.
        facts.spaces.begin_counting()
        return Counts(combinations, None, None, facts.spaces.engine)
    reached = behaviour.reached & behaviour.proper
    settled = reached & behaviour.settled
    return Counts(combinations, reached.bit_count(), settled.bit_count(), facts.spaces.engine)
