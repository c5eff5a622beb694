"""Where conductors lead, by a fixed point, by nets taken out and block by block, against a search in each state."""

import networkx as nx
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from circuitcheck.analysis import slices
from circuitcheck.analysis.blocks import reach_by_blocks
from circuitcheck.analysis.conduction import Reached
from circuitcheck.analysis.network import Way
from circuitcheck.analysis.reach import reach
from circuitcheck.analysis.slices import InSlices
from circuitcheck.analysis.states import Spaces, States

RADICES = (2, 3, 2, 2, 3, 2)
NETS = 7
RAILS = frozenset({0, 1})


@st.composite
def ways_of_networks(draw: st.DrawFn, spaces: Spaces) -> list[Way]:
    """Contacts and diodes between a few nets, each closed at some values of one digit, or beside another digit's."""
    ways = {}
    for _ in range(draw(st.integers(1, 11))):
        tail, head = draw(st.tuples(*[st.integers(0, NETS - 1)] * 2).filter(lambda ends: ends[0] != ends[1]))
        digit = draw(st.integers(0, len(RADICES) - 1))
        closed = spaces.where(digit, draw(st.sets(st.integers(0, RADICES[digit] - 1), min_size=1)))
        if draw(st.integers(0, 3)) == 0:
            closed = closed | spaces.where(draw(st.integers(0, len(RADICES) - 1)), (1,))
        ways[tail, head] = Way(tail, head, closed)
        if draw(st.booleans()):
            ways[head, tail] = Way(head, tail, closed)
    return list(ways.values())


def search(ways: list[Way], source: int, state: dict[int, int]) -> set[int]:
    """The nets that one state's closed ways lead to; a path may end at a rail but not go on there."""
    graph: nx.DiGraph[int] = nx.DiGraph()
    graph.add_node(source)
    graph.add_edges_from(
        (way.tail, way.head) for way in ways if state in way.closed and (way.tail not in RAILS or way.tail == source)
    )
    return {source} | nx.descendants(graph, source)


def differing(ways: list[Way], spaces: Spaces, source: int, asked: list[int]) -> list[str]:
    """Nets and states in which one of the engines differs from the search. asked: the nets in the order of asking."""
    space, none = spaces.of(range(len(RADICES))), spaces.none()
    engines: dict[str, Reached] = {
        "by a fixed point": reach(ways, source, RAILS, spaces, space.digits),
        "in slices": InSlices(ways, source, RAILS, spaces, space.digits),
        "by blocks": reach_by_blocks(ways, source, RAILS, spaces),
    }
    answers = [(name, net, engine.get(net, none)) for name, engine in engines.items() for net in asked]
    found = []
    for number in range(space.size):
        state = space.values(number)
        led = search(ways, source, state)
        for name, net, states in answers:
            if (state in states) != (net in led):
                found.append(f"{name}: {source} to {net} in {state}")
    return found


@settings(max_examples=100, deadline=None)
@given(st.data(), st.integers(0, NETS - 1), st.permutations(range(NETS)), st.sampled_from((1, 2, 7, 40, 1000)))
def test_every_engine_finds_what_a_search_finds_in_each_state(
    data: st.DataObject, source: int, asked: list[int], slice_states: int
) -> None:
    """They agree with a search in each state, however finely it is sliced, from inner nets and from rails that some way
    touches, whichever net is asked first."""
    spaces = Spaces(RADICES)
    ways = data.draw(ways_of_networks(spaces))
    assume(any(source in (way.tail, way.head) for way in ways))
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(slices, "SLICE", slice_states)
        assert differing(ways, spaces, source, asked)[:3] == []


@settings(max_examples=50, deadline=None)
@given(st.data(), st.integers(0, NETS - 1), st.permutations(range(NETS)))
def test_diagrams_lead_where_integers_do(data: st.DataObject, source: int, asked: list[int]) -> None:
    """Over diagrams as over integers, nets are taken out with the same answers, whichever is asked first."""
    spaces, as_diagrams = Spaces(RADICES), Spaces(RADICES, 1)
    ways = data.draw(ways_of_networks(spaces))
    same = [way._replace(closed=brought(way.closed, as_diagrams)) for way in ways]
    space = spaces.of(range(len(RADICES)))
    wide = as_diagrams.of(space.digits)
    whole = reach(ways, source, RAILS, spaces, space.digits)
    taken_out = InSlices(same, source, RAILS, as_diagrams, space.digits)
    for net in asked:
        expected = brought(whole.get(net, spaces.none()), as_diagrams)
        assert taken_out.get(net, as_diagrams.none()).over(wide) == expected.over(wide)


def brought(states: States, spaces: Spaces) -> States:
    """The same set with other spaces."""
    found = spaces.none()
    for number in range(states.space.size):
        if states.bits >> number & 1:
            one = spaces.all()
            for digit, value in states.space.values(number).items():
                one = one & spaces.where(digit, (value,))
            found = found | one
    return found
