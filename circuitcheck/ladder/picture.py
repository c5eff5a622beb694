"""Symbols, lines and bars on a grid of columns and lanes: what text and drawings of a ladder have in common.

A lane is a level of a rung, with room for a name above the line and marks below it. A column is as wide as one sign.
"""

from collections.abc import Callable, Iterable
from typing import NamedTuple

from circuitcheck.circuit.model import Terminal
from circuitcheck.ladder.drawn import Bridge, Drawn, Leaf, Parallel, Point, Row, Series
from circuitcheck.ladder.symbols import Symbol, Symbols
from circuitcheck.ladder.wire_nets import WireNets


class Placed(NamedTuple):
    """A symbol in the middle of `width` columns from x on; its line runs through all of them."""

    x: int
    lane: int
    width: int
    leaf: Leaf
    symbol: Symbol


class Wire(NamedTuple):
    """A line along a lane, from column x up to column `end`, itself not included. wires: the conductors that it stands
    for; none within a part. beside: whose current it carries; nobody's where it is the wires' own."""

    x: int
    end: int
    lane: int
    wires: tuple[int, ...]
    beside: tuple[Leaf, ...] = ()


class Bar(NamedTuple):
    """A line down a column, from a lane to a lower one, likewise."""

    x: int
    lane: int
    end: int
    wires: tuple[int, ...]
    beside: tuple[Leaf, ...] = ()


class Picture(NamedTuple):
    """Its line comes in at the left of lane 0 and goes out at the right of it."""

    width: int
    lanes: int
    symbols: tuple[Placed, ...]
    wires: tuple[Wire, ...]
    bars: tuple[Bar, ...]

    def at(self, x: int, lane: int) -> "Picture":
        """The same so far to the right and below."""
        return Picture(
            self.width,
            self.lanes,
            tuple(one._replace(x=one.x + x, lane=one.lane + lane) for one in self.symbols),
            tuple(one._replace(x=one.x + x, end=one.end + x, lane=one.lane + lane) for one in self.wires),
            tuple(one._replace(x=one.x + x, lane=one.lane + lane, end=one.end + lane) for one in self.bars),
        )


def joined(width: int, lanes: int, *pictures: Picture) -> Picture:
    """Several as one."""
    return Picture(
        width,
        lanes,
        tuple(each for one in pictures for each in one.symbols),
        tuple(each for one in pictures for each in one.wires),
        tuple(each for one in pictures for each in one.bars),
    )


class Painter:
    """Places what is drawn. before, after: the terminals that a part is joined to at its left and its right; none where
    it ends. measure: how many columns a text takes."""

    def __init__(self, symbols: Symbols, nets: WireNets, measure: Callable[[str], int]) -> None:
        self._symbols = symbols
        self._nets = nets
        self._measure = measure

    def width(self, drawn: Drawn) -> int:
        """How many columns it takes."""
        return self.placed(drawn, (), ()).width

    def placed(self, drawn: Drawn, before: tuple[Terminal, ...], after: tuple[Terminal, ...]) -> Picture:
        """The picture of something drawn."""
        if isinstance(drawn, Series):
            return self._series(drawn, before, after)
        if isinstance(drawn, Parallel):
            rows = tuple(Row(None, branch, None) for branch in drawn.branches)
            return self._rows(rows, before, after)
        if isinstance(drawn, Bridge):
            return self._rows(drawn.rows, before, after)
        return self._leaf(drawn, before, after)

    def _leaf(self, leaf: Leaf, before: tuple[Terminal, ...], after: tuple[Terminal, ...]) -> Picture:
        symbol = self._symbols.of(leaf)
        width = max(self._measure(symbol.name), self._measure(symbol.marks), 3) + 2
        middle = width // 2
        left = Wire(0, middle, 0, self._wires((leaf.left, *before)), (leaf,))
        right = Wire(middle + 1, width, 0, self._wires((leaf.right, *after)), (leaf,))
        # A line is broken at a point.
        wires = (left,) * bool(before or symbol.kind != "point") + (right,) * bool(after or symbol.kind != "point")
        return Picture(width, 1, (Placed(0, 0, width, leaf, symbol),), wires, ())

    def _series(self, series: Series, before: tuple[Terminal, ...], after: tuple[Terminal, ...]) -> Picture:
        if not series.parts:
            return Picture(1, 1, (), (Wire(0, 1, 0, self._wires((*before, *after))),), ())
        parts, x = [], 0
        for place, part in enumerate(series.parts):
            previous, following = series.parts[place - 1 : place], series.parts[place + 1 : place + 2]
            near = ends(previous[0], left=False) if place else before
            far = ends(following[0], left=True) if following else after
            picture = self.placed(part, near, far)
            if isinstance(part, Point):
                picture = _between(picture, previous if place else (), following)
            parts.append(picture.at(x, 0))
            x += picture.width
        return joined(x, max(part.lanes for part in parts), *parts)

    def _rows(self, rows: tuple[Row, ...], before: tuple[Terminal, ...], after: tuple[Terminal, ...]) -> Picture:
        """One below the other, between a bar at the left and one at the right."""
        lefts = [(*ends(row.drawn, left=True), *before) for row in rows]
        rights = [(*ends(row.drawn, left=False), *after) for row in rows]
        inner = [self._row(row, before or lefts[0], after or rights[0]) for row in rows]
        width = max(one.width for one in inner) + 4
        found, lane = [], 0
        wires: list[Wire] = []
        bars: list[Bar] = []
        for row, picture, left, right in zip(rows, inner, lefts, rights, strict=True):
            found.append(picture.at(2, lane))
            begin, end = outermost(row.drawn, left=True), outermost(row.drawn, left=False)
            if row.begins is None:
                bars.append(Bar(1, 0, lane, self._wires(left), begin))
            if row.ends is None:
                bars.append(Bar(width - 2, 0, lane, self._wires(right), end))
                wires.append(Wire(picture.width + 2, width - 2, lane, self._wires(right), end))
            lane += picture.lanes
        if before:
            wires.append(Wire(0, 1, 0, self._wires(before), _of_all(rows, left=True)))
        if after:
            wires.append(Wire(width - 1, width, 0, self._wires(after), _of_all(rows, left=False)))
        return joined(width, lane, *found, Picture(0, 0, (), tuple(wires), tuple(bars)))

    def _row(self, row: Row, before: tuple[Terminal, ...], after: tuple[Terminal, ...]) -> Picture:
        parts = [one for one in (row.begins, row.drawn, row.ends) if one is not None]
        series = Series(tuple(each for one in parts for each in (one.parts if isinstance(one, Series) else (one,))))
        near, far = () if row.begins else before, () if row.ends else after
        return self.placed(series, near, far)

    def _wires(self, terminals: Iterable[Terminal]) -> tuple[int, ...]:
        found = tuple(terminals)
        first = self._nets.of[found[0]] if found else None
        # Terminals of two supplies on one rail may be joined over a fuse; no wire stands for that.
        return self._nets.wires(one for one in found if self._nets.of[one] == first) if found else ()


def ends(drawn: Drawn, *, left: bool) -> tuple[Terminal, ...]:
    """The terminals at one side of it."""
    if isinstance(drawn, Series):
        return ends(drawn.parts[0 if left else -1], left=left) if drawn.parts else ()
    if isinstance(drawn, Parallel):
        return tuple(dict.fromkeys(end for one in drawn.branches for end in ends(one, left=left)))
    if isinstance(drawn, Bridge):
        rows = [row.drawn for row in drawn.rows if (row.begins if left else row.ends) is None]
        return tuple(dict.fromkeys(end for one in rows for end in ends(one, left=left)))
    return (drawn.left if left else drawn.right,)


def outermost(drawn: Drawn, *, left: bool) -> tuple[Leaf, ...]:
    """What stands first at one side of it: whatever flows there flows through one of these."""
    if isinstance(drawn, Series):
        return outermost(drawn.parts[0 if left else -1], left=left) if drawn.parts else ()
    if isinstance(drawn, Parallel):
        return tuple(leaf for one in drawn.branches for leaf in outermost(one, left=left))
    return _of_all(drawn.rows, left=left) if isinstance(drawn, Bridge) else (drawn,)


def _of_all(rows: Iterable[Row], *, left: bool) -> tuple[Leaf, ...]:
    """The same for rows that begin (or end) at one bar."""
    there = [row.drawn for row in rows if (row.begins if left else row.ends) is None]
    return tuple(leaf for drawn in there for leaf in outermost(drawn, left=left))


def _between(picture: Picture, before: tuple[Drawn, ...], after: tuple[Drawn, ...]) -> Picture:
    """A point whose lines carry the current of what stands beside it."""
    lefts = tuple(leaf for one in before for leaf in outermost(one, left=False))
    rights = tuple(leaf for one in after for leaf in outermost(one, left=True))
    wires = [one._replace(beside=(lefts or rights) if one.x == 0 else (rights or lefts)) for one in picture.wires]
    return picture._replace(wires=tuple(wires))
