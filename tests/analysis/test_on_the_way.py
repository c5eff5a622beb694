"""Which conductors lie on a way from here to there, against the definition taken literally, state by state."""

import networkx as nx
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from circuitcheck.analysis.facts import Facts, analyse
from circuitcheck.analysis.on_the_way import OnTheWay
from circuitcheck.circuit.model import Circuit
from tests.analysis.plans import circuit_of, plan_texts
from tests.analysis.test_carrying import states_of

Pair = tuple[int, int]


def joined(circuit: Circuit, way: OnTheWay, state: dict[int, int], ends: Pair) -> "nx.MultiDiGraph[int]":
    """Each conductor closed in a state, by its index, from junction to junction; rails that are no end are left out."""
    graph: nx.MultiDiGraph[int] = nx.MultiDiGraph()
    graph.add_nodes_from(ends)
    for number, one in enumerate(circuit.conductors):
        tail, head = way.junction(one.tail), way.junction(one.head)
        closed = one.closed is None or state[one.closed.digit] in one.closed.values
        if closed and tail != head and not any(end < 0 and end not in ends for end in (tail, head)):
            graph.add_edge(tail, head, number)
            if not one.one_way:
                graph.add_edge(head, tail, number)
    return graph


def lies_between(graph: "nx.MultiDiGraph[int]", number: int, start: int, end: int) -> bool:
    """X leads to u without c, v leads to Y without c, and no single junction parts c from X and Y both."""
    edges = [(here, there) for here, there, key in graph.edges(keys=True) if key == number]
    rest = graph.copy()
    for here, there in edges:
        rest.remove_edge(here, there, number)
    before, after = rest.copy(), rest.copy()
    for rail in {start, end}:
        if rail < 0:  # a way never goes on over a rail
            before.remove_edges_from(list(before.out_edges(rail, keys=True)) if rail == end else [])
            after.remove_edges_from(list(after.in_edges(rail, keys=True)) if rail == start else [])
    over = [
        (here, there)
        for here, there in edges
        if here != end and there != start and nx.has_path(before, start, here) and nx.has_path(after, there, end)
    ]
    return bool(over) and not any(parts(graph, junction, over[0], start, end) for junction in graph)


def parts(graph: "nx.MultiDiGraph[int]", junction: int, ends: Pair, start: int, end: int) -> bool:
    """With the junction taken out, and diodes passing both ways, does neither end of a way hang together with c?"""
    left = graph.to_undirected()
    left.remove_node(junction)
    sources, goals = {start, end} - {junction}, set(ends) - {junction}
    reached = {one for source in sources for one in _until_rails(left, source)}
    return not goals & reached


def _until_rails(graph: "nx.MultiGraph[int]", source: int) -> set[int]:
    found, edge = {source}, [source]
    while edge:
        here = edge.pop()
        beyond = set(graph[here]) - found if here >= 0 or here == source else set()
        found |= beyond
        edge += beyond
    return found


def assert_as_defined(facts: Facts, way: OnTheWay, start: int, end: int) -> None:
    """For every conductor outside rails, in every state."""
    circuit, found = facts.circuit, dict(way.between(start, end, facts.spaces.all()))
    for state in states_of(circuit):
        graph = joined(circuit, way, state, (start, end))
        for number in {key for _, _, key in graph.edges(keys=True)}:
            there = number in found and state in found[number]
            assert there == lies_between(graph, number, start, end), (start, end, number, state)


@settings(max_examples=20, deadline=None)
@given(plan_texts(most_states=24, most_parts=7), st.data())
def test_what_lies_on_a_way_is_what_the_definition_says(text: str, data: st.DataObject) -> None:
    """Between random junctions, in every state of a random circuit, for every conductor outside rails."""
    circuit = circuit_of(text)
    facts = analyse(circuit)
    way = OnTheWay(circuit, facts.conduction)
    junctions = sorted({way.junction(terminal) for terminal in facts.conduction.network.nets})
    for _ in range(4):
        start, end = data.draw(st.sampled_from(junctions)), data.draw(st.sampled_from(junctions))
        if start == end:
            continue
        assert_as_defined(facts, way, start, end)


MESHES = (
    """
supply PS 12 V 10 A
switch S1 S2 S3 spst positions off on
diode D1 D2
lamp L1 12 V 2 W
rung PS.+, S1, S2, L1.1
rung S1.on, S3, D1.anode
rung D1.cathode, D2.cathode
wire D2.anode L1.1
""",
    """
supply PS 12 V 10 A
switch S1 S2 S3 spst positions off on
diode D1
lamp L1 12 V 2 W
rung PS.+, S1, L1.1
rung PS.+, S2, D1.cathode
wire D1.anode L1.1
rung D1.cathode, S3, L1, PS.-
""",
)
"""A contact in a loop that leads to one end of it, and not on: two diodes face each other, or one stands the other way
round."""


@pytest.mark.parametrize("text", MESHES)
def test_a_diode_in_a_loop_of_contacts_is_as_the_definition_says(text: str) -> None:
    """Both ways between the supply's + and the lamp."""
    facts = analyse(circuit_of(text))
    way = OnTheWay(facts.circuit, facts.conduction)
    plus, lamp = way.junction("PS.+"), way.junction("L1.1")
    for ends in ((plus, lamp), (lamp, plus)):
        assert_as_defined(facts, way, *ends)


@settings(max_examples=40, deadline=None)
@given(plan_texts(most_states=200, most_parts=9), st.data())
def test_what_is_asked_of_some_states_is_what_holds_of_all_in_them(text: str, data: st.DataObject) -> None:
    """Only how long it takes depends on the states that are asked about."""
    circuit = circuit_of(text)
    facts = analyse(circuit)
    way = OnTheWay(circuit, facts.conduction)
    junctions = sorted({way.junction(terminal) for terminal in facts.conduction.network.nets})
    start, end = data.draw(st.sampled_from(junctions)), data.draw(st.sampled_from(junctions))
    digit = data.draw(st.integers(0, len(circuit.digits) - 1)) if circuit.digits else None
    within = facts.spaces.all() if digit is None else facts.spaces.where(digit, (0,))
    narrow, every = dict(way.between(start, end, within)), dict(way.between(start, end, facts.spaces.all()))
    for number in narrow.keys() | every.keys():
        none = facts.spaces.none()
        assert narrow.get(number, none).same_as(every.get(number, none) & within)
