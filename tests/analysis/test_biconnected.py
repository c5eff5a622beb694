"""The blocks of a graph, against those that networkx finds."""

import networkx as nx
from hypothesis import given
from hypothesis import strategies as st

from circuitcheck.analysis.biconnected import Branch, beside_nets, blocks_from, nets_of_blocks

NETS = 8

graphs = st.lists(st.tuples(*[st.integers(0, NETS - 1)] * 2).filter(lambda ends: ends[0] != ends[1]), max_size=14)


@given(graphs)
def test_blocks_are_those_of_another_library(ends: list[tuple[int, int]]) -> None:
    """Their nets are the same, wherever the search begins; branches side by side belong to one block."""
    graph: nx.Graph[int] = nx.Graph(ends)
    edges = nx.biconnected_component_edges(graph)
    expected = sorted(sorted({net for pair in pairs for net in pair}) for pairs in edges)
    assert sorted(sorted(nets) for nets in nets_of_blocks(ends)) == expected
    beside = beside_nets(Branch(number, *pair) for number, pair in enumerate(ends))
    starts = [min(nets) for nets in nx.connected_components(graph)]
    found = [block for start in starts for block in blocks_from(start, beside)]
    assert sorted(sorted(block.nets) for block in found) == expected


@given(graphs)
def test_every_branch_belongs_to_one_block(ends: list[tuple[int, int]]) -> None:
    """None is left out, and none is told twice."""
    branches = [Branch(number, *pair) for number, pair in enumerate(ends)]
    starts = [min(nets) for nets in nx.connected_components(nx.Graph(ends))]
    beside = beside_nets(branches)
    found = sorted(branch for start in starts for block in blocks_from(start, beside) for branch in block.branches)
    assert found == branches
