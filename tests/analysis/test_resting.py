"""Where relays come to rest, against the strongly connected components of the graph of states."""

import networkx as nx
from hypothesis import given, settings
from hypothesis import strategies as st

from circuitcheck.analysis.resting import Step, resting_states
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
