"""The blocks of a graph: what hangs together even when any single net is taken away.

Depth first from one net, branches fall into blocks (Hopcroft and Tarjan, Communications of the ACM 16 (1973) 372): all
of a block's branches are on ways without repetition between any two of its nets. Two blocks share one net at most, and
whatever leads from the one into the other goes through it.
"""

from collections.abc import Iterable, Iterator, Mapping
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

    @property
    def nets(self) -> frozenset[Net]:
        """The nets of its branches."""
        return frozenset(net for branch in self.branches for net in (branch.tail, branch.head))


def beside_nets(branches: Iterable[Branch]) -> dict[Net, list[Branch]]:
    """The branches at each net."""
    beside: dict[Net, list[Branch]] = {}
    for one in branches:
        beside.setdefault(one.tail, []).append(one)
        beside.setdefault(one.head, []).append(one)
    return beside


def blocks_from(start: Net, beside: Mapping[Net, list[Branch]]) -> Iterator[Block]:
    """The blocks that hang together with a net, in time that grows with the branches."""
    depth, lowest = {start: 0}, {start: 0}
    passed: list[Branch] = []
    seen: set[int] = set()
    path: list[tuple[Net, Iterator[Branch], int]] = [(start, iter(beside.get(start, ())), 0)]
    while path:
        here, onward, first = path[-1]
        branch = next(onward, None)
        if branch is None:
            path.pop()
            if path:
                above = path[-1][0]
                lowest[above] = min(lowest[above], lowest[here])
                if lowest[here] >= depth[above]:
                    yield Block(above, tuple(passed[first:]))
                    del passed[first:]
        elif branch.number not in seen:
            seen.add(branch.number)
            passed.append(branch)
            there = branch.head if branch.tail == here else branch.tail
            if there in depth:
                lowest[here] = min(lowest[here], depth[there])
            else:
                depth[there] = lowest[there] = len(path)
                path.append((there, iter(beside[there]), len(passed) - 1))


def nets_of_blocks(pairs: Iterable[tuple[Net, Net]]) -> Iterator[frozenset[Net]]:
    """The nets of every block of a graph, whose branches join these pairs: the same by less, where no branch is asked
    for."""
    beside: dict[Net, list[Net]] = {}
    for one, other in pairs:
        beside.setdefault(one, []).append(other)
        beside.setdefault(other, []).append(one)
    depth: dict[Net, int] = {}
    lowest: dict[Net, int] = {}
    for start in beside:
        if start not in depth:
            depth[start] = lowest[start] = len(depth)
            passed: list[Net] = []
            path = [(start, iter(beside[start]), 0)]
            while path:
                here, onward, first = path[-1]
                for there in onward:
                    if there not in depth:
                        depth[there] = lowest[there] = len(depth)
                        path.append((there, iter(beside[there]), len(passed)))
                        passed.append(there)
                        break
                    lowest[here] = min(lowest[here], depth[there])
                else:
                    path.pop()
                    if path:
                        above = path[-1][0]
                        lowest[above] = min(lowest[above], lowest[here])
                        if lowest[here] >= depth[above]:
                            yield frozenset((above, *passed[first:]))
                            del passed[first:]
