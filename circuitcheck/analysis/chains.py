"""Which branches of a graph lie on a way without repetition between two of its nets.

Depth first from one net, branches fall into blocks (Hopcroft and Tarjan, Communications of the ACM 16 (1973) 372): all
of a block's branches are on such ways between any two of its nets. The blocks from a net back to the start form a
chain, joined at single nets, and their branches are the answer.
"""

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from circuitcheck.analysis.network import Net


class Branch(NamedTuple):
    """Between two nets, by its number: a conductor's index, or whatever its owner counts."""

    number: int
    tail: Net
    head: Net
    one_way: bool = False


class Block(NamedTuple):
    """Branches of one block, between the net at which it hangs toward the start and any other of its nets."""

    top: Net
    branches: tuple[Branch, ...]


class Blocks:
    """The blocks of a graph as seen from a start, in time that grows with the branches."""

    def __init__(self, branches: Iterable[Branch], start: Net) -> None:
        self.start = start
        self._beside: dict[Net, list[Branch]] = {}
        for one in branches:
            self._beside.setdefault(one.tail, []).append(one)
            self._beside.setdefault(one.head, []).append(one)
        self._block_of: dict[Net, Block] = {}
        self._search()

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

    def _search(self) -> None:
        depth = {self.start: 0}
        lowest = {self.start: 0}
        passed: list[Branch] = []
        seen: set[int] = set()
        path: list[tuple[Net, Iterator[Branch], int]] = [(self.start, iter(self._beside.get(self.start, ())), 0)]
        while path:
            here, onward, first = path[-1]
            branch = next(onward, None)
            if branch is None:
                path.pop()
                if path:
                    above = path[-1][0]
                    lowest[above] = min(lowest[above], lowest[here])
                    if lowest[here] >= depth[above]:
                        self._close(above, passed, first)
                continue
            if branch.number in seen:
                continue
            seen.add(branch.number)
            passed.append(branch)
            there = branch.head if branch.tail == here else branch.tail
            if there in depth:
                lowest[here] = min(lowest[here], depth[there])
            else:
                depth[there] = lowest[there] = len(path)
                path.append((there, iter(self._beside[there]), len(passed) - 1))

    def _close(self, top: Net, passed: list[Branch], first: int) -> None:
        block = Block(top, tuple(passed[first:]))
        del passed[first:]
        for one in block.branches:
            for net in (one.tail, one.head):
                if net != top:
                    self._block_of[net] = block


def between(branches: Iterable[Branch], start: Net, end: Net) -> tuple[Branch, ...] | None:
    """The branches on ways without repetition between two nets; None where there is no way."""
    chain = Blocks(branches, start).chain(end)
    return None if chain is None else tuple(branch for block, _ in chain for branch in block.branches)
