"""Graphviz's dot, asked over pygraphviz: where boxes of given sizes lie whose wires shall be short and seldom cross.

Boxes are HTML-like tables without text, so that no font of the machine has a say: the same question has the same
answer.
"""

from collections.abc import Iterable, Mapping, Sequence
from typing import NamedTuple

COLUMN_GAP_INCHES, BOX_GAP_INCHES = 1.0, 0.4


class Node(NamedTuple):
    """A box of so many rows, each of a height; a wire may end at row 3 as at the port "r3"."""

    name: str
    width: float
    rows: tuple[float, ...]


class Point(NamedTuple):
    """The middle of a box or a point of a way, y downward, in points."""

    x: float
    y: float


Edge = tuple[str, str, int]
"""From a box to another ("4", or "4:r3:e" for the right end of a row), with the weight of its being short."""


class Arranged(NamedTuple):
    """boxes: by name. ways: of each edge, points from left to right: one, and three for each Bézier curve."""

    boxes: dict[str, Point]
    ways: tuple[tuple[Point, ...], ...]


def arrange(nodes: Sequence[Node], edges: Sequence[Edge], ranks: Mapping[str, Iterable[int]]) -> Arranged:
    """Where each box and each edge lies. ranks: "source", "sink" or "same…" → boxes that are first, last, or in one
    column.

    ImportError where pygraphviz is not installed.
    """
    import pygraphviz  # type: ignore[import-untyped]

    graph = pygraphviz.AGraph(_dot(nodes, edges, ranks))
    try:
        graph.layout("dot")
        boxes = {str(node): _point(node.attr["pos"]) for node in graph.nodes()}
        found = {edge.attr["id"]: _way(edge.attr["pos"]) for edge in graph.edges()}
        return Arranged(boxes, tuple(found[str(number)] for number in range(len(edges))))
    finally:
        graph.close()


def _way(text: str) -> tuple[Point, ...]:
    return tuple(_point(pair) for pair in text.split())


def _point(text: str) -> Point:
    x, y = text.split(",")
    return Point(float(x), -float(y))


def _dot(nodes: Iterable[Node], edges: Iterable[Edge], ranks: Mapping[str, Iterable[int]]) -> str:
    lines = [
        "digraph {",
        f"graph [rankdir=LR, ranksep={COLUMN_GAP_INCHES}, nodesep={BOX_GAP_INCHES}]",
        "node [shape=plain]",
        "edge [dir=none]",
    ]
    for node in nodes:
        cells = "".join(
            f'<TR><TD PORT="r{number}" FIXEDSIZE="TRUE" WIDTH="{node.width:.0f}" HEIGHT="{height:.0f}"></TD></TR>'
            for number, height in enumerate(node.rows)
        )
        table = f'<TABLE BORDER="0" CELLBORDER="0" CELLSPACING="0" CELLPADDING="0">{cells}</TABLE>'
        lines.append(f"{node.name} [label=<{table}>]")
    lines += [f"{tail} -> {head} [weight={weight}, id={number}]" for number, (tail, head, weight) in enumerate(edges)]
    lines += [f"{{rank={kind.rstrip('0123456789')}; {' '.join(map(str, names))}}}" for kind, names in ranks.items()]
    return "\n".join([*lines, "}"])
