"""A story walked step by step: what follows when somebody works the controls.

Every step is one that `Behaviour` allows, so that a trace can't say what the proofs don't. Where several relays want to
move, all orders that their times leave count for the proofs; a trace follows one of them and says where another would
end elsewhere. First goes, of the relays that may:

    who has moved least since the last action,
    of those whom the story prefers (the latest `first` before earlier ones),
    of those who has the shortest time, then who stands first in the plan.

Relays that go round for ever are shown until a state comes again.
"""

from collections import Counter
from collections.abc import Iterable, Iterator
from typing import NamedTuple

from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.single_state import Change, State
from circuitcheck.analysis.states import States
from circuitcheck.analysis.travel import driven
from circuitcheck.analysis.whereabouts import End, Move, Whereabouts
from circuitcheck.circuit.model import Circuit
from circuitcheck.circuit.stories import Action, Drive, Plot, Prefer, Run, Wait, Work


class Remark(NamedTuple):
    """Something to say of a step, about the digits named.

    kind: "already" (it stands there), "nothing moves", "orders" (relays may come to one of several `ends`),
    "never settles", "undecided" (in this order they go round, in another they would not), "for ever" (an axis or a
    timer comes round to the same state again), "missed" (an axis does not get to where it should), "timing" (a
    relay's time runs), "stalled" (an axis is driven on where it can't go).
    """

    kind: str
    digits: tuple[int, ...]
    ends: tuple[End, ...] = ()


class Taken(NamedTuple):
    """A step of a trace. action: its number in the story, -1 for the beginning; change: None where nothing moved."""

    action: int
    change: Change | None
    state: State
    shorted: bool
    remarks: tuple[Remark, ...] = ()


class Trace(NamedTuple):
    """A story's steps, the beginning first. broken_off: it ended before all of its actions were done, or in a short."""

    circuit: Circuit
    actions: tuple[Action, ...]
    steps: tuple[Taken, ...]
    broken_off: bool


def trace_plot(facts: Facts, plot: Plot) -> Trace:
    """Walks a story from its beginning to its end, or to where it can't go on."""
    walk = _Walk(facts, plot.beginning)
    walk.settle()
    for number, action in enumerate(plot.actions):
        if walk.broken_off:
            break
        walk.action = number
        walk.act(action)
    return Trace(facts.circuit, plot.actions, tuple(walk.steps), walk.broken_off)


def trace_moves(circuit: Circuit, shorted: States, beginning: State, moves: Iterable[Move]) -> Trace:
    """The steps of a finding; `beginning` gives every digit, and those that no move names stand still."""
    steps = [Taken(-1, None, beginning, beginning in shorted)]
    for digit, end in moves:
        before = steps[-1].state
        state = {**before, digit: end}
        steps.append(Taken(-1, Change(digit, before[digit], end, state), state, state in shorted))
    return Trace(circuit, (), tuple(steps), False)


class _Walk:
    """Where a story has come to. action: the number of the one that is being done."""

    def __init__(self, facts: Facts, beginning: State) -> None:
        self.facts = facts
        self.state = dict(beginning)
        self.action = -1
        self.steps = [Taken(-1, None, self.state, self.state in facts.shorted)]
        self.broken_off = self.steps[0].shorted
        self._whereabouts = Whereabouts(facts, beginning)
        self._moved: Counter[int] = Counter()
        self._preferred: list[int] = []
        self._relays = {relay.digit: relay for relay in facts.circuit.relays}

    def act(self, action: Action) -> None:
        """Does one action of the story, with all that follows from it by itself."""
        self._moved.clear()
        if isinstance(action, Work):
            self._work(action)
        elif isinstance(action, Drive):
            self._drive(action)
        elif isinstance(action, Run):
            self._run(action)
        elif isinstance(action, Wait):
            self._wait(action)
        elif isinstance(action, Prefer):
            self._preferred = [action.digit, *(digit for digit in self._preferred if digit != action.digit)]

    def move(self, move: Move) -> None:
        """Takes one step; a shorted state ends the story."""
        digit, end = move
        start = self.state[digit]
        self._whereabouts = self._whereabouts.after(digit, start, end)
        self.state = {**self.state, digit: end}
        shorted = self.state in self.facts.shorted
        self.steps.append(Taken(self.action, Change(digit, start, end, self.state), self.state, shorted))
        self._moved[digit] += 1
        self.broken_off = shorted

    def settle(self) -> None:
        """Lets relays move, all but timers, until none wants to or they go round for ever."""
        if not self.broken_off:
            for ends in self._whereabouts.ends(self.state):
                self._remark("orders", sorted(ends[0].positions), ends)
        seen = Counter([self._here])
        while not self.broken_off and (wishes := self._whereabouts.quick_moves(self._relays)):
            self.move(self._next(wishes))
            seen[self._here] += 1
            if seen[self._here] > 1 and self._whereabouts.at_rest and not self._may_short():
                self._remark("never settles", (digit for digit in self._relays if self._moved[digit] > 1))
                return
            if seen[self._here] > 1 + len(self._relays):
                self._remark("undecided", self._moved)
                self.broken_off = True
        if not self.broken_off and (waiting := self._whereabouts.slow_moves(self._relays)):
            self._remark("timing", (digit for digit, _ in waiting))

    def _may_short(self) -> bool:
        return self._whereabouts.may_short(self.state, self._relays)

    @property
    def _here(self) -> tuple[int, ...]:
        return tuple(self.state[digit] for digit in sorted(self.state))

    def _work(self, action: Work) -> None:
        if self.state[action.digit] == action.value:
            self._stay("already", (action.digit,))
            return
        digit = self.facts.circuit.digits[action.digit]
        way = (self.state[action.digit], action.value)
        between = [place for place, one in enumerate(digit.moments, len(digit.values)) if way in one.moves]
        for moment in between[:1]:
            self.move((action.digit, moment))
            if action.slowly:
                self.settle()
        if not self.broken_off:
            self.move((action.digit, action.value))
            self.settle()

    def _drive(self, action: Drive) -> None:
        if self.state[action.digit] == action.zone:
            self._stay("already", (action.digit,))
            return
        for _ in self._onward((action.digit,)):
            if self.state[action.digit] == action.zone:
                return
        if not self.steps[-1].shorted:
            self._stay("missed", (action.digit,))
        self.broken_off = True

    def _run(self, action: Run) -> None:
        before = len(self.steps)
        for moved, _ in enumerate(self._onward(action.digits), 1):
            if moved == action.zones:
                return
        if len(self.steps) == before:
            self._stay("nothing moves", action.digits)
        if not self.broken_off:
            self._remark_stalled(action.digits)

    def _wait(self, action: Wait) -> None:
        seen = {self._here}
        if not self._whereabouts.slow_moves(action.digits):
            self._stay("nothing moves", action.digits)
        while not self.broken_off and (wishes := self._whereabouts.slow_moves(action.digits)):
            self.move(self._next(wishes))
            self.settle()
            if self._comes_again(seen):
                self._remark("for ever", action.digits)
                return

    def _onward(self, digits: tuple[int, ...]) -> Iterator[None]:
        """Moves driven axes, a zone at a time, each in its turn; yields after each zone."""
        seen = {self._here}
        while not self.broken_off and (moves := self._whereabouts.slow_moves(digits)):
            self.move(self._next(moves))
            self.settle()
            yield
            if self._comes_again(seen):
                self._remark("for ever", digits)
                return

    def _comes_again(self, seen: set[tuple[int, ...]]) -> bool:
        again = self._here in seen
        seen.add(self._here)
        return again and not self.broken_off

    def _stay(self, kind: str, digits: tuple[int, ...]) -> None:
        self.steps.append(Taken(self.action, None, self.state, False))
        self._remark(kind, digits)

    def _remark(self, kind: str, digits: Iterable[int], ends: tuple[End, ...] = ()) -> None:
        last = self.steps[-1]
        self.steps[-1] = last._replace(remarks=(*last.remarks, Remark(kind, tuple(digits), ends)))

    def _remark_stalled(self, digits: tuple[int, ...]) -> None:
        for number, axis in enumerate(self.facts.circuit.axes):
            is_driven = any(self.state in driven(self.facts, number, direction) for direction in (1, -1))
            if axis.digit in digits and is_driven and not self._whereabouts.slow_moves((axis.digit,)):
                self._remark("stalled", (axis.digit,))

    def _next(self, moves: list[Move]) -> Move:
        def rank(move: Move) -> tuple[int, int, float]:
            digit, _ = move
            preferred = self._preferred.index(digit) if digit in self._preferred else len(self._preferred)
            waits = self._relays[digit].seconds_at(self.state[digit]) if digit in self._relays else 0.0
            return self._moved[digit], preferred, waits

        return min(moves, key=rank)
