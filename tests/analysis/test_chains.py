"""Which branches lie on a way between two nets, against every way that networkx finds."""

import networkx as nx
from hypothesis import given, settings
from hypothesis import strategies as st

from circuitcheck.analysis.biconnected import Branch
from circuitcheck.analysis.chains import Blocks, between
from tests.analysis.test_biconnected import NETS, graphs

nets = st.integers(0, NETS - 1)


@settings(max_examples=25)
@given(graphs, nets, nets)
def test_what_lies_between_two_nets_is_what_some_way_without_repetition_goes_over(
    ends: list[tuple[int, int]], start: int, end: int
) -> None:
    """Nothing lies between a net and itself; where there is no way there is no answer."""
    branches = [Branch(number, *pair) for number, pair in enumerate(ends)]
    graph: nx.MultiGraph[str] = nx.MultiGraph()
    graph.add_nodes_from((str(start), str(end)))
    for number, (one, other) in enumerate(ends):
        graph.add_edge(str(one), str(other), number)
    found = between(branches, start, end)
    if start == end:
        assert found == ()
    elif nx.has_path(graph, str(start), str(end)):
        ways = nx.all_simple_edge_paths(graph, str(start), str(end))
        assert sorted(one.number for one in found or ()) == sorted({int(edge[-1]) for way in ways for edge in way})
    else:
        assert found is None


def test_the_blocks_between_two_nets_come_in_order_each_with_the_net_where_it_ends() -> None:
    """A ring between two single branches, and one that hangs beside."""
    ends = [(0, 1), (1, 2), (2, 3), (3, 1), (3, 4), (2, 5)]
    chain = Blocks((Branch(number, *pair) for number, pair in enumerate(ends)), 0).chain(4)
    assert [(sorted(one.number for one in block.branches), far) for block, far in chain or ()] == [
        ([0], 1),
        ([1, 2, 3], 3),
        ([4], 4),
    ]
