"""All questions state by state with networkx: a graph of the contacts closed in one state, and a search in it.

Where there are more states than would be waited for, the time is that of some states at random, times their number, and
the answer is left out.
"""

import random
import time
from collections import deque
from math import prod
from typing import NamedTuple

import networkx as nx

from tests.benchmarks.questions import Question

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
    from circuitcheck.analysis.network import joined_terminals

    circuit = question.circuit
    nets = joined_terminals(circuit)
    coils = [
        (one.digit, nets[circuit.loads[one.coil.load].a], nets[circuit.loads[one.coil.load].b])
        for one in circuit.relays
    ]
    moved_by_itself = {digit for digit, _, _ in coils}
    controls = [digit for digit in question.radices if digit not in moved_by_itself]
    (supply,) = circuit.supplies
    begun = time.process_time()
    found: set[State] = set()
    for number in range(1 << len(controls)):
        values = {digit: number >> place & 1 for place, digit in enumerate(controls)}
        found.add(tuple(values.get(digit, 0) for digit in question.radices))
    waiting, expanded = deque(found), 0
    while waiting and expanded < MOST_REACHED:
        state = waiting.popleft()
        expanded += 1
        for digit in _wishes(question, state, coils, supply.digit) or controls:
            after = (*state[:digit], 1 - state[digit], *state[digit + 1 :])
            if after not in found:
                found.add(after)
                waiting.append(after)
    each = (time.process_time() - begun) / expanded
    return Searched(None, each * states) if waiting else Searched(len(found), each * expanded)


def _wishes(question: Question, state: State, coils: list[tuple[int, int, int]], supply: int) -> list[int]:
    graph: nx.DiGraph[int] = nx.DiGraph()
    graph.add_nodes_from((question.start, question.end))
    graph.add_edges_from(
        (edge.tail, edge.head) for edge in question.edges if edge.digit is None or state[edge.digit] in edge.values
    )
    fed = nx.descendants(graph, question.start) | {question.start} if state[supply] else set()
    back = nx.ancestors(graph, question.end) | {question.end}
    return [digit for digit, a, b in coils if (a in fed and b in back) != bool(state[digit])]
