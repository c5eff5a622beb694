"""All that is known of a circuit: the one value that checks and reports read.

`analyse` is the whole of this folder, a line a file. Behaviour is worked out when first asked for, for as few digits as
the question needs.
"""

from collections.abc import Iterable
from copy import copy
from functools import cached_property
from math import prod
from typing import TYPE_CHECKING, Final

from circuitcheck.analysis.behaviour import NONE_FURTHER, Behaviour, Further, behave
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
from circuitcheck.analysis.influence import digits_of, has_more_states
from circuitcheck.analysis.likeness import Likeness, find_likeness
from circuitcheck.analysis.move_times import move_times
from circuitcheck.analysis.network import Network, build_network
from circuitcheck.analysis.on_demand import OnDemand
from circuitcheck.analysis.operating_point import volts_where_open
from circuitcheck.analysis.poles_apart import PolesApart, with_poles_apart
from circuitcheck.analysis.rails import differences, shorts
from circuitcheck.analysis.regions import find_regions
from circuitcheck.analysis.scopes import WHOLE, Scope
from circuitcheck.analysis.states import WIDEST, Spaces, States, union
from circuitcheck.circuit.model import Circuit

if TYPE_CHECKING:
    from collections.abc import Callable

    from circuitcheck.analysis.parking import Parking

NARROW: Final = 1 << 12
"""Pieces with at most this many combinations are left whole; wider ones are cut at their buses."""


FOLLOWED: Final = WIDEST
"""States up to which all that has a say in a question is followed together; beyond, first what is near (vicinity.py).
"""


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
        self._scope = WHOLE
        self._cones: dict[frozenset[int], frozenset[int]] = {}
        self._behaviours: dict[frozenset[int], Behaviour] = {}
        self._wide: dict[frozenset[int], bool] = {}
        self._says: dict[int, frozenset[int]] = {}

    @cached_property
    def with_poles_apart(self) -> "tuple[PolesApart, Facts]":
        """The circuit in which every relay pole stands for itself, and its facts: worked out once for all who ask."""
        apart = with_poles_apart(self.circuit)
        return apart, self.of_other(apart.circuit)

    def of_other(self, circuit: Circuit) -> "Facts":
        """The facts of a circuit that is asked about beside this one, worked out by the same engine."""
        return analyse(circuit, self.spaces.alike(tuple(digit.radix for digit in circuit.digits)))

    @cached_property
    def likeness(self) -> Likeness:
        """Which of the circuit's modules are the same but for their names."""
        return find_likeness(self.circuit, self.conduction.network)

    @cached_property
    def conductors_of(self) -> dict[str, list[int]]:
        """The conductors of each part, by their index."""
        found: dict[str, list[int]] = {}
        for number, conductor in enumerate(self.circuit.conductors):
            found.setdefault(conductor.part, []).append(number)
        return found

    @cached_property
    def relay_moves(self) -> tuple[RelayMove, ...]:
        """The moves of all relays."""
        return tuple(move for moves in self.moves for move in moves)

    @cached_property
    def lamps(self) -> dict[int, LampStates]:
        """What each lamp, buzzer and solenoid does, by the index of its load."""
        return {
            number: LampStates(*map(self._scope.seen, lamp_states(self.volts[number], load.volts, self.spaces)))
            for number, load in enumerate(self.circuit.loads)
            if load.kind in ("lamp", "buzzer", "solenoid")
        }

    @cached_property
    def loosened(self) -> "Facts | None":
        """The same with all that is far from a question left free; None where that would tell nothing."""
        from circuitcheck.analysis.calming import surely_calm
        from circuitcheck.analysis.loosened import loosened

        tells = self.sound.loosened is not None if self.sound else self._scope is WHOLE
        return loosened(self) if tells and surely_calm(self) else None

    @cached_property
    def parkings(self) -> "dict[int, tuple[Parking, ...]]":
        """How each relay can be parked, by its digit."""
        from circuitcheck.analysis.parking import ways_to_park

        return {relay.digit: tuple(ways_to_park(self, number)) for number, relay in enumerate(self.circuit.relays)}

    @property
    def still(self) -> dict[int, int]:
        """The digits that stand still, with their values."""
        return self._scope.still

    @property
    def sound(self) -> "Facts | None":
        """The box in whose operation this one comes about; None where it begins at power-up."""
        return self._scope.sound

    def behaviour(self, digits: Iterable[int]) -> Behaviour:
        """How these digits behave, with every digit that has a say in them, and the supplies."""
        cone = self.cone(digits)
        if cone not in self._behaviours:
            self._behaviours[cone] = self._scope.behave(self, cone)
        return self._behaviours[cone]

    def cone(self, digits: Iterable[int]) -> frozenset[int]:
        """These digits with every digit that has a say in them, and the supplies."""
        supplies = (supply.digit for supply in self.circuit.supplies)
        asked = frozenset((*digits, *supplies))
        if asked not in self._cones:
            self._cones[asked] = self._scope.cone(self, asked)
        return self._cones[asked]

    def seen(self, states: States) -> States:
        """A set as it is with what stands still."""
        return self._scope.seen(states)

    def is_wide(self, digits: Iterable[int]) -> bool:
        """Has more a say in these digits than is followed together at once?"""
        asked = frozenset(digits)
        if asked not in self._wide:
            self._wide[asked] = has_more_states(asked, self.depends_on, self.spaces.radices, FOLLOWED)
        return self._wide[asked]

    def in_scope(self, scope: Scope) -> "Facts":
        """The same circuit as far as a scope looks at it."""
        other = copy(self)
        other._scope, other._cones, other._behaviours = scope, {}, {}
        other._wide, other._says = {}, {}
        for worked_out in ("relay_moves", "lamps", "loosened", "parkings"):
            other.__dict__.pop(worked_out, None)
        seen = scope.seen
        other.shorts = tuple(one._replace(states=seen(one.states)) for one in self.shorts)
        other.shorted = seen(self.shorted)
        other.motors = OnDemand(len(self.motors), lambda number: self.motors[number].seen(seen))
        other.moves = OnDemand(
            len(self.moves),
            lambda number: tuple(move._replace(wanted=seen(move.wanted)) for move in self.moves[number]),
        )
        return other

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
        return self.behave(frozenset(sound.space.digits), frozenset({digit}), beginning)

    def reached(self, states: States) -> States:
        """Those of the states that operation gets to from power-up, on the way between two rests included."""
        if self._is_ruled_out(states, lambda facts: facts.reached(states)):
            return self.spaces.none()
        behaviour = self.behaviour(states.space.digits)
        return self._within(behaviour, states, behaviour.reached & behaviour.proper)

    def reached_at_rest(self, states: States) -> States:
        """Those of the states in which operation comes to rest: they last until a hand or a motor moves something."""
        if self._is_ruled_out(states, lambda facts: facts.reached_at_rest(states)):
            return self.spaces.none()
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

    def _is_ruled_out(self, states: States, ask: "Callable[[Facts], object]") -> bool:
        from circuitcheck.analysis.vicinity import is_ruled_out

        return is_ruled_out(self, states.space.digits, ask)

    def _volts(self, number: int) -> tuple[Fed, ...]:
        feeding = self.feeding[number]
        solved = volts_where_open(self.circuit, self.conduction, number, feeding.open) if feeding.open else ()
        return tuple(sorted(feeding.fed + solved, key=lambda fed: -fed.volts))

    def behave(
        self,
        cone: frozenset[int],
        held: frozenset[int] = frozenset(),
        beginning: int | None = None,
        further: Further = NONE_FURTHER,
    ) -> Behaviour:
        """How the digits of a cone of influence behave. held: those that stand still. beginning: None for power-up.
        further: what else may happen."""
        space = self.spaces.of(cone)
        moves, motors = self.moves_of(cone - held), self.motors_of(cone)
        shorted = self.shorted_within(cone)
        return behave(self.circuit, space, moves, self.times, motors, shorted, beginning, further)

    def moves_of(self, digits: frozenset[int]) -> list[RelayMove]:
        """The moves of the relays among some digits."""
        relays = [self._relay_of[digit] for digit in sorted(digits) if digit in self._relay_of]
        return [move for relay in relays for move in self.moves[relay]]

    def motors_of(self, digits: frozenset[int]) -> list[tuple[int, MotorStates]]:
        """The motors that drive the axes among some digits, by number, and what they do."""
        motors = [number for digit in sorted(digits) for number in self._motors_of.get(digit, ())]
        return [(number, self.motors[number]) for number in motors]

    def shorted_within(self, digits: frozenset[int]) -> States:
        """The states of all shorts that hang on none but these digits."""
        inside = (short.states for short in self.shorts if digits_of(short.states) <= digits)
        return union(inside, self.spaces.none())

    def depends_on(self, digit: int) -> frozenset[int]:
        """The digits that have a say in this digit's next step."""
        if digit not in self._says:
            before = self.sound.depends_on(digit) if self.sound else frozenset[int]()
            self._says[digit] = self._depends_on(digit) | before
        return self._says[digit]

    def _depends_on(self, digit: int) -> frozenset[int]:
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
