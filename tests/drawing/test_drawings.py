"""What holds of every wiring drawing, right plan or wrong: it is whole, and nothing in it lies on anything else."""

import time
from collections import Counter
from pathlib import Path
from xml.etree import ElementTree

import pytest
from hypothesis import given, settings

from circuitcheck.circuit.model import Circuit
from circuitcheck.circuit.wire_numbers import wire_numbers
from circuitcheck.drawing.drawing import Drawing, lay_out
from tests.analysis.plans import circuit_of, plan_texts
from tests.drawing.drawn import EXAMPLES, drawing_of, large_panel, svg_of
from tests.drawing.seen import EDGE, SVG, Rectangle, meetings, overlaps, rectangles, rooted, texts, wires
from tests.profiles import examples
from tests.test_examples import facts_of

LARGEST_SECONDS = 5.0


def assert_nothing_overlaps(root: ElementTree.Element) -> None:
    """Texts, bars and boxes lie apart, wires run past all of them and never along each other."""
    labels, frames, bars = texts(root), rectangles(root, "frame"), rectangles(root, "bar", "free")
    drawn = wires(root)
    thick = [piece for wire in drawn for piece in wire.pieces(EDGE)]
    lines = [piece for wire in drawn for piece in wire.pieces(0.0)]
    shrunk = [one._replace(left=one.left + 4, right=one.right - 4) for one in frames]
    assert overlaps(labels) == []
    assert overlaps(frames) == []
    assert overlaps(bars) == []
    assert meetings(labels, bars) == []
    assert meetings(labels, thick) == []
    assert meetings(shrunk, thick) == []
    assert along_each_other(lines) == []
    assert all(inside(root, one) for one in (*labels, *frames, *thick))


def along_each_other(lines: list[Rectangle]) -> list[tuple[str, str]]:
    """Wires of which two pieces run side by side too near to be told apart."""
    flat = [one._replace(top=one.top - EDGE, bottom=one.bottom + EDGE) for one in lines if one.top == one.bottom]
    upright = [one._replace(left=one.left - EDGE, right=one.right + EDGE) for one in lines if one.left == one.right]
    pairs = [*overlaps(flat), *overlaps(upright)]
    return [pair for pair in pairs if pair[0] != pair[1]]


def inside(root: ElementTree.Element, one: Rectangle) -> bool:
    """Does it lie within the drawing?"""
    left, top, width, height = (float(number) for number in root.attrib["viewBox"].split())
    return left <= one.left and top <= one.top and one.right <= left + width and one.bottom <= top + height


def assert_whole(circuit: Circuit, root: ElementTree.Element) -> None:
    """Every wire, part and terminal is there once, and all that parts are made of."""
    groups = list(root.iter(f"{SVG}g"))
    ids = [one.attrib["id"] for one in root.iter() if "id" in one.attrib]
    assert len(ids) == len(set(ids))
    shown = Counter(one.attrib["data-conductors"] for one in groups if "wire" in one.get("class", "").split())
    assert shown == Counter(str(wire.conductor) for wire in circuit.wires)
    parts = [one.attrib["data-part"] for one in groups if "data-part" in one.attrib]
    assert Counter(parts) == Counter(name for name, part in circuit.parts.items() if part.marks)
    terminals = [one.attrib["data-terminal"] for one in groups if "data-terminal" in one.attrib]
    assert Counter(terminals) == Counter(end for part in circuit.parts.values() for end in part.terminals)
    inner = [number for one in groups for number in one.get("data-conductors", "").split()]
    assert Counter(inner) == Counter(map(str, range(len(circuit.conductors))))
    loads = [number for one in groups for number in one.get("data-load", "").split()]
    assert Counter(loads) == Counter(map(str, range(len(circuit.loads))))


def assert_wires_end_at_their_terminals(circuit: Circuit, root: ElementTree.Element) -> None:
    """Each wire's two ends lie on bars of the terminals that it joins."""
    bars: dict[str, list[Rectangle]] = {}
    for group in root.iter(f"{SVG}g"):
        if "data-terminal" in group.attrib:
            bars[group.attrib["data-terminal"]] = rectangles(group, "bar")
    for wire in wires(root):
        conductor = circuit.conductors[int(wire.group.attrib["data-conductors"])]
        for (x, y), end in ((wire.corners[0], conductor.tail), (wire.corners[-1], conductor.head)):
            assert any(bar.left <= x <= bar.right and bar.top <= y <= bar.bottom for bar in bars[end])


def assert_labelled(circuit: Circuit, drawing: Drawing) -> None:
    """Each wire has its number at both ends, its colour and gauge at one."""
    for wire, info, number in zip(drawing.wires, circuit.wires, wire_numbers(circuit), strict=True):
        short, whole = sorted((label.text for label in wire.labels), key=len)
        assert (short, whole) == (number, wire.content.label)
        assert whole.startswith(f"{number} {info.colour}".rstrip())


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_a_drawing_is_whole_and_nothing_in_it_overlaps(path: Path) -> None:
    """Of every example."""
    circuit = facts_of(path).circuit
    root = rooted(svg_of(circuit, drawing_of(path)))
    assert_nothing_overlaps(root)
    assert_whole(circuit, root)
    assert_wires_end_at_their_terminals(circuit, root)
    assert_labelled(circuit, drawing_of(path))


@settings(max_examples=examples(30), deadline=None)
@given(plan_texts(most_parts=12))
def test_a_drawing_of_any_plan_is_whole_and_nothing_in_it_overlaps(text: str) -> None:
    """However little sense its wiring makes."""
    circuit = circuit_of(text)
    drawing = lay_out(circuit)
    root = rooted(svg_of(circuit, drawing))
    assert_nothing_overlaps(root)
    assert_whole(circuit, root)
    assert_wires_end_at_their_terminals(circuit, root)
    assert_labelled(circuit, drawing)


@pytest.mark.slow
def test_two_hundred_parts_are_laid_out_in_less_than_five_seconds() -> None:
    """And their drawing is as whole, with nothing on anything else."""
    circuit = large_panel()
    assert sum(bool(part.marks) for part in circuit.parts.values()) >= 200
    beginning = time.process_time()
    drawing = lay_out(circuit)
    seconds = time.process_time() - beginning
    root = rooted(svg_of(circuit, drawing))
    assert_nothing_overlaps(root)
    assert_whole(circuit, root)
    assert_wires_end_at_their_terminals(circuit, root)
    assert seconds < LARGEST_SECONDS
