"""What all engines are asked alike: a circuit, and as plain data its nets, ways between them, digits.

Wires are taken together first (`joined_terminals`), by everybody within their own time. `short`: is there a combination
in which conductors lead from + to −? `every`: that, and all else of the kind (every_question.py). `count`: in how many
do they? `reached`: how many states does operation come to?
"""

from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import NamedTuple

from circuitcheck.analysis.network import joined_terminals
from circuitcheck.circuit.building import build_circuit
from circuitcheck.circuit.model import Axis, Circuit, Digit, Terminal
from circuitcheck.plan.reading import read_plan, read_text
from tests.benchmarks.conduction import END, START, dense_circuit
from tests.benchmarks.panels import chain
from tests.benchmarks.panels import panel as pairs
from tests.benchmarks.reachability import panel as relays

EXAMPLES = Path(__file__).parents[2] / "examples"
SIZES = (1, 10, 50, 200)
DENSE = (16, 20, 24, 30)
RELAYS = ((6, 6), (8, 8), (10, 10), (12, 11), (12, 12))


class Edge(NamedTuple):
    """Current passes from `tail` to `head` while `digit` has one of `values`; always where digit is None."""

    tail: int
    head: int
    digit: int | None
    values: frozenset[int]


class Asked(NamedTuple):
    """kind: `short`, `every`, `count` or `reached`. start, end: the terminals meant."""

    name: str
    kind: str
    circuit: Circuit
    start: Terminal
    end: Terminal


class Question(NamedTuple):
    """The same for engines that know no circuits. start, end: nets; edges: between nets, each direction its own."""

    kind: str
    circuit: Circuit
    start: int
    end: int
    edges: tuple[Edge, ...]

    @property
    def radices(self) -> dict[int, int]:
        """Those of the digits that have contacts, or for behaviour all of them."""
        used = {edge.digit for edge in self.edges}
        every = self.kind == "reached"
        return {number: one.radix for number, one in enumerate(self.circuit.digits) if every or number in used}


def question_of(asked: Asked) -> Question:
    """What is asked, as nets and edges."""
    nets = joined_terminals(asked.circuit)
    edges = edges_of(asked.circuit, nets)
    return Question(asked.kind, asked.circuit, nets[asked.start], nets[asked.end], edges)


def questions() -> dict[str, Callable[[], Asked]]:
    """All rows of the table by name; each is made when it is asked."""
    rows: dict[str, Callable[[], Asked]] = {
        "usual plan": partial(_between_rails, "usual plan", "short", _usual),
        "usual plan, every question": partial(_between_rails, "usual plan, every question", "every", _usual),
        "usual plan without times": partial(_between_rails, "usual plan without times", "reached", _without_times),
    }
    for plan in (pairs, chain):
        for size in SIZES:
            name = f"{'pairs' if plan is pairs else 'chain'} {size}"
            rows[name] = partial(_between_rails, name, "short", partial(_read, plan, size))
    for size in DENSE:
        rows[f"dense {size}"] = partial(_count, f"dense {size}", size)
    for pair in RELAYS:
        name = f"relays {pair[0]}+{pair[1]}"
        rows[name] = partial(_between_rails, name, "reached", partial(_read, relays, *pair))
    return rows


def _usual() -> Circuit:
    return build_circuit(read_plan(EXAMPLES / "right" / "drawbridge.plan", (EXAMPLES,)))


def _without_times() -> Circuit:
    """Relays may move in any order: no other engine has a clock."""
    circuit = _usual()
    relays = tuple(
        relay._replace(operate_seconds=None, release_seconds=None, release_with_diode_seconds=None)
        for relay in circuit.relays
    )
    return circuit._replace(relays=relays)


def _read(plan: Callable[..., str], *sizes: int) -> Circuit:
    return build_circuit(read_text("panel.plan", plan(*sizes)))


def _between_rails(name: str, kind: str, make: Callable[[], Circuit]) -> Asked:
    circuit = make()
    (supply,) = circuit.supplies
    return Asked(name, kind, circuit, supply.plus, supply.minus)


def _count(name: str, size: int) -> Asked:
    return Asked(name, "count", dense_circuit(size), START, END)


def hand_moves(digit: Digit) -> set[tuple[int, int]]:
    """From where to where a hand moves a control, a supply or an outside contact: by way of the moments between."""
    positions = range(len(digit.values))
    moves = {(start, end) for start in positions for end in positions if start != end}
    for place, moment in enumerate(digit.moments, len(digit.values)):
        moves -= moment.moves
        moves |= {(start, place) for start, _ in moment.moves} | {(place, end) for _, end in moment.moves}
    return moves


def onward_zone(axis: Axis, zone: int, zones: int, upward: bool) -> int:
    """The next zone in a direction; the same one where the axis goes no further."""
    onward = zone + (1 if upward else -1)
    return onward % zones if axis.turning else min(max(onward, 0), zones - 1)


def edges_of(circuit: Circuit, nets: dict[str, int]) -> tuple[Edge, ...]:
    """The conductors as edges, both ways unless they pass current one way only."""
    edges = []
    for one in circuit.conductors:
        tail, head = nets[one.tail], nets[one.head]
        digit, values = (None, frozenset[int]()) if one.closed is None else (one.closed.digit, one.closed.values)
        if tail != head:
            edges.append(Edge(tail, head, digit, values))
            if not one.one_way:
                edges.append(Edge(head, tail, digit, values))
    return tuple(edges)
