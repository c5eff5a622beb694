"""All questions state by state with networkx: a graph of the contacts closed in one state, and a search in it.

Where there are more states than would be waited for, the time is that of some states at random, times their number, and
the answer is left out.
"""

import random
import time
from collections import deque
from itertools import product
from math import prod
from typing import NamedTuple

import networkx as nx

from circuitcheck.analysis.network import joined_terminals
from circuitcheck.circuit.model import Circuit
from tests.benchmarks.questions import Question, hand_moves, onward_zone

MOST_SEARCHED = 20_000
MOST_REACHED = 1_000

State = tuple[int, ...]


class Searched(NamedTuple):
    """answer: None where not all states were looked at; seconds: for all states, extrapolated in that case."""

    answer: int | bool | None
    seconds: float


def search_answer(question: Question, reached: int) -> Searched:
    """The answer of the plain way. reached: how many states there are to look at, to tell how long all take."""
    return _reached(question, reached) if question.kind == "reached" else _leading(question)


def _leading(question: Question) -> Searched:
    digits = list(question.radices)
    total = prod(question.radices.values())
    chance = random.Random(1)
    looked_at = (
        range(total) if total <= MOST_SEARCHED else [chance.randrange(total) for _ in range(MOST_SEARCHED // 40)]
    )
    begun, found = time.process_time(), 0
    for number in looked_at:
        values: dict[int | None, int] = {}
        for digit in digits:
            number, values[digit] = divmod(number, question.radices[digit])
        found += leads(question, values, question.start, question.end)
    seconds = (time.process_time() - begun) * (total / len(looked_at))
    if len(looked_at) < total:
        return Searched(None, seconds)
    return Searched(found if question.kind == "count" else bool(found), seconds)


def leads(question: Question, values: dict[int | None, int], start: int, end: int) -> bool:
    """Is there a path in this state?"""
    graph: nx.DiGraph[int] = nx.DiGraph()
    graph.add_nodes_from((start, end))
    graph.add_edges_from(
        (edge.tail, edge.head) for edge in question.edges if edge.digit is None or values[edge.digit] in edge.values
    )
    return nx.has_path(graph, start, end)


def _reached(question: Question, states: int) -> Searched:
    """Breadth first, until all states are met, or enough of them to tell the time of one."""
    nets = joined_terminals(question.circuit)
    loads = [(nets[load.a], nets[load.b]) for load in question.circuit.loads]
    begun = time.process_time()
    found = set(product(*_begun(question.circuit)))
    waiting, expanded = deque(found), 0
    while waiting and expanded < MOST_REACHED:
        state = waiting.popleft()
        expanded += 1
        for digit, value in _moves(question, state, loads):
            after = (*state[:digit], value, *state[digit + 1 :])
            if after not in found:
                found.add(after)
                waiting.append(after)
    each = (time.process_time() - begun) / expanded
    return Searched(None, each * states) if waiting else Searched(len(found), each * expanded)


def _begun(circuit: Circuit) -> list[range]:
    """What each digit may be at first: relays released, axes within their range, no switch between its positions."""
    ranges = {axis.digit: range(axis.range[0], axis.range[1] + 1) for axis in circuit.axes}
    return [
        range(1) if digit.kind == "relay" else ranges.get(number, range(len(digit.values)))
        for number, digit in enumerate(circuit.digits)
    ]


def _moves(question: Question, state: State, loads: list[tuple[int, int]]) -> list[tuple[int, int]]:
    """Which digits may go where in a state: relays and switches between positions, or if there are none, all else."""
    circuit = question.circuit
    fed, back = _fed(question, state)
    driven = [_across(load, fed, back) for load in loads]
    first = [
        (relay.digit, 1 - state[relay.digit])
        for relay in circuit.relays
        if (driven[relay.coil.load] != 0) != bool(state[relay.digit])
    ]
    hands = [
        (number, end)
        for number, digit in enumerate(circuit.digits)
        if digit.kind in ("control", "supply", "outside")
        for start, end in hand_moves(digit)
        if start == state[number]
    ]
    between = [(number, end) for number, end in hands if state[number] >= len(circuit.digits[number].values)]
    if first or between:
        return first + between
    for motor in circuit.motors:
        (winding,) = motor.windings
        if motor.axis is not None and driven[winding.load]:
            axis = circuit.axes[motor.axis]
            upward = (driven[winding.load] > 0) == motor.upward
            zones = circuit.digits[axis.digit].radix
            hands.append((axis.digit, onward_zone(axis, state[axis.digit], zones, upward)))
    return hands


def _across(load: tuple[int, int], fed: set[int], back: set[int]) -> int:
    """1 where current goes through a load from its first end to its second, -1 the other way, 0 for none."""
    a, b = load
    return 1 if a in fed and b in back else -1 if b in fed and a in back else 0


def _fed(question: Question, state: State) -> tuple[set[int], set[int]]:
    """The nets that conductors join to + while the supply is on, and those that they join to −."""
    graph: nx.DiGraph[int] = nx.DiGraph()
    graph.add_nodes_from((question.start, question.end))
    graph.add_edges_from(
        (edge.tail, edge.head) for edge in question.edges if edge.digit is None or state[edge.digit] in edge.values
    )
    (supply,) = question.circuit.supplies
    fed = nx.descendants(graph, question.start) | {question.start} if state[supply.digit] else set()
    return fed, nx.ancestors(graph, question.end) | {question.end}
