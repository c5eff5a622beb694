"""A network between two nets told in series and parallels, as far as it can be; the rest stays a bridge.

Branches side by side become one, and two that meet at a net where nothing else hangs become one, until nothing changes
(Duffin, Topology of series-parallel networks, Journal of Mathematical Analysis and Applications 10 (1965) 303). One
branch is left, or a bridge between single nets, which is kept as it is.
"""

from collections.abc import Callable, Iterable
from typing import NamedTuple

from circuitcheck.analysis.chains import Blocks, Branch
from circuitcheck.analysis.network import Net
from circuitcheck.ladder.drawn import Bridge, Drawn, Point, Row, Series, in_parallel, in_series, leaves, turned


class Piece(NamedTuple):
    """Something drawn, from net `left` to net `right`."""

    left: Net
    right: Net
    drawn: Drawn


def reduced(pieces: Iterable[Piece], start: Net, end: Net, point: Callable[[Net], Point]) -> Series:
    """Pieces that all lie on ways between start and end, as one series from start to end. point: how a net is named."""
    left = _reduce(list(pieces), start, end)
    branches = [Branch(number, piece.left, piece.right) for number, piece in enumerate(left)]
    chain = Blocks(branches, start).chain(end) or ()
    return in_series(
        *(_block([left[one.number] for one in block.branches], block.top, far, point) for block, far in chain)
    )


def _reduce(pieces: list[Piece], start: Net, end: Net) -> list[Piece]:
    changed = True
    while changed:
        count = len(pieces)
        pieces = _joined_in_series(_joined_in_parallel(pieces), start, end)
        changed = len(pieces) < count
    return pieces


def _joined_in_parallel(pieces: list[Piece]) -> list[Piece]:
    beside: dict[frozenset[Net], list[Piece]] = {}
    for piece in pieces:
        beside.setdefault(frozenset((piece.left, piece.right)), []).append(piece)
    found = []
    for together in beside.values():
        left, right, _ = together[0]
        branches = (_from(left, piece).drawn for piece in sorted(together, key=_order))
        found.append(Piece(left, right, in_parallel(*branches)))
    return found


def _joined_in_series(pieces: list[Piece], start: Net, end: Net) -> list[Piece]:
    at: dict[Net, list[int]] = {}
    now: dict[int, Piece] = dict(enumerate(pieces))
    for number, piece in now.items():
        for net in (piece.left, piece.right):
            at.setdefault(net, []).append(number)
    for net, numbers in at.items():
        if len(numbers) == 2 and numbers[0] != numbers[1] and net not in (start, end):
            one, other = (now.pop(number) for number in numbers)
            first, second = turned_piece(_from(net, one)), _from(net, other)
            if first.left == second.right:
                now[numbers[0]], now[numbers[1]] = one, other
                continue
            joined = Piece(first.left, second.right, in_series(first.drawn, second.drawn))
            now[numbers[0]] = joined
            at[second.right] = [numbers[0] if number == numbers[1] else number for number in at[second.right]]
    return list(now.values())


def turned_piece(piece: Piece) -> Piece:
    """The same from right to left."""
    return Piece(piece.right, piece.left, turned(piece.drawn))


def _from(net: Net, piece: Piece) -> Piece:
    return piece if piece.left == net else turned_piece(piece)


def _order(piece: Piece) -> tuple[int, ...]:
    """Shorter branches above longer ones, then in the plan's order."""
    numbers = [leaf[0] for leaf in leaves(piece.drawn) if not isinstance(leaf, Point)]
    return len(numbers), *sorted(int(number) for number in numbers)


def _block(pieces: list[Piece], start: Net, end: Net, point: Callable[[Net], Point]) -> Drawn:
    if len(pieces) == 1:
        return _from(start, pieces[0]).drawn
    rows = []
    for piece in sorted(pieces, key=lambda one: (start not in one[:2], end in one[:2], _order(one))):
        if piece.right == start or piece.left == end:
            piece = turned_piece(piece)
        begins = None if piece.left == start else point(piece.left)
        ends = None if piece.right == end else point(piece.right)
        rows.append(Row(begins, piece.drawn, ends))
    return Bridge(tuple(rows))
