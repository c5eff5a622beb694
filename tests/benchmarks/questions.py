"""What all engines are asked alike, as plain data: nets, ways between them, digits.

Wires are taken together beforehand (`joined_terminals`), for everybody. `short`: is there a combination in which
conductors lead from + to −? `count`: in how many do they? `reached`: how many states does operation come to?
"""

from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import NamedTuple

from circuitcheck.analysis.network import joined_terminals
from circuitcheck.circuit.building import build_circuit
from circuitcheck.circuit.model import Circuit
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


class Question(NamedTuple):
    """kind: `short`, `count` or `reached`. start, end: the nets meant; edges: between nets, each direction its own."""

    name: str
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


def questions() -> dict[str, Callable[[], Question]]:
    """All rows of the table by name; each is made when it is asked."""
    rows: dict[str, Callable[[], Question]] = {"usual plan": partial(_short, "usual plan", _usual)}
    for plan in (pairs, chain):
        for size in SIZES:
            name = f"{'pairs' if plan is pairs else 'chain'} {size}"
            rows[name] = partial(_short, name, partial(_read, plan, size))
    for size in DENSE:
        rows[f"dense {size}"] = partial(_count, f"dense {size}", size)
    for pair in RELAYS:
        name = f"relays {pair[0]}+{pair[1]}"
        rows[name] = partial(_reached, name, partial(_read, relays, *pair))
    return rows


def _usual() -> Circuit:
    return build_circuit(read_plan(EXAMPLES / "right" / "drawbridge.plan", (EXAMPLES,)))


def _read(plan: Callable[..., str], *sizes: int) -> Circuit:
    return build_circuit(read_text("panel.plan", plan(*sizes)))


def _short(name: str, make: Callable[[], Circuit]) -> Question:
    circuit = make()
    nets, (supply,) = joined_terminals(circuit), circuit.supplies
    return Question(name, "short", circuit, nets[supply.plus], nets[supply.minus], edges_of(circuit, nets))


def _count(name: str, size: int) -> Question:
    circuit = dense_circuit(size)
    nets = joined_terminals(circuit)
    return Question(name, "count", circuit, nets[START], nets[END], edges_of(circuit, nets))


def _reached(name: str, make: Callable[[], Circuit]) -> Question:
    return _short(name, make)._replace(kind="reached")


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
