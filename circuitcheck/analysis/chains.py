"""Which branches of a graph lie on a way without repetition between two of its nets.

The blocks (biconnected.py) from a net back to the start form a chain, joined at single nets, and their branches are the
answer.
"""

from collections.abc import Iterable

from circuitcheck.analysis.biconnected import Block, Branch, beside_nets, blocks_from
from circuitcheck.analysis.network import Net


class Blocks:
    """The blocks of a graph as seen from a start, in time that grows with the branches."""

    def __init__(self, branches: Iterable[Branch], start: Net) -> None:
        self.start = start
        self._block_of: dict[Net, Block] = {}
        for block in blocks_from(start, beside_nets(branches)):
            self._block_of.update((net, block) for net in block.nets if net != block.top)

    def chain(self, end: Net) -> tuple[tuple[Block, Net], ...] | None:
        """The blocks from the start to a net, each with the net at its far end; None where nothing leads there."""
        if end != self.start and end not in self._block_of:
            return None
        found: list[tuple[Block, Net]] = []
        while end != self.start:
            block = self._block_of[end]
            found.append((block, end))
            end = block.top
        return tuple(reversed(found))


def between(branches: Iterable[Branch], start: Net, end: Net) -> tuple[Branch, ...] | None:
    """The branches on ways without repetition between two nets; None where there is no way."""
    chain = Blocks(branches, start).chain(end)
    return None if chain is None else tuple(branch for block, _ in chain for branch in block.branches)
