"""A sound box and a faulty one, worked by the same hands, one pair of states after the other.

Both boxes are gone through by themselves, every relay of each for itself; controls, outside contacts and supplies move
alike in both (but for what sticks in the faulty one), and the sound one's axes stand where the faulty one drives them.
"""

from collections.abc import Iterable
from typing import NamedTuple

from circuitcheck.circuit.model import Axis
from tests.judge.claims import directions, motor_words
from tests.judge.one_state import State
from tests.judge.steps import Judge, next_values, with_value
from tests.judge.told_faults import may_come, told_fault

DRIVEN = ("forward", "reverse")


class Pair(NamedTuple):
    """What the sound box stands at, and the faulty one."""

    sound: State
    faulty: State


class Besides:
    """Both boxes of one circuit and one fault."""

    def __init__(self, sound: Judge, reached: set[State], called: str) -> None:
        self.sound, self.reached = sound, reached
        self.faulty = Judge(told_fault(sound.circuit, called))
        self.begun = [Pair(one, one) for one in reached if may_come(sound.circuit, called, one)]
        self.next: dict[Pair, set[Pair]] = {}
        waiting = list(self.begun)
        while waiting:
            pair = waiting.pop()
            if pair not in self.next:
                self.next[pair] = self.successors(pair)
                waiting.extend(self.next[pair])

    def is_shorted(self, pair: Pair) -> bool:
        """Either box is."""
        return self.sound.judged(pair.sound).shorted or self.faulty.judged(pair.faulty).shorted

    def is_at_rest(self, pair: Pair) -> bool:
        """Both boxes are."""
        return self.sound.is_at_rest(pair.sound) and self.faulty.is_at_rest(pair.faulty)

    def lasting(self) -> list[Pair]:
        """The pairs in which nothing goes on by itself but motors."""
        return [
            pair
            for pair in self.next
            if not self.is_shorted(pair)
            and self.faulty.is_proper(pair.faulty)
            and self.sound.is_proper(pair.sound)
            and self.is_at_rest(pair)
            and not any(
                wish.timed
                for verdict in (self.sound.judged(pair.sound), self.faulty.judged(pair.faulty))
                for wish in verdict.wishes
            )
        ]

    def onward(self, begun: Iterable[Pair], through: set[Pair]) -> set[Pair]:
        """What follows some pairs over pairs of `through`; the last of a way need not belong to it."""
        found = set(begun)
        waiting = list(found)
        while waiting:
            pair = waiting.pop()
            for there in self.next[pair] if pair in through else ():
                if there not in found:
                    found.add(there)
                    waiting.append(there)
        return found

    def successors(self, pair: Pair) -> set[Pair]:
        """What one step leads to."""
        sound, faulty = pair
        if self.is_shorted(pair) or self._ends_here(pair):
            return set()
        found = {Pair(one, faulty) for one in self.sound.relays_moved(sound)}
        found |= {Pair(sound, one) for one in self.faulty.relays_moved(faulty)}
        found |= self._hands_between(pair)
        if not (self.sound.is_proper(sound) and self.faulty.is_proper(faulty) and self.is_at_rest(pair)):
            return found
        for wish in self.sound.judged(sound).wishes:
            found |= {Pair(with_value(sound, wish.digit, wish.end), faulty)} if wish.timed else set()
        for wish in self.faulty.judged(faulty).wishes:
            found |= {Pair(sound, with_value(faulty, wish.digit, wish.end))} if wish.timed else set()
        for number, digit in enumerate(self.sound.circuit.digits):
            if digit.kind in ("control", "outside", "supply"):
                found |= {self._worked(pair, number, value) for value in next_values(digit, sound[number])}
        axes = {axis.digit for axis in self.faulty.circuit.axes}
        for one in self.faulty.successors(faulty):
            moved = [number for number in axes if one[number] != faulty[number]]
            if moved:
                found.add(Pair(with_value(sound, moved[0], one[moved[0]]), one))
        return found

    def _hands_between(self, pair: Pair) -> set[Pair]:
        """A hand that is between two positions goes on, whatever relays do."""
        found = set()
        for number, digit in enumerate(self.sound.circuit.digits):
            if pair.sound[number] >= len(digit.values):
                ends = {end for _, end in digit.moments[pair.sound[number] - len(digit.values)].moves}
                found |= {self._worked(pair, number, end) for end in ends}
        return found

    def _worked(self, pair: Pair, number: int, value: int) -> Pair:
        sticks = self.faulty.circuit.digits[number].kind == "stuck"
        return Pair(
            with_value(pair.sound, number, value), pair.faulty if sticks else with_value(pair.faulty, number, value)
        )

    def _ends_here(self, pair: Pair) -> bool:
        """The faulty box doesn't drive though the sound one, at rest, does; and it stands as a sound one could."""
        if self.sound.relays_moved(pair.sound) or pair.faulty not in self.reached:
            return False
        if not self.sound.is_proper(pair.faulty):
            return False
        does, should = self.words(pair)
        return any(should[name] in DRIVEN and does[name] not in DRIVEN for name in should)

    def words(self, pair: Pair) -> tuple[dict[str, str], dict[str, str]]:
        """What the faulty box's motors do, and what the sound one's do."""
        return motor_words(self.faulty, pair.faulty), motor_words(self.sound, pair.sound)

    def drives(self, pair: Pair, axis: Axis) -> tuple[set[int], set[int]]:
        """Which way the faulty box drives an axis, and which way the sound one does."""
        return directions(self.faulty, pair.faulty, axis), directions(self.sound, pair.sound, axis)
