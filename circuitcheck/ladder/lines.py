"""A way laid out in lines of a limited width.

Where a line is broken, or a parallel is wider than a line, the nets there are named points on either side: points of
one name are one net, so nothing is lost but the line between them.
"""

from collections.abc import Callable, Iterator
from typing import NamedTuple

from circuitcheck.circuit.model import Terminal
from circuitcheck.ladder.drawn import Bridge, Drawn, Parallel, Point, Series
from circuitcheck.ladder.picture import Painter, Picture, ends
from circuitcheck.ladder.rungs import Way

PointAt = Callable[[Terminal], Point]


class Line(NamedTuple):
    """A picture, and whether it begins at the left rail and ends at the right one."""

    picture: Picture
    from_rail: bool
    to_rail: bool


class _Stretch(NamedTuple):
    parts: tuple[Drawn, ...]
    from_rail: bool
    to_rail: bool


def lines_of(
    painter: Painter, way: Way, rails: tuple[Terminal | None, Terminal | None], width: int, point: PointAt
) -> list[Line]:
    """The lines of a way, none wider than so many columns but where a single symbol is. rails: where they begin."""
    found = []
    for stretch in _broken(painter, way.drawn.parts, width, point, rails[0] is not None, rails[1] is not None):
        before = (rails[0],) if stretch.from_rail and rails[0] else ()
        after = (rails[1],) if stretch.to_rail and rails[1] else ()
        found.append(Line(painter.placed(Series(stretch.parts), before, after), stretch.from_rail, stretch.to_rail))
    return found


def _broken(
    painter: Painter, parts: tuple[Drawn, ...], width: int, point: PointAt, from_rail: bool, to_rail: bool
) -> Iterator[_Stretch]:
    """Stretches that fit, each ending in the point that the next begins with."""
    line: list[Drawn] = []
    for place, part in enumerate(parts):
        taken = sum(map(painter.width, line)) + painter.width(part)
        last = place + 1 == len(parts)
        room = width - (0 if last else painter.width(_point_after(part, point)))
        here = _point_after(line[-1], point) if line else None
        if here and here != part and taken > room and (len(line) > 1 or not isinstance(line[0], Point)):
            yield _Stretch((*line, here), from_rail, False)
            line, from_rail = [here], False
        if isinstance(part, (Parallel, Bridge)) and painter.width(part) > width - sum(map(painter.width, line)):
            start = line.pop() if line else point(ends(part, left=True)[0])
            yield from _taken_apart(painter, part, width, point, start)
            line, from_rail = [_point_after(part, point)], False
            # A way that goes to a rail ends in the point of that rail's name.
            if last:
                return
        else:
            line.append(part)
    yield _Stretch(tuple(line), from_rail, to_rail)


def _taken_apart(
    painter: Painter, part: Parallel | Bridge, width: int, point: PointAt, start: Drawn
) -> Iterator[_Stretch]:
    """Each branch in lines of its own, between points."""
    end = _point_after(part, point)
    rows = part.rows if isinstance(part, Bridge) else [(None, branch, None) for branch in part.branches]
    for begins, drawn, finishes in rows:
        inner = drawn.parts if isinstance(drawn, Series) else (drawn,)
        whole = (begins or start, *inner, finishes or end)
        yield from _broken(painter, whole, width, point, False, False)


def _point_after(part: Drawn, point: PointAt) -> Point:
    return point(ends(part, left=False)[0])
