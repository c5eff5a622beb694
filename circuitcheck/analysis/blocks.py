"""A wide piece, cut at single nets.

Behind an emergency stop the bus is no rail, but every path from one branch to another goes through it. A net whose
removal would part the piece (a cut vertex) is a gate: what happens in the block on one side matters on the other only
by whether the gate is fed. So each block is counted alone, from each of its gates, and the gates are put together:

    fed[v] |= fed[u] & (within the block that holds both, u leads to v)

Sets are cut down to the digits that they depend on after each step; otherwise a bus would seem to depend on every
branch that hangs on it. A piece that is all one block is counted whole.
"""

from collections import deque
from typing import NamedTuple

import networkx as nx

from circuitcheck.analysis.conduction import reach, widened
from circuitcheck.analysis.network import Net, Way
from circuitcheck.analysis.states import Spaces, States


class Block(NamedTuple):
    """A part of a piece: its ways over one space, and those of its nets through which current comes or goes on."""

    ways: list[Way]
    everything: States
    gates: frozenset[Net]


class Blocks:
    """Blocks with the answers "from this gate, where to?" of each."""

    def __init__(self, blocks: list[Block], rails: frozenset[Net]) -> None:
        self._blocks = blocks
        self._rails = rails
        self._reached: dict[tuple[int, Net], dict[Net, States]] = {}

    def onward(self, gate: Net) -> list[dict[Net, States]]:
        """For each block at this gate: where the gate leads to within the block."""
        return [self._within(number, gate) for number, block in enumerate(self._blocks) if gate in block.gates]

    def _within(self, number: int, gate: Net) -> dict[Net, States]:
        if (number, gate) not in self._reached:
            block = self._blocks[number]
            self._reached[number, gate] = reach(block.ways, gate, self._rails, block.everything)
        return self._reached[number, gate]


class ReachedByBlocks:
    """Where a source leads to, put together for one net at a time: the net of a rail may hang on every block."""

    def __init__(self, blocks: Blocks, fed: dict[Net, States]) -> None:
        self._blocks = blocks
        self._fed = fed

    def get(self, net: Net, default: States, /) -> States:
        """The states in which the source leads to this net, `default` where it never does."""
        result = default
        for gate, states in self._fed.items():
            for onward in self._blocks.onward(gate):
                if net in onward:
                    result = (result | (states & onward[net])).tight()
        return result


def reach_by_blocks(ways: list[Way], source: Net, rails: frozenset[Net], spaces: Spaces) -> ReachedByBlocks:
    """The same as `conduction.reach`, for a piece too wide to count whole. TooWide where one block still is."""
    gates = _cut_nets(ways, rails) | {source}
    blocks = Blocks(_cut(ways, gates, rails, spaces), rails)
    fed = {source: spaces.all()}
    waiting = deque([source])
    while waiting:
        gate = waiting.popleft()
        for onward in blocks.onward(gate):
            for net in onward.keys() & (gates - rails):
                before = fed.get(net, spaces.none())
                after = (before | (fed[gate] & onward[net])).tight()
                if not after.same_as(before):
                    fed[net] = after
                    waiting.append(net)
    return ReachedByBlocks(blocks, fed)


def _cut_nets(ways: list[Way], rails: frozenset[Net]) -> frozenset[Net]:
    return frozenset(nx.articulation_points(_graph(ways, rails)))


def _graph(ways: list[Way], rails: frozenset[Net]) -> "nx.Graph[Net]":
    graph: nx.Graph[Net] = nx.Graph()
    for way in ways:
        inner = sorted({way.tail, way.head} - rails)
        graph.add_nodes_from(inner)
        if len(inner) == 2:
            graph.add_edge(*inner)
    return graph


def _cut(ways: list[Way], gates: frozenset[Net], rails: frozenset[Net], spaces: Spaces) -> list[Block]:
    """The blocks. A way from a gate straight to a rail is a block of its own: it belongs to no side of the gate."""
    graph = _graph(ways, rails)
    members = [frozenset(net for pair in pairs for net in pair) for pairs in nx.biconnected_component_edges(graph)]
    members += [frozenset({net}) for net in graph if not graph[net]]
    home = {net: number for number, nets in enumerate(members) for net in nets - gates}
    grouped: dict[object, list[Way]] = {}
    for way in ways:
        grouped.setdefault(_home(way, members, home, rails), []).append(way)
    blocks = []
    for group in grouped.values():
        same, everything = widened(group, spaces, {digit for way in group for digit in way.closed.space.digits})
        touched = frozenset(net for way in group for net in (way.tail, way.head))
        blocks.append(Block(same, everything, touched & gates))
    return blocks


def _home(way: Way, members: list[frozenset[Net]], home: dict[Net, int], rails: frozenset[Net]) -> object:
    inner = {way.tail, way.head} - rails
    for net in inner & home.keys():
        return home[net]
    if len(inner) < 2:
        return (way.tail, way.head, "to a rail")
    return next(number for number, nets in enumerate(members) if inner <= nets)
