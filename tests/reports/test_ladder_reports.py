"""What a ladder shows of a state, how its drawing is made, and what the command says."""

import os
import re
import subprocess
import sys
from collections.abc import Iterator
from itertools import combinations
from pathlib import Path
from xml.etree.ElementTree import Element, fromstring

import pytest

from circuitcheck.analysis.lit import Lit
from circuitcheck.analysis.settled_state import settled_state
from circuitcheck.analysis.single_state import conducts
from circuitcheck.cli import main
from circuitcheck.reports.cautions import CAUTION
from circuitcheck.reports.ladder_asking import redrawn
from circuitcheck.reports.ladder_svg import STYLE, ladder_fragment, ladder_svg
from circuitcheck.reports.ladder_text import ladder_lines
from circuitcheck.reports.problems import columns
from circuitcheck.reports.styled import plain_text
from tests.reports.goldens import elsewhere
from tests.reports.laddered import DECK, FILE, LANTERN, drawn
from tests.test_examples import RIGHT, WRONG, facts_of

SVG = "{http://www.w3.org/2000/svg}"
MAY_HAVE = {
    "svg": {"class", "viewBox", "width", "height", "font-family", "font-size", "stroke", "fill", "role"},
    "title": set(),
    "style": set(),
    "rect": {"width", "height", "class", "fill", "stroke"},
    "g": {"class", "id", "transform"},
    "path": {"class", "d"},
    "circle": {"class", "r", "fill"},
    "text": {
        *("x", "y", "textLength", "lengthAdjust", "font-weight"),
        "{http://www.w3.org/XML/1998/namespace}space",
    },
}
"""The elements and attributes of Scalable Vector Graphics (SVG) 1.1, W3C Recommendation 2011, that a ladder needs;
data-* are HTML's own for any element (HTML Living Standard 3.2.6.6)."""
PATH = re.compile(r"(?:[MLHVAZ](?:-?\d+(?:\.\d+)? ?)*)+")
ASCENT, DESCENT = 10.5, 3.0
"""How far letters reach above and below their foot, at a height of 13."""
OKABE_ITO = {"#e69f00", "#56b4e9", "#009e73", "#f0e442", "#0072b2", "#d55e00", "#cc79a7"}
"""The palette of M. Okabe and K. Ito, Color Universal Design (2008), besides black."""


@pytest.fixture(scope="module", autouse=True)
def folder() -> Iterator[None]:
    """An empty folder to put plans in."""
    with elsewhere():
        yield


def status(*arguments: str, plan: str = DECK) -> int:
    """The exit status of the command for a plan."""
    FILE.write_text(plan, encoding="utf-8")
    return main(["ladder", *arguments, str(FILE)])


def rooted(svg: str) -> Element:
    """The drawing's outermost element."""
    return fromstring(svg.removeprefix('<?xml version="1.0" encoding="UTF-8"?>\n'))


def boxes(root: Element) -> list[tuple[float, float, float, float, str]]:
    """Left, top, right and bottom of each text."""
    found = []
    for one in root.iter(f"{SVG}text"):
        x, foot, length = (float(one.attrib[name]) for name in ("x", "y", "textLength"))
        found.append((x, foot - ASCENT, x + length, foot + DESCENT, one.text or ""))
    return found


@pytest.mark.parametrize("path", RIGHT + WRONG, ids=lambda path: path.stem)
def test_a_drawing_is_made_of_what_svg_allows(path: Path) -> None:
    """Elements, attributes, paths and lengths; no id twice; every number within the picture."""
    root = rooted(ladder_svg(redrawn(facts_of(path))))
    width, height = (float(root.attrib[name]) for name in ("width", "height"))
    ids = [one.attrib["id"] for one in root.iter() if "id" in one.attrib]
    assert len(set(ids)) == len(ids)
    for one in root.iter():
        name = one.tag.removeprefix(SVG)
        assert {each for each in one.attrib if not each.startswith("data-")} <= MAY_HAVE[name], (name, one.attrib)
        assert name != "path" or PATH.fullmatch(one.attrib["d"]), one.attrib["d"]
    for left, top, right, bottom, text in boxes(root):
        assert 0 <= left < right <= width, text
        assert 0 <= top < bottom <= height, text


@pytest.mark.parametrize("path", RIGHT + WRONG, ids=lambda path: path.stem)
def test_no_two_labels_of_a_drawing_overlap(path: Path) -> None:
    """Each text is as wide as it says, whatever letters the viewer has."""
    root = rooted(ladder_svg(redrawn(facts_of(path))))
    found = boxes(root)
    for one, other in combinations(found, 2):
        apart = one[2] <= other[0] or other[2] <= one[0] or one[3] <= other[1] or other[3] <= one[1]
        assert apart, (one, other)


@pytest.mark.parametrize("path", RIGHT + WRONG, ids=lambda path: path.stem)
@pytest.mark.parametrize("width", [60, 80, 140])
def test_text_keeps_to_its_columns(path: Path, width: int) -> None:
    """Rungs are broken at points, prose between words."""
    lines = plain_text(ladder_lines(redrawn(facts_of(path)), width)).splitlines()
    assert max(map(columns, lines)) <= width


@pytest.mark.parametrize("path", RIGHT + WRONG, ids=lambda path: path.stem)
def test_what_conducts_is_lit_as_the_analysis_has_it(path: Path) -> None:
    """Every symbol of a conductor, and which contacts are closed."""
    facts = facts_of(path)
    wanted = {one.name: one.values[-1] for one in facts.circuit.digits if one.kind in ("control", "outside")}
    state, lit = settled_state(facts, wanted).state, Lit(facts)
    root = rooted(ladder_fragment(redrawn(facts, wanted)))
    for symbol in root.iter(f"{SVG}g"):
        classes = symbol.get("class", "").split()
        if "symbol" in classes and "data-conductors" in symbol.attrib:
            number = int(symbol.attrib["data-conductors"])
            flow, conductor = lit[number], facts.circuit.conductors[number]
            flows = {"lit": state in flow.fed, "brake": state in flow.braking, "short": state in flow.shorting}
            told = {*flows} & {*classes}
            assert bool(told) == any(flows.values())
            assert all(flows[word] for word in told)
            assert ("closed" in classes) == (conductor.closed is not None and conducts(conductor, state))


def test_nothing_is_lit_where_no_state_is_asked_for() -> None:
    """Neither in text nor in the drawing."""
    FILE.write_text(DECK, encoding="utf-8")
    asked = drawn(None)
    assert "=" not in plain_text(ladder_lines(asked, 80))
    assert not {"lit", "brake", "short", "closed"} & {
        word for one in rooted(ladder_svg(asked)).iter() for word in one.get("class", "").split()
    }


def test_the_three_currents_differ_without_colour() -> None:
    """In a drawing by thickness and dashes, their colours being of a palette for the colour-blind."""
    rules = [re.search(rf"\.ladder \.{name}{{(.*?)}}", STYLE) for name in ("lit", "brake", "short")]
    told = [rule[1] for rule in rules if rule]
    assert len({re.sub(r"stroke:[^;]*;", "", rule) for rule in told}) == 3
    assert {re.findall(r"#\w+", rule)[0] for rule in told} < OKABE_ITO


def test_signs_of_the_plan_are_escaped_and_the_drawing_stands_alone() -> None:
    """A label with < and & is read back; nothing outside is referred to; the caution stands below."""
    FILE.write_text(DECK, encoding="utf-8")
    drawing = ladder_svg(drawn("S1=raise"))
    assert "href" not in drawing
    assert "url(" not in drawing
    texts = [one.text or "" for one in rooted(drawing).iter(f"{SVG}text")]
    assert 'K1 "<up> & down" relay' in texts
    assert CAUTION.split()[0] in " ".join(texts)


def test_a_page_can_find_what_belongs_to_what() -> None:
    """Rungs and loads, contacts with their parts and digits, lines with the wires that they stand for."""
    FILE.write_text(DECK, encoding="utf-8")
    asked = drawn(None)
    circuit = asked.facts.circuit
    root = fromstring(ladder_fragment(asked))
    rungs = [one for one in root.iter(f"{SVG}g") if one.get("class") == "rung"]
    assert [int(one.attrib["data-load"]) for one in rungs] == list(range(len(circuit.loads)))
    contacts = [one for one in root.iter(f"{SVG}g") if "data-digit" in one.attrib]
    for one in contacts:
        conductor = circuit.conductors[int(one.attrib["data-conductors"])]
        assert conductor.closed
        assert (one.attrib["data-part"], int(one.attrib["data-digit"])) == (conductor.part, conductor.closed.digit)
    wires = {int(number) for one in root.iter() for number in one.get("data-wires", "").split()}
    assert wires <= {wire.conductor for wire in circuit.wires}
    assert len(wires) > len(circuit.wires) / 2


@pytest.mark.parametrize("plan", [DECK, LANTERN])
def test_the_same_plan_gives_the_same_ladder_in_every_run(plan: str) -> None:
    """Whatever order Python's sets have."""
    FILE.write_text(plan, encoding="utf-8")
    command = [sys.executable, "-m", "circuitcheck", "ladder", "prop.plan", "--format", "svg", "--state", "PS=on"]
    path = os.environ | {"PYTHONPATH": str(Path(__file__).parents[2])}
    runs = [
        subprocess.run(command, env=path | {"PYTHONHASHSEED": seed}, capture_output=True, check=True).stdout
        for seed in ("1", "2")
    ]
    assert runs[0] == runs[1]


def test_a_plan_without_loads_says_that_there_is_no_rung(capsys: pytest.CaptureFixture[str]) -> None:
    """In text, and in a drawing too."""
    plan = "supply PS 12 V 10 A"
    assert status("--color", "never", plan=plan) == 0
    assert status("--format", "svg", plan=plan) == 0
    assert capsys.readouterr().out.count("No part of this plan takes current") == 2


def test_a_slip_in_the_state_ends_with_what_would_do(capsys: pytest.CaptureFixture[str]) -> None:
    """The wrong position is shown where it stands."""
    assert status("--state", "S1=rise") == 2
    told = capsys.readouterr().err
    assert "--state:1:4: no position rise on S1" in told
    assert "Nearest: raise." in told


def test_what_hangs_on_more_than_was_named_is_said(capsys: pytest.CaptureFixture[str]) -> None:
    """A relay held where it would not stay."""
    assert status("--state", "S1=off, K1=operated", "--color", "never") == 0
    assert "K1 operated is held so: it would not stay." in " ".join(capsys.readouterr().out.split())


def test_a_drawing_goes_into_the_file_that_is_named(capsys: pytest.CaptureFixture[str]) -> None:
    """The caution is told beside it."""
    assert status("--format", "svg=deck.svg") == 0
    assert rooted(Path("deck.svg").read_text(encoding="utf-8")).tag == f"{SVG}svg"
    assert CAUTION in capsys.readouterr().err
