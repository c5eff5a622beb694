"""All states that a circuit comes to, as the judge sees them, and what is asked of them."""

from collections.abc import Callable, Iterable
from functools import cached_property
from typing import TypeVar

import networkx as nx

from circuitcheck.circuit.model import Axis, Circuit
from tests.judge.one_state import State
from tests.judge.steps import Judge
from tests.judge.times import Ticking, ticked_through

DRIVEN = ("forward", "reverse")
Place = TypeVar("Place")


def changed(state: State, there: State) -> int:
    """The one digit that differs."""
    (digit,) = (one for one, value in enumerate(state) if there[one] != value)
    return digit


class Seen:
    """All states that a circuit comes to from power-up, and those among them at rest. Relays move in any order."""

    def __init__(self, circuit: Circuit) -> None:
        self.judge, self.circuit = Judge(circuit), circuit

    @cached_property
    def reached(self) -> frozenset[State]:
        """All that operation leads to."""
        return frozenset(self.judge.reachable())

    @cached_property
    def rests(self) -> list[State]:
        """Those at rest, timers aside."""
        return [state for state in self.reached if self.is_rest(state)]

    @cached_property
    def changes(self) -> "list[nx.DiGraph[Ticking]]":
        """What relays do, in orders that their times leave, from power-up and after each change at a rest; but for
        those after which a hand switch is between positions."""
        starts = set(self.judge.beginnings())
        for state in self.reached:
            starts |= self.judge.successors(state) - set(self.judge.relays_moved(state))
        return [ticked_through(self.judge, state) for state in starts if self.judge.is_proper(state)]

    def is_rest(self, state: State) -> bool:
        """Does no relay want to move at once, and is no switch between positions?"""
        return self.judge.is_proper(state) and self.judge.is_at_rest(state)

    def word(self, motor: str, state: State) -> str:
        """What the motor does: "forward", "reverse", "braked" and so on."""
        names = [one.name for one in self.circuit.motors]
        return self.judge.judged(state).motors[names.index(motor)]

    def words(self, motor: str, states: Iterable[State]) -> set[str]:
        """All that it does in some states."""
        return {self.word(motor, state) for state in states}

    def axis(self, name: str) -> Axis:
        """The axis of that name."""
        return next(one for one in self.circuit.axes if one.name == name)

    def outward(self, axis: Axis, state: State) -> set[int]:
        """Which ways lead outward from where the axis is, if it is at or past an end."""
        first, last = axis.range
        return {way for way, there in ((1, state[axis.digit] >= last), (-1, state[axis.digit] <= first)) if there}


def passes_off(seen: Seen, state: State, there: State) -> bool:
    """Does a hand pass a switch's open position here? It is taken to rest there."""
    number = changed(state, there)
    digit = seen.circuit.digits[number]
    if "off" not in digit.values:
        return False
    ends = [there[number]]
    if there[number] >= len(digit.values):
        moves = digit.moments[there[number] - len(digit.values)].moves
        ends = [end for start, end in moves if start == state[number]]
    off = digit.values.index("off")
    return all(min(state[number], end) < off < max(state[number], end) for end in ends)


def following(
    begun: Iterable[Place], steps: Callable[[Place], Iterable[Place]], barred: Callable[[Place], bool] = lambda _: False
) -> set[Place]:
    """These and all that steps lead to from them, with nothing barred on the way."""
    found = {state for state in begun if not barred(state)}
    waiting = list(found)
    while waiting:
        onward = {there for there in steps(waiting.pop()) if there not in found and not barred(there)}
        found |= onward
        waiting += onward
    return found
