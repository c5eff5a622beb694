"""Where conductors lead, against two outside libraries: graph search (networkx) and a SAT solver (python-sat, CaDiCaL).

For the solver the question is put the other way round: let every net that is led to be marked, each closed contact
passing the mark on; conductors lead to a net just when it cannot be left without a mark.
"""

from itertools import product

import networkx as nx
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pysat.solvers import Cadical153  # type: ignore[import-untyped]

from circuitcheck.analysis.network import joined_terminals
from circuitcheck.circuit.model import Circuit, Conductor
from tests.reference.asking import facts_of

JUNCTIONS = ("N1", "N2", "N3", "N4", "N5")
FORMS = (("no", "13", "14"), ("nc", "11", "12"))


@st.composite
def contact_networks(draw: st.DrawFn, most: int = 6) -> str:
    """Buttons and diodes between a few splices; no supply, so that nothing but conductors matters."""
    lines = [f"splice {' '.join(JUNCTIONS)}"]
    for number in range(draw(st.integers(1, most))):
        a, b = draw(st.sampled_from(JUNCTIONS)), draw(st.sampled_from(JUNCTIONS))
        if draw(st.integers(0, 3)) == 0:
            lines += [f"diode D{number}", f"wire {a} D{number}.anode", f"wire D{number}.cathode {b}"]
        else:
            form, first, second = draw(st.sampled_from(FORMS))
            lines += [f"button B{number} {form}", f"wire {a} B{number}.{first}", f"wire B{number}.{second} {b}"]
    return "\n".join(lines)


def closed_in(conductor: Conductor, state: tuple[int, ...]) -> bool:
    """Does it conduct in this state?"""
    return conductor.closed is None or state[conductor.closed.digit] in conductor.closed.values


def search(circuit: Circuit, start: str, state: tuple[int, ...]) -> set[str]:
    """networkx: what a walk from `start` over closed conductors gets to."""
    graph: nx.DiGraph[str] = nx.DiGraph()
    graph.add_node(start)
    for one in circuit.conductors:
        if closed_in(one, state):
            graph.add_edge(one.tail, one.head)
            if not one.one_way:
                graph.add_edge(one.head, one.tail)
    return {start} | nx.descendants(graph, start)


def solver_for(circuit: Circuit, start: str) -> tuple[Cadical153, dict[str, int], list[list[int]]]:
    """Marks spreading from `start`. Variables: a mark for each terminal; for each digit one variable a value."""
    terminals = sorted(joined_terminals(circuit))
    marks = {terminal: number for number, terminal in enumerate(terminals, 1)}
    count = len(marks)
    values = []
    for digit in circuit.digits:
        values.append([count + 1 + value for value in range(digit.radix)])
        count += digit.radix
    solver = Cadical153(bootstrap_with=[[marks[start]]])
    for one in circuit.conductors:
        ends = [(one.tail, one.head)] if one.one_way else [(one.tail, one.head), (one.head, one.tail)]
        contact = one.closed
        guards = [[]] if contact is None else [[-values[contact.digit][value]] for value in sorted(contact.values)]
        for tail, head in ends:
            for guard in guards:
                solver.add_clause([*guard, -marks[tail], marks[head]])
    return solver, marks, values


def differences(text: str) -> list[str]:
    """Terminals and states in which the engine, the search and the solver don't say the same."""
    facts = facts_of(text)
    circuit = facts.circuit
    states = list(product(*(range(digit.radix) for digit in circuit.digits)))
    found = []
    for start in JUNCTIONS:
        solver, marks, values = solver_for(circuit, start)
        with solver:
            for state in states:
                walked = search(circuit, start, state)
                given_values = [
                    values[digit][value] if value == stands else -values[digit][value]
                    for digit, stands in enumerate(state)
                    for value in range(len(values[digit]))
                ]
                for end in JUNCTIONS:
                    engine = dict(enumerate(state)) in facts.conduction.leads(start, end)
                    satisfied = not solver.solve(assumptions=[*given_values, -marks[end]])
                    if not engine == (end in walked) == satisfied:
                        found.append(f"{start} to {end} in {state}: {engine}, {end in walked}, {satisfied}")
    return found


@settings(max_examples=25, deadline=None)
@given(contact_networks())
def test_conduction_is_what_a_search_and_a_solver_find_in_every_state(text: str) -> None:
    """All three agree on every pair of junctions, state by state."""
    assert differences(text) == []


@pytest.mark.slow
@settings(max_examples=300, deadline=None)
@given(contact_networks(most=9))
def test_conduction_of_larger_networks_is_what_a_search_and_a_solver_find(text: str) -> None:
    """The same with up to nine contacts and diodes."""
    assert differences(text) == []
