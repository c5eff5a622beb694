"""The blocks of a graph, against those that networkx finds."""

import networkx as nx
from hypothesis import given
from hypothesis import strategies as st

from circuitcheck.analysis.biconnected import Branch, all_blocks

NETS = 8

graphs = st.lists(st.tuples(*[st.integers(0, NETS - 1)] * 2).filter(lambda ends: ends[0] != ends[1]), max_size=14)


@given(graphs)
def test_blocks_are_those_of_another_library(ends: list[tuple[int, int]]) -> None:
    """Their nets are the same, wherever the search begins; branches side by side belong to one block."""
    graph: nx.Graph[int] = nx.Graph(ends)
    found = list(all_blocks(Branch(number, *pair) for number, pair in enumerate(ends)))
    expected = [sorted({net for pair in pairs for net in pair}) for pairs in nx.biconnected_component_edges(graph)]
    assert sorted(sorted(block.nets) for block in found) == sorted(expected)


@given(graphs)
def test_every_branch_belongs_to_one_block(ends: list[tuple[int, int]]) -> None:
    """None is left out, and none is told twice."""
    branches = [Branch(number, *pair) for number, pair in enumerate(ends)]
    found = sorted(branch for block in all_blocks(branches) for branch in block.branches)
    assert found == branches
