"""A faulty box beside a sound one, both worked by the same hands: what the one does that the other wouldn't.

Controls, outside contacts and supplies are the same for both, and axes are where the faulty box drives them. A relay
that moves alike in both is one digit; of a relay whose moves the fault changes, or that hangs on such a one, and of a
control that sticks, the sound box has a digit of its own: digit d's copy is number d + the count of the circuit's
digits. The fault comes in any state that sound operation reaches, on the way between two rests too; from there all
relays move in every order (times of milliseconds are not told apart), and timers, hands and axes act at rest of both.

Where the faulty box doesn't drive though the sound one does, and stands as a sound one could stand too, the story ends:
from that stand on it is looked at beside a sound box that stands alike, since the fault may come there as well. Else a
box that had not moved would for ever be held against one that is elsewhere.
"""

from collections.abc import Iterable
from typing import NamedTuple

from circuitcheck.analysis.behaviour import Behaviour, axes_steps, hand_steps, relay_steps
from circuitcheck.analysis.devices import RelayMove
from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.faults.fault import Fault
from circuitcheck.analysis.influence import cone_of_influence, digits_of
from circuitcheck.analysis.resting import Step, following, resting_states
from circuitcheck.analysis.states import Space, Spaces, States
from circuitcheck.circuit.model import Circuit


class Joint(NamedTuple):
    """Both boxes, those of `beside`, at once over the digits that some devices hang on. All sets are bits over `space`.

    begun: where the fault comes; reached: that, and all that follows. rest: where relays stand still, or go round for
    ever; lasting: of what is reached, where moreover no timer runs, no hand is between two positions, nothing is short.
    """

    beside: "Beside"
    space: Space
    steps: tuple[Step, ...]
    begun: int
    reached: int
    rest: int
    lasting: int


class Run(NamedTuple):
    """A motor's states that tell a stop from a run. Which others it coasts in, or weakly turns, may hang on far more of
    the box: every coil's diode is a way back."""

    forward: States
    reverse: States
    braked: States

    @property
    def driven(self) -> States:
        """Forward or reverse."""
        return self.forward | self.reverse


class Beside:
    """The facts of a faulty box and of the sound one, over common spaces that have room for copies."""

    def __init__(self, sound: Facts, faulty: Facts, fault: Fault) -> None:
        self.sound, self.faulty, self.fault = sound, faulty, fault
        self.count = len(sound.circuit.digits)
        self.copied = self._copied()
        self._joints: dict[tuple[int, ...], Joint] = {}
        copies = (one._replace(digit=one.digit + self.count) for one in sound.circuit.relays)
        self.circuit = faulty.circuit._replace(
            digits=faulty.circuit.digits + sound.circuit.digits, relays=(*faulty.circuit.relays, *copies)
        )
        self._moves = self._all_moves()
        self._motors_of: dict[int, list[int]] = {}
        for number, motor in enumerate(faulty.circuit.motors):
            if motor.axis is not None:
                self._motors_of.setdefault(faulty.circuit.axes[motor.axis].digit, []).append(number)

    def of_sound(self, states: States) -> States:
        """A set of the sound box over the digits that it has here."""
        for digit in self.copied.intersection(states.space.digits):
            states = _renamed(states, digit, digit + self.count)
        return states

    def motor(self, number: int) -> tuple[Run, Run]:
        """What a motor does in the faulty box, and what it would do in the sound one."""
        faulty, sound = self.faulty.motors[number], self.sound.motors[number]
        does = Run(faulty.forward, faulty.reverse, faulty.braked)
        return does, Run(*map(self.of_sound, (sound.forward, sound.reverse, sound.braked)))

    def joint(self, digits: Iterable[int]) -> Joint:
        """Both boxes over these digits and all that they hang on."""
        supplies = (supply.digit for supply in self.circuit.supplies)
        cone = cone_of_influence((*digits, *supplies), self._depends_on)
        space = self.faulty.spaces.of(cone)
        if space.digits not in self._joints:
            self._joints[space.digits] = self._follow(space)
        return self._joints[space.digits]

    def begun(self, space: Space, sound: Behaviour, states: int) -> int:
        """Some states of the sound box, seen over a space of both, with the fault that has just come."""
        bits = self.seen_over(sound, states, space).over(space)
        for digit in self.copied.intersection(space.digits):
            bits &= self._equal(space, digit)
        for digit, values in self.fault.change.begins:
            bits &= space.where(digit, values) if digit in space.digits else space.full
        return bits

    def seen_over(self, sound: Behaviour, states: int, space: Space) -> States:
        """Some states of the sound box as a set over those of its digits that a space of both has."""
        kept = self.sound.spaces.over(sound.space, states)
        for digit in set(sound.space.digits) - set(space.digits):
            kept = kept.turned(digit)
        return kept.tight()

    def usual(self, space: Space) -> Behaviour:
        """How the sound box by itself behaves, over the digits of a space of both."""
        return self.sound.behaviour(digit for digit in space.digits if digit < self.count)

    def _copied(self) -> frozenset[int]:
        """The digits that each box has for itself."""
        copied = {digit for digit, _ in self.fault.change.stuck}
        faulty = {relay.digit: number for number, relay in enumerate(self.faulty.circuit.relays)}
        pairs = [
            (relay.digit, self.sound.moves[number], self.faulty.moves[faulty[relay.digit]])
            for number, relay in enumerate(self.sound.circuit.relays)
            if relay.digit in faulty
        ]
        for digit, mine, its in pairs:
            if not all(one.wanted.same_as(other.wanted) for one, other in zip(mine, its, strict=True)):
                copied.add(digit)
        grown = True
        while grown:
            grown = False
            for digit, mine, its in pairs:
                if digit not in copied and copied & digits_of(*(move.wanted for move in (*mine, *its))):
                    copied.add(digit)
                    grown = True
        return frozenset(copied)

    def _all_moves(self) -> dict[int, list[RelayMove]]:
        """The moves of each relay of both boxes, by its digit."""
        moves: dict[int, list[RelayMove]] = {}
        for number, relay in enumerate(self.faulty.circuit.relays):
            moves[relay.digit] = list(self.faulty.moves[number])
        first = len(self.faulty.circuit.relays)
        for number, relay in enumerate(self.sound.circuit.relays):
            moves[relay.digit + self.count] = [
                move._replace(relay=first + number, wanted=self.of_sound(move.wanted))
                for move in self.sound.moves[number]
            ]
        return moves

    def _depends_on(self, digit: int) -> frozenset[int]:
        found = digits_of(*(move.wanted for move in self._moves.get(digit, ())))
        for number in self._motors_of.get(digit, ()):
            found |= digits_of(self.faulty.motors[number].forward, self.faulty.motors[number].reverse)
        if digit in self.copied:
            found |= {digit + self.count}
        elif digit - self.count in self.copied:
            found |= {digit - self.count}
        return found

    def _follow(self, space: Space) -> Joint:
        moves = [move for digit in space.digits for move in self._moves.get(digit, ())]
        motors = [
            (number, self.faulty.motors[number]) for digit in space.digits for number in self._motors_of.get(digit, ())
        ]
        shorted = self._shorted(space)
        alive, proper = space.full ^ shorted, self._proper(space)
        quick, _, timed = relay_steps(self.circuit, space, moves, {}, alive)
        rest = resting_states(space, quick, shorted)
        worked = [*timed, *hand_steps(self.circuit, space, alive, False)]
        worked += axes_steps(self.circuit, space, motors, alive)
        steps = [*quick, *hand_steps(self.circuit, space, alive, True)]
        steps += [step._replace(allowed=step.allowed & rest & proper & alive) for step in worked]
        usual = self.usual(space)
        left = self._left(space, usual, quick)
        steps = [step._replace(allowed=step.allowed & ~left) for step in steps if step.allowed & ~left]
        begun = self.begun(space, usual, usual.reached)
        reached = following(space, steps, begun)
        lasting = rest & proper & alive & reached
        if timed:
            lasting &= resting_states(space, [*quick, *timed], 0)
        return Joint(self, space, tuple(steps), begun, reached, rest, lasting)

    def _shorted(self, space: Space) -> int:
        inside, bits = set(space.digits), 0
        of_sound = (self.of_sound(short.states) for short in self.sound.shorts)
        for states in (*(short.states for short in self.faulty.shorts), *of_sound):
            bits |= states.over(space) if digits_of(states) <= inside else 0
        return bits

    def _proper(self, space: Space) -> int:
        bits = space.full
        for digit in space.digits:
            bits &= space.where(digit, range(len(self.circuit.digits[digit].values)))
        return bits

    def _left(self, space: Space, usual: Behaviour, quick: list[Step]) -> int:
        """The states in which it isn't driven though the sound box, at rest, is, and stands as that could."""
        inside = set(space.digits)
        missing = 0
        for number, does in enumerate(self.faulty.motors):
            lacking = self.of_sound(self.sound.motors[number].driven) - does.driven
            if digits_of(lacking) <= inside:
                missing |= lacking.over(space)
        for step in quick:
            missing &= space.full if step.digit in self.copied else ~step.allowed
        return missing & self.seen_over(usual, usual.reached & usual.proper, space).over(space) if missing else 0

    def _equal(self, space: Space, digit: int) -> int:
        """The states in which a digit and its copy stand alike."""
        bits = 0
        for value in range(self.sound.circuit.digits[digit].radix):
            bits |= space.where(digit, (value,)) & space.where(digit + self.count, (value,))
        return bits


def roomy_spaces(circuit: Circuit, wide: int | None = None) -> Spaces:
    """Spaces with room for a copy of each digit. wide: as of `Spaces`."""
    return Spaces(tuple(digit.radix for digit in circuit.digits) * 2, wide)


def _renamed(states: States, digit: int, copy: int) -> States:
    spaces = states.spaces
    found = spaces.none()
    for value in range(spaces.radices[digit]):
        found = found | (states.given(digit, value) & spaces.where(copy, (value,)))
    return found.tight()
