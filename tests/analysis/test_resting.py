"""Where relays come to rest, against the strongly connected components of the graph of states."""

import networkx as nx
from hypothesis import given, settings
from hypothesis import strategies as st

from circuitcheck.analysis.resting import (
    Step,
    following,
    leading_to,
    not_leading_to,
    resting_states,
    rounds_from,
    stepped,
)
from circuitcheck.analysis.states import Space

RADICES = (2, 2, 3, 2)


@st.composite
def step_systems(draw: st.DrawFn, space: Space) -> list[Step]:
    """Relays (the first three digits) that want to move in random sets of states; the last digit is an input."""
    steps = []
    for digit in range(3):
        for start in range(RADICES[digit]):
            for end in range(RADICES[digit]):
                if start != end and draw(st.booleans()):
                    wanted = draw(st.integers(0, space.full)) | draw(st.integers(0, space.full))
                    steps.append(Step(digit, start, end, wanted & space.where(digit, (start,))))
    return steps


@settings(max_examples=150, deadline=None)
@given(st.data())
def test_rest_is_where_there_is_no_way_out(data: st.DataObject) -> None:
    """A state is at rest just when it lies in a component of the graph of states that no step leaves, or is shorted."""
    space = Space(tuple(range(len(RADICES))), RADICES)
    steps = data.draw(step_systems(space))
    stopped = data.draw(st.integers(0, space.full)) & data.draw(st.integers(0, space.full))
    steps = [step._replace(allowed=step.allowed & ~stopped) for step in steps]
    graph: nx.DiGraph[int] = nx.DiGraph()
    graph.add_nodes_from(range(space.size))
    for step in steps:
        for state in range(space.size):
            if step.allowed >> state & 1:
                graph.add_edge(state, space.number({**space.values(state), step.digit: step.end}))
    expected = {state for component in nx.attracting_components(graph) for state in component}
    rest = resting_states(space, steps, stopped)
    assert {state for state in range(space.size) if rest >> state & 1} == expected


CLOCK = 3
"""The digit of the second space that tells what is known of times: its highest, moved by steps of all others."""


@st.composite
def timed_steps(draw: st.DrawFn, space: Space) -> list[Step]:
    """Steps that each begin at one reading of the clock and lead to another, or to the same."""
    readings = space.radices[CLOCK]
    steps = []
    for _ in range(draw(st.integers(1, 8))):
        digit = draw(st.integers(0, CLOCK - 1))
        start, end = draw(st.permutations(range(space.radices[digit])))[:2]
        here, there = draw(st.integers(0, readings - 1)), draw(st.integers(0, readings - 1))
        allowed = draw(st.integers(0, space.full)) & space.where(digit, (start,)) & space.where(CLOCK, (here,))
        steps.append(Step(digit, start, end, allowed, (there - here) * space.strides[CLOCK]))
    return steps


def graph_of(space: Space, steps: list[Step]) -> "nx.DiGraph[int]":
    """Every state, and an edge for each step from each state that allows it."""
    graph: nx.DiGraph[int] = nx.DiGraph()
    graph.add_nodes_from(range(space.size))
    for step in steps:
        for state in states_in(space, step.allowed):
            graph.add_edge(state, space.number({**space.values(state), step.digit: step.end}) + step.clock)
    return graph


def states_in(space: Space, bits: int) -> set[int]:
    """The numbers of the states of a set."""
    return {state for state in range(space.size) if bits >> state & 1}


@settings(max_examples=60, deadline=None)
@given(st.data())
def test_what_steps_lead_to_with_and_without_a_clock_is_what_a_search_finds(data: st.DataObject) -> None:
    """Onward, backward, round by round, and what never leads anywhere near."""
    space = Space((0, 1, 2, CLOCK), (2, 2, 3, 4))
    steps = data.draw(timed_steps(space) | step_systems(space))
    graph = graph_of(space, steps)
    some = st.integers(0, space.full) | st.integers(0, space.size - 1).map(lambda state: 1 << state)
    begun, goal = data.draw(some), data.draw(some)
    starts, ends = states_in(space, begun), states_in(space, goal)
    rounds = list(nx.bfs_layers(graph, starts)) if starts else []
    back = {state for layer in nx.bfs_layers(graph.reverse(), ends) for state in layer} if ends else set()
    assert states_in(space, following(space, steps, begun)) == {state for layer in rounds for state in layer}
    assert [states_in(space, bits) for bits in rounds_from(space, steps, begun)] == [set(layer) for layer in rounds]
    assert states_in(space, leading_to(space, steps, goal)) == back
    asked = leading_to(space, steps, goal, begun)
    assert states_in(space, asked) <= back
    assert states_in(space, asked & begun) == back & starts
    close = data.draw(st.sets(st.integers(0, 2)))
    assert states_in(space, not_leading_to(space, steps, begun, goal, close)) == starts - back
    for step in steps:
        alone = graph_of(space, [step])
        assert states_in(space, stepped(space, begun, step)) == {there for one in starts for there in alone[one]}


@settings(max_examples=60, deadline=None)
@given(st.data())
def test_rest_with_a_clock_is_where_there_is_no_way_out(data: st.DataObject) -> None:
    """A group that goes round may lead through several readings."""
    space = Space((0, 1, 2, CLOCK), (2, 2, 3, 3))
    steps = data.draw(timed_steps(space))
    components = nx.attracting_components(graph_of(space, steps))
    rest = resting_states(space, steps, 0)
    assert states_in(space, rest) == {state for component in components for state in component}
