"""What can follow a state, and what can be reached from power-up, one state after the other."""

from collections import deque
from collections.abc import Iterator
from itertools import product

import networkx as nx

from circuitcheck.circuit.model import Axis, Circuit, Digit
from tests.judge.devices import Verdict, judge_state
from tests.judge.one_state import State


def with_value(state: State, digit: int, value: int) -> State:
    """The state with one digit turned."""
    return (*state[:digit], value, *state[digit + 1 :])


class Judge:
    """The judge of one circuit; it remembers the states that it has seen."""

    def __init__(self, circuit: Circuit) -> None:
        self.circuit = circuit
        self._seen: dict[State, Verdict] = {}

    def every_state(self) -> Iterator[State]:
        """All of them, hand switches between their positions included."""
        return product(*(range(digit.radix) for digit in self.circuit.digits))

    def judged(self, state: State) -> Verdict:
        """What holds in the state."""
        if state not in self._seen:
            self._seen[state] = judge_state(self.circuit, state)
        return self._seen[state]

    def is_proper(self, state: State) -> bool:
        """Is no hand switch between its positions?"""
        return all(value < len(digit.values) for value, digit in zip(state, self.circuit.digits, strict=True))

    def is_settled(self, state: State) -> bool:
        """Does no relay want to move, nor wait for its time?"""
        verdict = self.judged(state)
        return not verdict.shorted and not verdict.wishes

    def relays_moved(self, state: State) -> list[State]:
        """One relay moved that wants to, timers left alone."""
        return [with_value(state, wish.digit, wish.end) for wish in self.judged(state).wishes if not wish.timed]

    def is_at_rest(self, state: State) -> bool:
        """Does no relay move, or only round within a group of states that has no way out?"""
        if not self.relays_moved(state):
            return not self.judged(state).shorted
        graph: nx.DiGraph[State] = nx.DiGraph()
        waiting = [state]
        while waiting:
            here = waiting.pop()
            for there in self.relays_moved(here):
                if there not in graph:
                    waiting.append(there)
                graph.add_edge(here, there)
        return nx.is_strongly_connected(graph)

    def successors(self, state: State) -> set[State]:
        """Every state that one step leads to."""
        if self.judged(state).shorted:
            return set()
        found = set(self.relays_moved(state))
        for number, digit in enumerate(self.circuit.digits):
            if state[number] >= len(digit.values):
                moves = digit.moments[state[number] - len(digit.values)].moves
                found |= {with_value(state, number, end) for _, end in moves}
        if not self.is_proper(state) or not self.is_at_rest(state):
            return found
        found |= {with_value(state, wish.digit, wish.end) for wish in self.judged(state).wishes if wish.timed}
        for number, digit in enumerate(self.circuit.digits):
            if digit.kind in ("control", "outside", "supply"):
                found |= {with_value(state, number, value) for value in next_values(digit, state[number])}
        return found | self._axes_moved(state)

    def _axes_moved(self, state: State) -> set[State]:
        found = set()
        for motor, word in zip(self.circuit.motors, self.judged(state).motors, strict=True):
            if motor.axis is not None and word in ("forward", "reverse"):
                axis = self.circuit.axes[motor.axis]
                zones = len(self.circuit.digits[axis.digit].values)
                zone = next_zone(axis, zones, state[axis.digit], 1 if (word == "forward") == motor.upward else -1)
                found.add(with_value(state, axis.digit, zone))
        return found

    def beginnings(self) -> Iterator[State]:
        """Power-up: relays released (latching ones as they were left), axes within their range, all else anyhow."""
        choices = [range(len(digit.values)) for digit in self.circuit.digits]
        for relay in self.circuit.relays:
            if relay.function != "latching":
                choices[relay.digit] = range(1)
        for axis in self.circuit.axes:
            choices[axis.digit] = range(axis.range[0], axis.range[1] + 1)
        return product(*choices)

    def reachable(self) -> set[State]:
        """Every state from power-up on."""
        found = set(self.beginnings())
        waiting = deque(found)
        while waiting:
            for state in self.successors(waiting.popleft()):
                if state not in found:
                    found.add(state)
                    waiting.append(state)
        return found


def next_values(digit: Digit, value: int) -> set[int]:
    """Where a hand can bring the digit at once: the moment on the way where there is one, else the position itself."""
    found = set()
    for end in range(len(digit.values)):
        ways = [len(digit.values) + number for number, one in enumerate(digit.moments) if (value, end) in one.moves]
        if end != value:
            found.update(ways or [end])
    return found


def next_zone(axis: Axis, zones: int, zone: int, direction: int) -> int:
    """The zone that follows; a linear axis ends in its zones of overtravel."""
    onward = zone + direction
    return onward % zones if axis.turning else min(max(onward, 0), zones - 1)
