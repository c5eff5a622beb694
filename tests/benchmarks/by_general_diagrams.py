"""All questions by a general decision-diagram library, written plainly: oxidd, and dd over CUDD.

Digits as binary numbers in the plan's order, codes beyond the last value shut out. From one net to another: all others
are taken out one after another, the one with the fewest edges each time. From one net to all: a fixed point of unions,
edge by edge. Each is the quicker one there. Behaviour: relays one at a time until none wants to move, then a control;
each relay and each control is a step of its own, taken on what the steps before it have found.
"""

from collections.abc import Callable, Iterator
from heapq import heapify, heappop, heappush
from typing import Any, NamedTuple

from tests.benchmarks.every_question import diagrams_every
from tests.benchmarks.questions import Question, hand_moves, onward_zone


class Library(NamedTuple):
    """What is used of a library: constants, a variable by its number, `exists` over variables, `count` over all."""

    true: Any
    false: Any
    variable: Callable[[int], Any]
    exists: Callable[[list[int], Any], Any]
    count: Callable[[Any], int]


def oxidd_library(variables: int) -> Library:
    """By oxidd."""
    from oxidd.bdd import BDDManager

    manager = BDDManager(1 << 23, 1 << 18, 1)
    manager.add_vars(variables)

    def exists(numbers: list[int], function: Any) -> Any:
        cube = manager.true()
        for number in numbers:
            cube &= manager.var(number)
        return function.exists(cube)

    return Library(manager.true(), manager.false(), manager.var, exists, lambda one: int(one.sat_count(variables)))


def cudd_library(variables: int) -> Library:
    """By dd over CUDD, without reordering."""
    from dd.cudd import BDD

    manager = BDD()
    manager.configure(reordering=False)
    names = [f"v{number}" for number in range(variables)]
    manager.declare(*names)
    return Library(
        manager.true,
        manager.false,
        lambda number: manager.var(names[number]),
        lambda numbers, one: manager.exist([names[number] for number in numbers], one),
        lambda one: int(manager.count(one, variables)),
    )


class Encoded:
    """A question's digits and edges as functions."""

    def __init__(self, question: Question, make: Callable[[int], Library]) -> None:
        self.question = question
        self.numbers: dict[int, list[int]] = {}
        count = 0
        for digit, radix in question.radices.items():
            width = max(1, (radix - 1).bit_length())
            self.numbers[digit] = list(range(count, count + width))
            count += width
        self.library = make(count)
        self.proper = self.library.true
        for digit, radix in question.radices.items():
            self.proper &= self.among(digit, range(radix))
        self.edges = [
            (edge.tail, edge.head, self.proper if edge.digit is None else self.among(edge.digit, edge.values))
            for edge in question.edges
        ]

    def among(self, digit: int, values: Any) -> Any:
        """Where a digit has one of these values."""
        found = self.library.false
        for value in values:
            term = self.library.true
            for place, number in enumerate(self.numbers[digit]):
                variable = self.library.variable(number)
                term &= variable if value >> place & 1 else ~variable
            found |= term
        return found

    def leads(self, start: int, end: int, avoided: frozenset[int] = frozenset()) -> Any:
        """Where conductors lead from the start to the end, over none of the nets avoided."""
        onward: dict[int, dict[int, Any]] = {start: {}, end: {}}
        into: dict[int, dict[int, Any]] = {start: {}, end: {}}

        def lead(tail: int, head: int, closed: Any) -> None:
            if head != start and tail != end and tail != head and avoided.isdisjoint((tail, head)):
                heads = onward.setdefault(tail, {})
                heads[head] = into.setdefault(head, {})[tail] = heads[head] | closed if head in heads else closed

        for edge in self.edges:
            lead(*edge)
        left = (onward.keys() | into.keys()) - {start, end}
        waiting = [(len(onward.get(net, ())) * len(into.get(net, ())), net) for net in left]
        heapify(waiting)
        while waiting:
            weight, net = heappop(waiting)
            if net in left and weight == len(onward.get(net, ())) * len(into.get(net, ())):
                left.remove(net)
                tails, heads = into.pop(net, {}), onward.pop(net, {})
                for tail in tails:
                    del onward[tail][net]
                for head in heads:
                    del into[head][net]
                for tail, first in tails.items():
                    for head, second in heads.items():
                        lead(tail, head, first & second)
                for other in left & (tails.keys() | heads.keys()):
                    heappush(waiting, (len(onward.get(other, ())) * len(into.get(other, ())), other))
        return onward[start].get(end, self.library.false) & self.proper

    def reach(self, start: int, end: int, backward: bool = False) -> dict[int, Any]:
        """To each net, where conductors lead from the start; not on beyond the end."""
        onward: dict[int, list[tuple[int, Any]]] = {}
        for tail, head, closed in self.edges:
            near, far = (head, tail) if backward else (tail, head)
            onward.setdefault(near, []).append((far, closed))
        found = {start: self.proper}
        waiting = [start]
        while waiting:
            net = waiting.pop(0)
            for far, closed in onward.get(net, ()):
                before = found.get(far, self.library.false)
                after = before | found[net] & closed
                if after != before:
                    found[far] = after
                    if far != end and far not in waiting:
                        waiting.append(far)
        return found


def diagram_answer(question: Question, make: Callable[[int], Library]) -> int | bool:
    """The answer by one of the libraries."""
    encoded = Encoded(question, make)
    if question.kind == "every":
        return diagrams_every(question, encoded)
    if question.kind == "reached":
        return _reached(encoded)
    found = encoded.leads(question.start, question.end)
    return encoded.library.count(found) if question.kind == "count" else bool(found != encoded.library.false)


class _Step(NamedTuple):
    """`digit` comes to where `there` says, in the states `allowed`."""

    digit: int
    allowed: Any
    there: Any


def _reached(encoded: Encoded) -> int:
    library = encoded.library
    fed = encoded.reach(encoded.question.start, encoded.question.end)
    back = encoded.reach(encoded.question.end, encoded.question.start, True)
    (supply,) = encoded.question.circuit.supplies
    on = encoded.among(supply.digit, (1,))
    nets = _nets_of_loads(encoded.question)
    forward = [fed.get(a, library.false) & back.get(b, library.false) & on for a, b in nets]
    backward = [fed.get(b, library.false) & back.get(a, library.false) & on for a, b in nets]
    relays = list(_relay_steps(encoded, [one | other for one, other in zip(forward, backward, strict=True)]))
    resting = encoded.proper
    for step in relays:
        resting &= ~step.allowed
    for number, digit in enumerate(encoded.question.circuit.digits):
        resting &= encoded.among(number, range(len(digit.values)))
    steps = [*relays, *_hand_steps(encoded, resting), *_axis_steps(encoded, forward, backward, resting)]
    found, before = _begun(encoded), library.false
    while found != before:
        before = found
        for step in steps:
            found |= library.exists(encoded.numbers[step.digit], found & step.allowed) & step.there
    return library.count(found)


def _begun(encoded: Encoded) -> Any:
    """Relays released, axes within their range, no switch between its positions."""
    circuit, begun = encoded.question.circuit, encoded.proper
    ranges = {axis.digit: range(axis.range[0], axis.range[1] + 1) for axis in circuit.axes}
    for number, digit in enumerate(circuit.digits):
        values = range(1) if digit.kind == "relay" else ranges.get(number, range(len(digit.values)))
        begun &= encoded.among(number, values)
    return begun


def _relay_steps(encoded: Encoded, energised: list[Any]) -> Iterator[_Step]:
    for relay in encoded.question.circuit.relays:
        wanted = energised[relay.coil.load]
        for start, states in ((0, wanted), (1, encoded.proper & ~wanted)):
            allowed = states & encoded.among(relay.digit, (start,))
            yield _Step(relay.digit, allowed, encoded.among(relay.digit, (1 - start,)))


def _hand_steps(encoded: Encoded, resting: Any) -> Iterator[_Step]:
    for number, digit in enumerate(encoded.question.circuit.digits):
        if digit.kind in ("control", "supply", "outside"):
            for start, end in hand_moves(digit):
                when = resting if start < len(digit.values) else encoded.proper
                yield _Step(number, when & encoded.among(number, (start,)), encoded.among(number, (end,)))


def _axis_steps(encoded: Encoded, forward: list[Any], backward: list[Any], resting: Any) -> Iterator[_Step]:
    circuit = encoded.question.circuit
    for motor in circuit.motors:
        if motor.axis is not None:
            axis = circuit.axes[motor.axis]
            (winding,) = motor.windings
            zones = encoded.question.radices[axis.digit]
            for driven, upward in ((forward, motor.upward), (backward, not motor.upward)):
                for zone in range(zones):
                    onward = onward_zone(axis, zone, zones, upward)
                    allowed = driven[winding.load] & resting & encoded.among(axis.digit, (zone,))
                    yield _Step(axis.digit, allowed, encoded.among(axis.digit, (onward,)))


def _nets_of_loads(question: Question) -> list[tuple[int, int]]:
    from circuitcheck.analysis.network import joined_terminals

    nets = joined_terminals(question.circuit)
    return [(nets[load.a], nets[load.b]) for load in question.circuit.loads]
