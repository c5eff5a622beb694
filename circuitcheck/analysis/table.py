"""What the motors end up doing, for every combination of what is given: the facts of the truth table.

Given are the positions of hand switches, outside contacts, axes and supplies, and where latching relays stand before.
From there, with all other relays released, relays settle in every order, and timers run to their end. Nothing that is
given moves meanwhile, so a set of ends tells by projection which combinations lead to it:

    reached      the states that some order leads to
    ends         those of them that are never left: standing still, or going round for ever
    a motor's word in a combination: the same at all its ends, else "order-dependent"; "never settles" where it changes
    while relays go round; "shorted" where some order meets a short

What happened before can matter even so: a relay that holds itself stays operated. Such rests, which operation reaches
at the same combination, are told besides, as `held`.
"""

from collections.abc import Iterable, Iterator
from itertools import product
from typing import Final, NamedTuple

from circuitcheck.analysis.behaviour import relay_steps
from circuitcheck.analysis.course import Steps, at_every_clock, at_some_clock, steps_in_time
from circuitcheck.analysis.devices import MotorStates
from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.influence import cone_of_influence, digits_of
from circuitcheck.analysis.resting import following, leading_to, resting_states
from circuitcheck.analysis.states import States, union

Cells = dict[str, States]
"""A column: in which combinations it says which word. Words exclude each other."""

MOST_ROWS: Final = 5_000
"""More than anybody would read."""


class TooManyRows(Exception):
    """The table would have more than MOST_ROWS rows."""


UNDETERMINED = "-"
"""What a relay's column says where it has no one position in the end."""


class Outcome(NamedTuple):
    """What becomes of `combinations`. relays, motors: a column for each of those in the table, in its order."""

    combinations: States
    relays: tuple[Cells, ...]
    motors: tuple[Cells, ...]


class TruthTable(NamedTuple):
    """The behaviour of some motors. All sets are over the digits `inputs`.

    positions: of each input, those that are asked for. relays, motors: their numbers in the circuit.
    released: from all relays released (but latching ones, which are inputs). held: other rests that operation reaches,
    one for each set of relay positions.
    """

    facts: Facts
    inputs: tuple[int, ...]
    positions: tuple[tuple[int, ...], ...]
    relays: tuple[int, ...]
    motors: tuple[int, ...]
    released: Outcome
    held: tuple[Outcome, ...]


def truth_table(facts: Facts, given: dict[int, tuple[int, ...]], motors: tuple[int, ...]) -> TruthTable:
    """The table of these motors and of every relay that has to do with them; of all motors and relays for none.

    given: the positions that are asked for of some digits; of all others every one. TooWide where the digits that hang
    together with these motors have more combinations than can be counted, TooManyRows where nobody would read it.
    """
    circuit = facts.circuit
    shown = motors or tuple(range(len(circuit.motors)))
    digits = _needed_digits(facts, motors)
    settling = _Settling(facts, digits, given)
    # Whether a loose motor brakes one way is asked where it comes to rest; only that may depend on further digits.
    further = digits_of(*(states for motor in shown for states in settling.words_of(motor).values())) - digits
    if further:
        digits = _needed_digits(facts, motors, further)
        settling = _Settling(facts, digits, given)
    relays = tuple(number for number, relay in enumerate(circuit.relays) if relay.digit in digits)
    released = settling.from_released(relays, shown)
    held = tuple(settling.held(relays, shown))
    outcomes = (released, *held)
    told = digits_of(
        *(states for one in outcomes for column in (*one.relays, *one.motors) for states in column.values())
    )
    inputs = tuple(sorted(told | digits_of(*(one.combinations for one in held)) | given.keys()))
    positions = tuple(given.get(digit, tuple(range(len(circuit.digits[digit].values)))) for digit in inputs)
    return TruthTable(facts, inputs, positions, relays, shown, released, held)


def _needed_digits(facts: Facts, motors: tuple[int, ...], further: frozenset[int] = frozenset()) -> frozenset[int]:
    """The digits that these motors depend on, by way of relays too, and every supply."""
    circuit = facts.circuit
    asked = digits_of(facts.shorted, *(states for number in motors for states in _plain_words(facts.motors[number])))
    asked |= further.union(supply.digit for supply in circuit.supplies)
    if not motors:
        asked |= digits_of(*(states for motor in facts.motors for states in _plain_words(motor)))
        asked |= {relay.digit for relay in circuit.relays}
    relay_of = {relay.digit: number for number, relay in enumerate(circuit.relays)}

    def depends_on(digit: int) -> frozenset[int]:
        return digits_of(*(move.wanted for move in facts.moves[relay_of[digit]])) if digit in relay_of else frozenset()

    return cone_of_influence(asked, depends_on)


class _Settling:
    """How the relays among some digits settle while the others stand still."""

    def __init__(self, facts: Facts, digits: frozenset[int], given: dict[int, tuple[int, ...]]) -> None:
        self._facts = facts
        self._space = facts.spaces.of(digits)
        relays = [relay for relay in facts.circuit.relays if relay.digit in digits]
        self._moving = tuple(relay.digit for relay in relays)
        self._latching = tuple(relay.digit for relay in relays if relay.function == "latching")
        self._asked = self._asked_states(given)
        self._shorted = facts.shorted.over(self._space)
        self._steps = self._relay_steps()
        self._wide = self._steps.space
        self._standing = self._wide.full ^ self._steps.shorted
        for step in self._steps.all:
            self._standing &= ~step.allowed
        self._ends = resting_states(self._wide, self._steps.all, self._steps.shorted) & ~self._steps.shorted

    def from_released(self, relays: tuple[int, ...], motors: tuple[int, ...]) -> Outcome:
        """What follows from the beginning, one latching position after the other."""
        outcomes = [self._begun(before, relays, motors) for before in self._latching_positions()]
        return Outcome(
            union((one.combinations for one in outcomes), self._facts.spaces.none()),
            tuple(map(_joined, zip(*(one.relays for one in outcomes), strict=True))),
            tuple(map(_joined, zip(*(one.motors for one in outcomes), strict=True))),
        )

    def held(self, relays: tuple[int, ...], motors: tuple[int, ...]) -> Iterator[Outcome]:
        """The rests that operation reaches and that are no end of the beginning at the same combination."""
        count = 0
        left = self._settled_in_operation() & self._asked & ~self._shorted
        for before in self._latching_positions():
            ends = following(self._wide, self._steps.all, self._beginning(before)) & self._ends
            left &= ~(at_some_clock(self._space, ends) & self._where(before))
        while left:
            count += 1
            if count > MOST_ROWS:
                raise TooManyRows
            lowest = self._space.values((left & -left).bit_length() - 1)
            position = {digit: lowest[digit] for digit in self._moving}
            chosen = left & self._where(position)
            left ^= chosen
            before = {digit: position[digit] for digit in self._latching}
            combinations = self._projected(chosen, before)
            yield Outcome(
                combinations,
                tuple({self._relay_word(relay, position): combinations} for relay in relays),
                tuple(self._possible(chosen, before, self.words_of(motor)) for motor in motors),
            )

    def words_of(self, motor: int) -> Cells:
        """A motor's words, wherever relays come to rest or go round for ever."""
        rests = (at_some_clock(self._space, self._ends) | self._settled_in_operation()) & ~self._shorted
        does = self._facts.motors[motor]
        return does.named(does.loose & self._facts.spaces.over(self._space, rests).tight())

    def _begun(self, before: dict[int, int], relays: tuple[int, ...], motors: tuple[int, ...]) -> Outcome:
        beginning = self._beginning(before)
        reached = following(self._wide, self._steps.all, beginning)
        shorted = self._projected(reached & self._steps.shorted, before)
        ends = reached & self._ends
        relay_cells = []
        for relay in relays:
            possible = self._possible(ends, before, self._relay_words(relay))
            open_ones = _overlap(possible.values(), self._facts.spaces.none()) | shorted
            relay_cells.append(_cells(possible, open_ones, {UNDETERMINED: open_ones}))
        motor_cells = []
        for motor in motors:
            words = self.words_of(motor)
            possible = self._possible(ends, before, words)
            changing = self._projected(self._changing(ends, words.values()), before) - shorted
            several = _overlap(possible.values(), self._facts.spaces.none()) - changing - shorted
            verdicts = {"shorted": shorted, "never settles": changing, "order-dependent": several}
            motor_cells.append(_cells(possible, shorted | changing | several, verdicts))
        return Outcome(self._projected(beginning, before), tuple(relay_cells), tuple(motor_cells))

    def _possible(self, ends: int, before: dict[int, int], words: Cells) -> Cells:
        """For each word, the combinations at some end of which it holds."""
        found = {word: self._projected(ends & self._lifted(states), before) for word, states in words.items()}
        return {word: states for word, states in found.items() if states}

    def _changing(self, ends: int, states_of_words: Iterable[States]) -> int:
        """The ends in which relays go round for ever and a motor's word changes on the way."""
        rounds = ends & ~self._standing
        changing = 0
        if rounds:
            for states in states_of_words:
                inside = rounds & self._lifted(states)
                changing |= leading_to(self._wide, self._steps.all, inside) & rounds & ~inside
        return changing

    def _lifted(self, states: States) -> int:
        return at_every_clock(self._wide, self._space, states.over(self._space))

    def _projected(self, bits: int, before: dict[int, int]) -> States:
        """The combinations that states belong to: whatever relays do now, latching ones having stood at `before`."""
        space, bits = self._space, at_some_clock(self._space, bits)
        for digit in self._moving:
            position = space.index(digit)
            stride, radix = space.strides[position], space.radices[position]
            for value in range(1, radix):
                bits |= (bits & space.where(digit, (value,))) >> (value * stride)
            bits = space.without(bits, digit)
            space = self._facts.spaces.of(space.digits[:position] + space.digits[position + 1 :])
        states = self._facts.spaces.over(space, bits)
        for digit, value in before.items():
            states = states & self._facts.spaces.where(digit, (value,))
        return self._moments_as_first_position(states.tight()).tight()

    def _moments_as_first_position(self, states: States) -> States:
        """Only positions are told apart, so that a switch that doesn't matter at any of them is not asked for because
        of the moments between them."""
        space, bits = states.space, states.bits
        for digit in space.digits:
            positions = len(self._facts.circuit.digits[digit].values)
            for moment in range(positions, self._facts.circuit.digits[digit].radix):
                bits |= space.moved(bits, digit, 0, moment)
        return self._facts.spaces.over(space, bits)

    def _relay_words(self, relay: int) -> Cells:
        digit = self._facts.circuit.relays[relay].digit
        words = self._facts.circuit.digits[digit].values
        return {word: self._facts.spaces.where(digit, (value,)) for value, word in enumerate(words)}

    def _relay_word(self, relay: int, position: dict[int, int]) -> str:
        digit = self._facts.circuit.relays[relay].digit
        return self._facts.circuit.digits[digit].value_name(position[digit])

    def _latching_positions(self) -> Iterator[dict[int, int]]:
        for values in product((0, 1), repeat=len(self._latching)):
            yield dict(zip(self._latching, values, strict=True))

    def _where(self, position: dict[int, int]) -> int:
        states = self._space.full
        for digit, value in position.items():
            states &= self._space.where(digit, (value,))
        return states

    def _beginning(self, before: dict[int, int]) -> int:
        return self._asked & self._where(dict.fromkeys(self._moving, 0) | before)

    def _asked_states(self, given: dict[int, tuple[int, ...]]) -> int:
        """Every input at one of its positions (not between two), and at one that is asked for."""
        asked = self._space.full
        for digit in self._space.digits:
            positions = given.get(digit, range(len(self._facts.circuit.digits[digit].values)))
            asked &= self._space.where(digit, positions)
        return asked

    def _relay_steps(self) -> Steps:
        """Timers run out only where the quicker relays have come to rest."""
        facts, alive = self._facts, self._space.full ^ self._shorted
        relays = (number for number, relay in enumerate(facts.circuit.relays) if relay.digit in self._moving)
        moves = [move for number in relays for move in facts.moves[number]]
        quick, ranges, timed = relay_steps(facts.circuit, self._space, moves, facts.times, alive)
        beginning = self._asked & self._where({digit: 0 for digit in self._moving if digit not in self._latching})
        return steps_in_time(self._space, quick, ranges, [], timed, beginning, self._shorted)

    def _settled_in_operation(self) -> int:
        """The states of this space in which operation reaches a standstill."""
        behaviour = self._facts.behaviour(self._space.digits)
        settled = behaviour.reached & behaviour.proper & behaviour.settled
        states = self._facts.spaces.over(behaviour.space, settled)
        for digit in set(behaviour.space.digits) - set(self._space.digits):
            states = states.turned(digit)
        return states.tight().over(self._space)


def _plain_words(does: MotorStates) -> tuple[States, ...]:
    return does.forward, does.reverse, does.braked, does.weak, does.loose


def _cells(possible: Cells, undecided: States, verdicts: Cells) -> Cells:
    """A column's words: one that holds at every end, else the verdict."""
    cells = {word: (states - undecided).tight() for word, states in possible.items()}
    cells.update((word, states.tight()) for word, states in verdicts.items())
    return {word: states for word, states in cells.items() if states}


def _overlap(sets: Iterable[States], nothing: States) -> States:
    """What is in more than one of the sets."""
    once = more = nothing
    for states in sets:
        more = more | (once & states)
        once = once | states
    return more


def _joined(columns: tuple[Cells, ...]) -> Cells:
    """One column of the several that each tell of combinations of their own."""
    joined: Cells = {}
    for column in columns:
        for word, states in column.items():
            joined[word] = (joined[word] | states).tight() if word in joined else states
    return joined
