"""What a wiring drawing looks like, read back from its SVG: texts, boxes, terminals' bars and wires, as rectangles."""

import re
from collections.abc import Iterator
from itertools import pairwise
from typing import NamedTuple
from xml.etree import ElementTree

SVG = "{http://www.w3.org/2000/svg}"
ABOVE, BELOW = 0.76, 0.24
"""How far letters reach above and below their base line, by their height (DejaVu Sans Mono's ascent and descent)."""
LETTERS = 11
EDGE = 2.2
"""Half the width of a wire that carries nothing."""


class Rectangle(NamedTuple):
    """From its left upper to its right lower corner, and what it is of."""

    left: float
    top: float
    right: float
    bottom: float
    of: str

    def meets(self, other: "Rectangle") -> bool:
        """Do they share more than an edge?"""
        across = self.left < other.right - 1e-6 and other.left < self.right - 1e-6
        return across and self.top < other.bottom - 1e-6 and other.top < self.bottom - 1e-6


def rooted(svg: str) -> ElementTree.Element:
    """The drawing itself, without what stands above and below it."""
    root = ElementTree.fromstring(svg)
    return next(one for one in root.iter(f"{SVG}svg") if one.get("class") == "wiring")


def texts(root: ElementTree.Element) -> list[Rectangle]:
    """Every text."""
    found = []
    for one in root.iter(f"{SVG}text"):
        if one.get("textLength"):
            x, y = float(one.attrib["x"]), float(one.attrib["y"])
            right = x + float(one.attrib["textLength"])
            found.append(Rectangle(x, y - ABOVE * LETTERS, right, y + BELOW * LETTERS, one.text or ""))
    return found


def rectangles(root: ElementTree.Element, *names: str) -> list[Rectangle]:
    """Boxes ("frame") and bars ("bar", "free")."""
    found = []
    for one in root.iter(f"{SVG}rect"):
        if one.get("class") in names:
            x, y, width, height = (float(one.attrib[name]) for name in ("x", "y", "width", "height"))
            found.append(Rectangle(x, y, x + width, y + height, one.attrib["class"]))
    return found


class Wire(NamedTuple):
    """A wire's group and its corners."""

    group: ElementTree.Element
    corners: list[tuple[float, float]]

    def pieces(self, half: float) -> Iterator[Rectangle]:
        """Its straight pieces, twice `half` wide."""
        for (x, y), (to_x, to_y) in pairwise(self.corners):
            left, right, top, bottom = min(x, to_x), max(x, to_x), min(y, to_y), max(y, to_y)
            yield Rectangle(left - half, top - half, right + half, bottom + half, self.group.attrib["id"])


def wires(root: ElementTree.Element) -> list[Wire]:
    """Every wire."""
    found = []
    for one in root.iter(f"{SVG}g"):
        if "wire" in one.get("class", "").split():
            path = one.find(f"{SVG}path[@class='edge']")
            assert path is not None
            numbers = [float(number) for number in re.findall(r"-?[\d.]+", path.attrib["d"])]
            found.append(Wire(one, list(zip(numbers[::2], numbers[1::2], strict=True))))
    return found


def meetings(some: list[Rectangle], others: list[Rectangle]) -> list[tuple[str, str]]:
    """Which of some meet which of the others."""
    ordered = sorted(others)
    found = []
    for one in some:
        for other in ordered:
            if other.left >= one.right:
                break
            if one.meets(other):
                found.append((one.of, other.of))
    return found


def overlaps(some: list[Rectangle]) -> list[tuple[str, str]]:
    """Which two of some meet each other."""
    ordered = sorted(some)
    return [pair for number, one in enumerate(ordered) for pair in meetings([one], ordered[number + 1 :])]
