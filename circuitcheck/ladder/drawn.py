"""What stands on a rung: conductors and loads in series and in parallel, and what is neither.

Series     -----[F1]-----| |-----( )-----
Parallel   one above the other between the same two nets
Bridge     rows that begin and end at named points: whatever no series and no parallel will tell
"""

from collections.abc import Iterator
from typing import NamedTuple

from circuitcheck.circuit.model import Terminal


class Passed(NamedTuple):
    """A conductor, by its index, with the terminals at its left and its right."""

    conductor: int
    left: Terminal
    right: Terminal


class Taking(NamedTuple):
    """A load, by its index, likewise."""

    load: int
    left: Terminal
    right: Terminal


class Point(NamedTuple):
    """A net shown by name, at one of its terminals; points of one name on a rung are one."""

    name: str
    terminal: Terminal

    @property
    def left(self) -> Terminal:
        """Where it is met from the left."""
        return self.terminal

    @property
    def right(self) -> Terminal:
        """Where it is left to the right."""
        return self.terminal


class Series(NamedTuple):
    """One after the other, none of them a series itself; with no parts a mere wire."""

    parts: "tuple[Drawn, ...]"


class Parallel(NamedTuple):
    """Side by side, none of them a parallel itself."""

    branches: "tuple[Drawn, ...]"


class Row(NamedTuple):
    """One row of a bridge; begins, ends: a point, or None for the bridge's own left or right end."""

    begins: Point | None
    drawn: "Drawn"
    ends: Point | None


class Bridge(NamedTuple):
    """Several rows between a left and a right end and points in between."""

    rows: tuple[Row, ...]


Leaf = Passed | Taking | Point
Drawn = Leaf | Series | Parallel | Bridge


def in_series(*parts: Drawn) -> Series:
    """One after the other, series among them taken apart."""
    return Series(tuple(one for part in parts for one in (part.parts if isinstance(part, Series) else (part,))))


def in_parallel(*branches: Drawn) -> Drawn:
    """Side by side; a single one is itself."""
    bare = (one.parts[0] if isinstance(one, Series) and len(one.parts) == 1 else one for one in branches)
    flat = tuple(one for each in bare for one in (each.branches if isinstance(each, Parallel) else (each,)))
    return flat[0] if len(flat) == 1 else Parallel(flat)


def turned(drawn: Drawn) -> Drawn:
    """The same from right to left."""
    if isinstance(drawn, Series):
        return Series(tuple(turned(part) for part in reversed(drawn.parts)))
    if isinstance(drawn, Parallel):
        return Parallel(tuple(map(turned, drawn.branches)))
    if isinstance(drawn, Bridge):
        return Bridge(tuple(Row(row.ends, turned(row.drawn), row.begins) for row in drawn.rows))
    if isinstance(drawn, Point):
        return drawn
    return drawn._replace(left=drawn.right, right=drawn.left)


def leaves(drawn: Drawn) -> Iterator[Leaf]:
    """Every conductor, load and point, from left to right and from top to bottom."""
    if isinstance(drawn, Series):
        for part in drawn.parts:
            yield from leaves(part)
    elif isinstance(drawn, Parallel):
        for branch in drawn.branches:
            yield from leaves(branch)
    elif isinstance(drawn, Bridge):
        for row in drawn.rows:
            yield from (row.begins,) if row.begins else ()
            yield from leaves(row.drawn)
            yield from (row.ends,) if row.ends else ()
    else:
        yield drawn
