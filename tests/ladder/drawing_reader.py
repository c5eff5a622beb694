"""Reads a ladder drawn as SVG, by where its lines, symbols and texts are."""

import re
from collections.abc import Iterator
from xml.etree.ElementTree import Element, fromstring

from tests.ladder.reading import Joints, Shown, Way

SVG = "{http://www.w3.org/2000/svg}"
LOADS = {"resistor": "resistor"} | dict.fromkeys(("coil", "motor", "lamp", "buzzer", "solenoid"), "other")
STROKE = re.compile(r"M([\d.]+) ([\d.]+)([HV])([\d.]+)")
REACH = {"point": 3.5}
Spot = tuple[float, float]


def ways_of(svg: str) -> list[Way]:
    """Every way of every rung."""
    root = fromstring(svg.removeprefix('<?xml version="1.0" encoding="UTF-8"?>\n'))
    return [read_way(way) for way in root.iter(f"{SVG}g") if "way" in way.get("class", "").split()]


def read_way(way: Element) -> Way:
    """A group's symbols, joined by its lines."""
    joints = Joints()
    paths = [path for path in way.iter(f"{SVG}path") if {"wire"} & {*path.get("class", "").split()}]
    lines = [line for path in paths for line in stroke(path)]
    symbols = [one for one in way.iter(f"{SVG}g") if "symbol" in one.get("class", "").split()]
    rails = {path.get("data-rail", ""): path for path in way.iter(f"{SVG}path") if path.get("class") == "rail"}
    for begin, end in lines:
        joints.join(begin, end)
    spots = [spot for line in lines for spot in line]
    for spot in spots:
        for begin, end in lines:
            if lies_on(spot, begin, end):
                joints.join(spot, begin)
    for name, rail in rails.items():
        for begin, end in [*stroke(rail)]:
            for spot in spots:
                if lies_on(spot, begin, end):
                    joints.join(spot, name)
    texts = [(float(one.get("x", 0)), float(one.get("y", 0)), float(one.get("textLength", 0)), one.text or "")
             for one in way.iter(f"{SVG}text")]  # fmt: skip
    found = []
    for symbol in symbols:
        x, y = map(float, re.findall(r"[\d.]+", symbol.get("transform", "")))
        kind = symbol.get("class", "").split()[1]
        beside = [one for one in texts if abs(one[0] + one[2] / 2 - x) < 1 and abs(one[1] - y) < 40]
        name = next(text for _, foot, _, text in beside if foot < y)
        marks = next((text for _, foot, _, text in beside if foot > y), "")
        reach = REACH.get(kind, 14.0)
        left, right = ((round(x + side, 1), y) for side in (-reach, reach))
        for end in (left, right):
            for spot in spots:
                if abs(spot[0] - end[0]) <= 0.15 and spot[1] == end[1]:
                    joints.join(end, spot)
        if kind == "point":
            joints.join(left, right)
            joints.join(left, name)
        else:
            found.append((left, right, LOADS.get(kind, ""), name, marks))
    shown = tuple(Shown(joints.root(left), joints.root(right), *rest) for left, right, *rest in found)
    return Way(shown, {name: joints.root(name) for name in rails})


def stroke(path: Element) -> Iterator[tuple[Spot, Spot]]:
    """A line from spot to spot."""
    drawn = STROKE.fullmatch(path.get("d", ""))
    assert drawn, path.get("d")
    x, y, end = float(drawn[1]), float(drawn[2]), float(drawn[4])
    yield (x, y), ((end, y) if drawn[3] == "H" else (x, end))


def lies_on(spot: Spot, begin: Spot, end: Spot) -> bool:
    """Does a line's end lie on another line?"""
    near = 0.15
    across = min(begin[0], end[0]) - near <= spot[0] <= max(begin[0], end[0]) + near
    return across and min(begin[1], end[1]) - near <= spot[1] <= max(begin[1], end[1]) + near
