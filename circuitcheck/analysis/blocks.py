"""A wide piece, cut at single nets.

Behind an emergency stop the bus is no rail, but every path from one branch to another goes through it. A net whose
removal would part the piece (a cut vertex) is a gate: what happens in the block on one side matters on the other only
by whether the gate is fed. So each block is counted alone, from each of its gates, and the gates are put together:

    fed[v] |= fed[u] & (within the block that holds both, u leads to v)

What fed u within a block needs no second look at that block from u: whatever it leads to there was found already.
Sets are cut down to the digits that they depend on after each step; otherwise a bus would seem to depend on every
branch that hangs on it. A piece that is all one block is counted whole.
"""

from collections import deque
from typing import Final, NamedTuple

import networkx as nx

from circuitcheck.analysis.network import Net, Way
from circuitcheck.analysis.reach import reach
from circuitcheck.analysis.states import Spaces, States

NOWHERE: Final = -1


class Block(NamedTuple):
    """A part of a piece: its ways, their digits, and those of its nets through which current comes or goes on."""

    ways: list[Way]
    digits: frozenset[int]
    gates: frozenset[Net]


class FedGate(NamedTuple):
    """A gate, and the number of the block through which it is fed; NOWHERE for the source itself."""

    gate: Net
    block: int


class Blocks:
    """Blocks with the answers "from this gate, where to?" of each."""

    def __init__(self, blocks: list[Block], rails: frozenset[Net], spaces: Spaces) -> None:
        self._blocks = blocks
        self._rails = rails
        self._spaces = spaces
        self._reached: dict[tuple[int, Net], dict[Net, States]] = {}

    def onward(self, fed: "FedGate") -> list[tuple[int, dict[Net, States]]]:
        """For each further block at this gate, by number: where the gate leads to within the block."""
        return [
            (number, self._within(number, fed.gate))
            for number, block in enumerate(self._blocks)
            if fed.gate in block.gates and number != fed.block
        ]

    def _within(self, number: int, gate: Net) -> dict[Net, States]:
        if (number, gate) not in self._reached:
            block = self._blocks[number]
            self._reached[number, gate] = reach(block.ways, gate, self._rails, self._spaces, block.digits)
        return self._reached[number, gate]


class ReachedByBlocks:
    """Where a source leads to, put together for one net at a time: the net of a rail may hang on every block."""

    def __init__(self, blocks: Blocks, fed: dict[FedGate, States]) -> None:
        self._blocks = blocks
        self._fed = fed

    def get(self, net: Net, default: States, /) -> States:
        """The states in which the source leads to this net, `default` where it never does."""
        result = default
        for fed, states in self._fed.items():
            for _, onward in self._blocks.onward(fed):
                if net in onward:
                    result = (result | (states & onward[net])).tight()
        return result


def reach_by_blocks(ways: list[Way], source: Net, rails: frozenset[Net], spaces: Spaces) -> ReachedByBlocks:
    """The same as `reach`, for a piece too wide to count whole. TooWide where one block still is."""
    gates = _cut_nets(ways, rails) | {source}
    blocks = Blocks(_cut(ways, gates, rails), rails, spaces)
    begun = FedGate(source, NOWHERE)
    fed = {begun: spaces.all()}
    waiting = deque([begun])
    while waiting:
        here = waiting.popleft()
        for number, onward in blocks.onward(here):
            for net in onward.keys() & (gates - rails - {here.gate}):
                there = FedGate(net, number)
                before = fed.get(there, spaces.none())
                after = (before | (fed[here] & onward[net])).tight()
                if not after.same_as(before):
                    fed[there] = after
                    waiting.append(there)
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


def _cut(ways: list[Way], gates: frozenset[Net], rails: frozenset[Net]) -> list[Block]:
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
        digits = frozenset(digit for way in group for digit in way.closed.space.digits)
        touched = frozenset(net for way in group for net in (way.tail, way.head))
        blocks.append(Block(group, digits, touched & gates))
    return blocks


def _home(way: Way, members: list[frozenset[Net]], home: dict[Net, int], rails: frozenset[Net]) -> object:
    inner = {way.tail, way.head} - rails
    for net in inner & home.keys():
        return home[net]
    if len(inner) < 2:
        return (way.tail, way.head, "to a rail")
    return next(number for number, nets in enumerate(members) if inner <= nets)
