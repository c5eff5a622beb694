"""A wide piece, cut at single nets.

Behind an emergency stop the bus is no rail, but every path from one branch to another goes through it. A net whose
removal would part the piece (a cut vertex) is a gate: what happens in the block on one side matters on the other only
by whether the gate is fed. So each block is counted alone, from each of its gates, and the gates are put together:

    fed[v] |= fed[u] & (within the block that holds both, u leads to v)

What fed u within a block needs no second look at that block from u: whatever it leads to there was found already.
Sets are cut down to the digits that they depend on after each step; otherwise a bus would seem to depend on every
branch that hangs on it. A piece that is all one block is counted whole.
"""

from collections import Counter, deque
from collections.abc import Iterable, Iterator
from typing import Final, NamedTuple

from circuitcheck.analysis.biconnected import nets_of_blocks
from circuitcheck.analysis.network import Net, Way
from circuitcheck.analysis.slices import InSlices
from circuitcheck.analysis.states import Spaces, States

NOWHERE: Final = -1


class Block(NamedTuple):
    """A part of a piece: its ways, their digits and nets, and those nets through which current comes or goes on."""

    ways: list[Way]
    digits: frozenset[int]
    nets: frozenset[Net]
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
        self._reached: dict[tuple[int, Net], InSlices] = {}
        self._at: dict[Net, list[int]] = {}
        for number, block in enumerate(blocks):
            for gate in block.gates:
                self._at.setdefault(gate, []).append(number)

    def onward(self, fed: "FedGate") -> Iterator[tuple[int, Block, InSlices]]:
        """Each further block at this gate, by number, and where the gate leads to within it."""
        for number in self._at.get(fed.gate, ()):
            if number != fed.block:
                yield number, self._blocks[number], self._within(number, fed.gate)

    def _within(self, number: int, gate: Net) -> InSlices:
        if (number, gate) not in self._reached:
            block = self._blocks[number]
            self._reached[number, gate] = InSlices(block.ways, gate, self._rails, self._spaces, block.digits)
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
            for _, block, onward in self._blocks.onward(fed):
                if net in block.nets and (arrived := states & onward.get(net, default)):
                    # A single answer is made tight by whoever asks; of many, each would widen all that follow.
                    result = (result | arrived).tight() if result else arrived
        return result


def reach_by_blocks(ways: Iterable[Way], source: Net, rails: frozenset[Net], spaces: Spaces) -> ReachedByBlocks:
    """Where a source leads to, for a piece too wide to count whole. TooWide where one block still is."""
    ways = [way._replace(closed=way.closed.tight()) for way in ways]
    parts = _parts(ways, rails)
    met = Counter(net for nets in parts for net in nets)
    gates = frozenset((source, *(net for net, times in met.items() if times > 1)))
    blocks = Blocks(_cut(ways, parts, gates, rails), rails, spaces)
    begun = FedGate(source, NOWHERE)
    fed = {begun: spaces.all()}
    waiting = deque([begun])
    while waiting:
        here = waiting.popleft()
        for number, block, onward in blocks.onward(here):
            for net in block.gates - rails - {here.gate}:
                there = FedGate(net, number)
                before = fed.get(there, spaces.none())
                after = (before | (fed[here] & onward.get(net, spaces.none()))).tight()
                if not after.same_as(before):
                    fed[there] = after
                    waiting.append(there)
    return ReachedByBlocks(blocks, fed)


def _parts(ways: list[Way], rails: frozenset[Net]) -> list[frozenset[Net]]:
    """The nets of each part that no single net cuts further; a net all of whose ways go to rails is one by itself."""
    ends = {way[:2] for way in ways}
    parts = list(nets_of_blocks(sorted(pair for pair in ends if rails.isdisjoint(pair))))
    met = frozenset().union(*parts)
    alone = dict.fromkeys(net for way in ways for net in (way.tail, way.head) if net not in rails and net not in met)
    return parts + [frozenset({net}) for net in alone]


def _cut(ways: list[Way], members: list[frozenset[Net]], gates: frozenset[Net], rails: frozenset[Net]) -> list[Block]:
    """The blocks. A way from a gate straight to a rail is a block of its own: it belongs to no side of the gate."""
    home = {net: number for number, nets in enumerate(members) for net in nets - gates}
    grouped: dict[object, list[Way]] = {}
    for way in ways:
        grouped.setdefault(_home(way, members, home, rails), []).append(way)
    blocks = []
    for group in grouped.values():
        digits = frozenset(digit for way in group for digit in way.closed.space.digits)
        touched = frozenset(net for way in group for net in (way.tail, way.head))
        blocks.append(Block(group, digits, touched, touched & gates))
    return blocks


def _home(way: Way, members: list[frozenset[Net]], home: dict[Net, int], rails: frozenset[Net]) -> object:
    inner = {way.tail, way.head} - rails
    for net in inner & home.keys():
        return home[net]
    if len(inner) < 2:
        return (way.tail, way.head, "to a rail")
    return next(number for number, nets in enumerate(members) if inner <= nets)
