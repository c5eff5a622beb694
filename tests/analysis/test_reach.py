"""Where conductors lead, whole, in slices and block by block, against a search in each state."""

import networkx as nx
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from circuitcheck.analysis import reach as slicing
from circuitcheck.analysis.blocks import reach_by_blocks
from circuitcheck.analysis.network import Way
from circuitcheck.analysis.reach import reach
from circuitcheck.analysis.states import Spaces

RADICES = (2, 3, 2, 2, 3, 2)
NETS = 7
RAILS = frozenset({0, 1})


@st.composite
def ways_of_networks(draw: st.DrawFn, spaces: Spaces) -> list[Way]:
    """Contacts and diodes between a few nets, each closed at some values of one digit."""
    ways = {}
    for _ in range(draw(st.integers(1, 11))):
        tail, head = draw(st.tuples(*[st.integers(0, NETS - 1)] * 2).filter(lambda ends: ends[0] != ends[1]))
        digit = draw(st.integers(0, len(RADICES) - 1))
        closed = spaces.where(digit, draw(st.sets(st.integers(0, RADICES[digit] - 1), min_size=1)))
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


def differing(ways: list[Way], spaces: Spaces, source: int) -> list[str]:
    """Nets and states in which one of the two engines differs from the search."""
    space, none = spaces.of(range(len(RADICES))), spaces.none()
    whole = reach(ways, source, RAILS, spaces, space.digits)
    by_blocks = reach_by_blocks(ways, source, RAILS, spaces)
    found = []
    for number in range(space.size):
        state = space.values(number)
        led = search(ways, source, state)
        for net in range(NETS):
            for name, states in (("whole", whole.get(net, none)), ("by blocks", by_blocks.get(net, none))):
                if (state in states) != (net in led):
                    found.append(f"{name}: {source} to {net} in {state}")
    return found


@settings(max_examples=50, deadline=None)
@given(st.data(), st.integers(0, NETS - 1))
def test_reach_whole_and_by_blocks_is_what_a_search_finds_in_each_state(data: st.DataObject, source: int) -> None:
    """Both engines agree with a search in each state, from inner nets and from rails that some way touches."""
    spaces = Spaces(RADICES)
    ways = data.draw(ways_of_networks(spaces))
    assume(any(source in (way.tail, way.head) for way in ways))
    assert differing(ways, spaces, source)[:3] == []


@pytest.mark.parametrize("slice_states", [1, 2, 7, 40])
def test_slices_of_any_size_give_the_same(slice_states: int, monkeypatch: pytest.MonkeyPatch) -> None:
    """However finely the space is sliced, each net is reached in the same states."""
    spaces = Spaces(RADICES)
    ways = [
        Way(digit, digit + 1, spaces.where(digit, (1,)) | spaces.where((digit + 3) % len(RADICES), (0,)))
        for digit in range(len(RADICES))
    ]
    before = reach(ways, 0, frozenset(), spaces, range(len(RADICES)))
    monkeypatch.setattr(slicing, "SLICE", slice_states)
    after = reach(ways, 0, frozenset(), spaces, range(len(RADICES)))
    assert {net: states.bits for net, states in after.items()} == {net: states.bits for net, states in before.items()}
