"""What the wiring drawing shows of a state, and what the command says."""

import os
import re
import subprocess
import sys
from collections.abc import Iterator
from itertools import product
from pathlib import Path
from xml.etree import ElementTree

import pytest

from circuitcheck.analysis.lit import Lit
from circuitcheck.analysis.settled_state import settled_state
from circuitcheck.analysis.single_state import conducts
from circuitcheck.circuit.model import Circuit
from circuitcheck.cli import main
from circuitcheck.drawing.shown import shown_in
from circuitcheck.reports.cautions import CAUTION
from circuitcheck.reports.drawing_sheets import sheet_words
from circuitcheck.reports.drawing_svg import drawing_fragment, drawing_svg
from tests.drawing.drawn import drawing_of, svg_of
from tests.drawing.seen import SVG, rooted
from tests.reports.drawn import DECK, FILE, SHORTED, drawn
from tests.reports.goldens import elsewhere
from tests.test_examples import RIGHT, facts_of

CURRENTS = ("lit", "brake", "short")
MOST_CONTROLS = 3
OKABE_ITO = {"#e69f00", "#56b4e9", "#009e73", "#f0e442", "#0072b2", "#d55e00", "#cc79a7"}
"""The palette of M. Okabe and K. Ito, Color Universal Design (2008), besides black."""
STYLES = Path("circuitcheck/reports/drawing.css").resolve()


@pytest.fixture(scope="module", autouse=True)
def folder() -> Iterator[None]:
    """An empty folder to put plans in."""
    with elsewhere():
        yield


def status(*arguments: str, plan: str = DECK) -> int:
    """The exit status of the command for a plan."""
    FILE.write_text(plan, encoding="utf-8")
    return main(["drawing", *arguments, str(FILE)])


def classes_of(root: ElementTree.Element) -> dict[int, set[str]]:
    """What each conductor's group is marked as."""
    found = {}
    for group in root.iter(f"{SVG}g"):
        for number in group.get("data-conductors", "").split():
            found[int(number)] = set(group.attrib["class"].split())
    return found


def some_states(circuit: Circuit) -> Iterator[dict[str, str]]:
    """Every setting of the first few controls."""
    controls = [digit for digit in circuit.digits if digit.kind in ("control", "outside")][:MOST_CONTROLS]
    for words in product(*(digit.values for digit in controls)):
        yield dict(zip((digit.name for digit in controls), words, strict=True))


@pytest.mark.parametrize("path", RIGHT, ids=lambda path: path.stem)
def test_what_conducts_is_marked_as_the_analysis_has_it(path: Path) -> None:
    """Wires, contacts and all else, in every state that the first few controls lead to."""
    facts = facts_of(path)
    lit = Lit(facts)
    for wanted in some_states(facts.circuit):
        state = settled_state(facts, wanted).state
        shown = shown_in(facts.circuit, state)
        marked = classes_of(ElementTree.fromstring(drawing_fragment(facts.circuit, drawing_of(path), shown)))
        for number, conductor in enumerate(facts.circuit.conductors):
            flow, closed = lit[number], conducts(conductor, state)
            flows = {"lit": state in flow.fed, "brake": state in flow.braking, "short": state in flow.shorting}
            told = marked[number] & set(CURRENTS)
            assert bool(told) == any(flows.values())
            assert all(flows[word] for word in told)
            assert not conductor.part or ("closed" in marked[number]) == closed


def test_a_short_is_marked_from_plus_to_minus() -> None:
    """The wires of its way, and the fuse."""
    FILE.write_text(SHORTED, encoding="utf-8")
    asked = drawn("S1=raise")
    marked = classes_of(rooted(drawing_svg(*asked)))
    short = {asked.circuit.conductors[number].name for number, words in marked.items() if "short" in words}
    assert {"the wire PS.+ to F1.1", "F1.1-2", "S1.com-raise", "the wire S1.raise to PS.-"} <= short


def test_the_three_currents_differ_without_colour() -> None:
    """Their bands have widths and dashes of their own, and their colours are of a palette for the colour-blind."""
    style = STYLES.read_text(encoding="utf-8")
    rules = [re.search(rf"\.{name} > path\.halo {{(.*?)}}", style) for name in CURRENTS]
    told = [rule[1] for rule in rules if rule]
    assert len({re.sub(r"stroke: [^;]*;", "", rule) for rule in told}) == len(CURRENTS)
    assert {re.findall(r"#\w+", rule)[0] for rule in told} < OKABE_ITO


def test_the_drawing_stands_alone() -> None:
    """It is well-formed, refers to nothing outside, and carries the caution and the plan's own signs."""
    FILE.write_text(DECK, encoding="utf-8")
    drawing = drawing_svg(*drawn(None))
    assert "href" not in drawing
    assert "url(" not in drawing
    words = " ".join(one.text or "" for one in ElementTree.fromstring(drawing).iter(f"{SVG}text"))
    assert "Raises & lowers the deck <slowly>" in words
    assert '"<up> & down"' in words
    assert CAUTION in words


def test_a_wire_tells_its_number_colour_and_gauge() -> None:
    """As the plan has them; where it says nothing, its number and what holds for all wires."""
    FILE.write_text(DECK, encoding="utf-8")
    words = [one.text for one in rooted(drawing_svg(*drawn(None))).iter(f"{SVG}text")]
    assert {"w1 red 1.5 mm²", "w1", "w7 green/yellow 16 AWG", "w7", "w2 white 1.5 mm²", "w3 0.75 mm²"} <= set(words)


def test_the_drawing_is_the_same_at_every_run() -> None:
    """To the byte, in processes that order sets each in its own way."""
    FILE.write_text(DECK, encoding="utf-8")
    told = []
    for seed in ("1", "2"):
        environment = os.environ | {"PYTHONHASHSEED": seed, "PYTHONPATH": str(STYLES.parent.parent.parent)}
        command = [sys.executable, "-m", "circuitcheck", "drawing", str(FILE), "--state", "S1=raise"]
        told.append(subprocess.run(command, env=environment, capture_output=True, check=True).stdout)
    assert told[0] == told[1] != b""


def test_the_state_that_is_shown_is_told(capsys: pytest.CaptureFixture[str]) -> None:
    """What was asked for, and which relays follow."""
    assert status("--state", "S1=lower, deck=top") == 0
    assert "PS on, S1 lower, K2 operated, deck top, all else at rest." in capsys.readouterr().out


def test_it_goes_into_a_file(capsys: pytest.CaptureFixture[str]) -> None:
    """With the caution beside it."""
    assert status("--format", "svg=deck.svg") == 0
    assert Path("deck.svg").read_text(encoding="utf-8") == drawing_svg(*drawn(None))
    said = capsys.readouterr()
    assert (said.out, said.err) == ("", f"{CAUTION}\n")


def test_a_state_that_there_is_not_is_told_at_its_place(capsys: pytest.CaptureFixture[str]) -> None:
    """With the nearest that there is."""
    assert status("--state", "S1=rise") == 2
    assert "no position rise on S1" in capsys.readouterr().err


def test_whoever_has_nothing_to_lay_a_drawing_out_with_is_told(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """What to install."""
    monkeypatch.setitem(sys.modules, "pygraphviz", None)
    assert status() == 2
    assert "pip install 'circuitcheck[drawings]'" in capsys.readouterr().err


@pytest.mark.parametrize("path", RIGHT, ids=lambda path: path.stem)
def test_what_a_hand_or_an_axis_works_shows_how_it_is_worked(path: Path) -> None:
    """Pressed, hit, turned or run against: every such part with contacts has its actuator, and no other part has."""
    circuit = facts_of(path).circuit
    root = rooted(svg_of(circuit, drawing_of(path)))
    worked = {
        group.attrib["data-part"]
        for group in root.iter(f"{SVG}g")
        if group.get("data-part") and any(one.get("class") == "thin" for one in group.iter(f"{SVG}path"))
    }
    kinds = ("button", "estop", "switch", "limit", "cam")
    assert worked == {part.name for part in circuit.parts.values() if part.kind in kinds}


@pytest.mark.parametrize(
    ("width", "height", "words"),
    [
        (1600, 1100, ""),
        (1100, 1600, ""),
        (3300, 2200, "To be read on paper it needs A3 or larger."),
        (3900, 10900, "Too large to be read on any sheet: look at it on a screen, where it can be enlarged."),
    ],
)
def test_a_drawing_tells_which_sheet_it_needs(width: float, height: float, words: str) -> None:
    """Letters are 11 units high; A4 and A3 are 277 and 400 mm long inside their margins (ISO 216)."""
    drawing = drawing_of(RIGHT[0])._replace(width=width, height=height)
    assert sheet_words(drawing) == words
    assert words in " ".join(re.findall(r">([^<]+)</text>", svg_of(facts_of(RIGHT[0]).circuit, drawing)))
