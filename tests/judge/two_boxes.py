"""Two circuits worked alike, pair of states by pair of states: can anybody tell them apart?

The plain second opinion on analysis/telling_apart.py. Both circuits have the same digits in the same order; a pair
agrees in all but the relays.
"""

from collections.abc import Iterable
from functools import cached_property
from itertools import product

from circuitcheck.circuit.model import Circuit
from tests.judge.one_state import State
from tests.judge.steps import Judge, with_value

Pair = tuple[State, State]
Words = dict[str, str]


class Box:
    """One circuit, its states remembered."""

    def __init__(self, circuit: Circuit) -> None:
        self.circuit = circuit
        self.judge = Judge(circuit)
        self._ends: dict[State, frozenset[State]] = {}

    def shorted(self, state: State) -> bool:
        """Is a supply shorted?"""
        return self.judge.judged(state).shorted

    def words(self, state: State) -> Words:
        """What is seen of the state."""
        verdict = self.judge.judged(state)
        if verdict.shorted:
            return {"supplies": "shorted"}
        seen = {"supplies": "not shorted"}
        for motor, word in zip(self.circuit.motors, verdict.motors, strict=True):
            fast = len(motor.windings) > 1 and abs(verdict.volts[motor.windings[1].load]) >= 0.25 * motor.volts - 1e-9
            seen[motor.name] = f"{word} fast" if fast and word in ("forward", "reverse") else word
        for number, word in verdict.lamps.items():
            load = self.circuit.loads[number]
            other = {"lit": "on", "glowing": "weak", "dark": "off"}
            seen[load.part] = word.replace("glowing", "glows") if load.kind == "lamp" else other[word]
        for relay in self.circuit.relays:
            seen[relay.name] = self.circuit.digits[relay.digit].value_name(state[relay.digit])
        return seen

    def ends(self, state: State) -> frozenset[State]:
        """Where relays may be when the next thing happens: at rest; between positions of a switch anywhere."""
        if state not in self._ends:
            found, waiting = {state}, [state]
            while waiting:
                here = waiting.pop()
                for there in self._relays_moved(here):
                    if there not in found:
                        found.add(there)
                        waiting.append(there)
            self._ends[state] = frozenset(one for one in found if self._is_end(one))
        return self._ends[state]

    def _relays_moved(self, state: State) -> list[State]:
        if self.shorted(state):
            return []
        timed = [wish for wish in self.judge.judged(state).wishes if wish.timed]
        may_run_out = timed and self.judge.is_proper(state) and self.judge.is_at_rest(state)
        moved = [with_value(state, wish.digit, wish.end) for wish in timed] if may_run_out else []
        return [*self.judge.relays_moved(state), *moved]

    def _is_end(self, state: State) -> bool:
        return not self.judge.is_proper(state) or self.shorted(state) or self.judge.is_at_rest(state)

    def moves(self, state: State) -> set[tuple[int, int]]:
        """What a hand or a motor does next: a digit and its new value."""
        relays = {relay.digit for relay in self.circuit.relays}
        return {
            (number, there[number])
            for there in self.judge.successors(state)
            for number in range(len(state))
            if number not in relays and there[number] != state[number]
        }


class TwoBoxes:
    """Both, and all pairs that matter."""

    def __init__(self, old: Circuit, new: Circuit) -> None:
        self.old, self.new = Box(old), Box(new)

    def looks_alike(self, pair: Pair) -> bool:
        """Is the same seen? Between positions only a short is."""
        if not self.old.judge.is_proper(pair[0]):
            return self.old.shorted(pair[0]) == self.new.shorted(pair[1])
        return self.old.words(pair[0]) == self.new.words(pair[1])

    def following(self, pair: Pair) -> list[Pair]:
        """Pairs just after each move that both make."""
        if self.old.shorted(pair[0]) or self.new.shorted(pair[1]):
            return []
        both = self.old.moves(pair[0]) & self.new.moves(pair[1])
        return [(with_value(pair[0], *move), with_value(pair[1], *move)) for move in sorted(both)]

    def ended(self, pair: Pair) -> Iterable[Pair]:
        """Every pair of ends."""
        return product(self.old.ends(pair[0]), self.new.ends(pair[1]))

    @cached_property
    def beginnings(self) -> list[Pair]:
        """Power-up; a latching relay stands alike in both."""
        return [(state, state) for state in self.old.judge.beginnings()]

    @cached_property
    def come_to(self) -> set[Pair]:
        """The pairs of ends that can be come to, whatever either circuit answers."""
        pairs: set[Pair] = set()
        waiting = list(self.beginnings)
        while waiting:
            for pair in self.ended(waiting.pop()):
                if pair not in pairs:
                    pairs.add(pair)
                    waiting += self.following(pair)
        return pairs

    @cached_property
    def alike(self) -> set[Pair]:
        """The pairs at their ends that nobody can tell apart, of all that can be come to."""
        kept = {pair for pair in self.come_to if self.looks_alike(pair)}
        while True:
            left = {pair for pair in kept if self._stays(pair, kept)}
            if left == kept:
                return kept
            kept = left

    def _stays(self, pair: Pair, kept: set[Pair]) -> bool:
        standing = not self.old.judge.is_proper(pair[0]) or self.is_answered(pair, kept)
        return standing and all(self.is_answered(one, kept) for one in self.following(pair))

    def is_answered(self, pair: Pair, alike: set[Pair]) -> bool:
        """Wherever one comes to rest, can the other come to rest alike?"""
        ends = self.old.ends(pair[0]), self.new.ends(pair[1])
        return all(any((s, t) in alike for t in ends[1]) for s in ends[0]) and all(
            any((s, t) in alike for s in ends[0]) for t in ends[1]
        )

    def same(self) -> bool:
        """Can nobody tell them apart from power-up on?"""
        return all(self.is_answered(pair, self.alike) for pair in self.beginnings)

    def inputs(self, state: State) -> State:
        """The state with all relays released: what hands and motors gave."""
        for relay in self.old.circuit.relays:
            state = with_value(state, relay.digit, 0)
        return state

    @cached_property
    def inputs_met(self) -> set[State]:
        """The inputs of all pairs that are met."""
        return {self.inputs(pair[0]) for pair in self.met}

    @cached_property
    def rounds(self) -> list[tuple[set[Pair], set[Pair]]]:
        """After each move more from power-up on: the pairs just after it, and the pairs of ends that are new then, each
        circuit answering the other as well as it can."""
        found: list[tuple[set[Pair], set[Pair]]] = []
        started = set(self.beginnings)
        while started:
            ended = {answer for pair in started for answer in self.answers(pair)}.difference(*(met for _, met in found))
            found.append((started, ended))
            started = {there for pair in ended for there in self.following(pair)}
        return found

    @cached_property
    def met(self) -> set[Pair]:
        """The pairs of ends that are met."""
        return {pair for _, ended in self.rounds for pair in ended}

    def answers(self, pair: Pair) -> set[Pair]:
        """The pairs of ends in which neither could have answered better."""
        ends = self.old.ends(pair[0]), self.new.ends(pair[1])
        good = {one for one in product(*ends) if one in self.alike}
        helpless = [s for s in ends[0] if not any(one[0] == s for one in good)]
        left = [t for t in ends[1] if not any(one[1] == t for one in good)]
        return good | set(product(helpless, ends[1])) | set(product(ends[0], left))
