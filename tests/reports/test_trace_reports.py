"""What every report of a trace keeps to, whatever the story."""

import json
import re
from collections.abc import Callable, Iterator
from itertools import combinations
from pathlib import Path
from xml.etree import ElementTree

import pytest

from circuitcheck.checks.narration import FAULT
from circuitcheck.reports.cautions import CAUTION
from circuitcheck.reports.problems import columns
from circuitcheck.reports.styled import plain_text
from circuitcheck.reports.table_asking import Unanswerable
from circuitcheck.reports.trace_asking import Told, asked_trace, finding_trace
from circuitcheck.reports.trace_chart import chart_of
from circuitcheck.reports.trace_json import trace_json
from circuitcheck.reports.trace_svg import SIGN, trace_svg
from circuitcheck.reports.trace_text import trace_lines
from circuitcheck.reports.trace_words import moves_words
from tests.reports.goldens import elsewhere
from tests.reports.test_findings_reports import schema
from tests.reports.traced import DECK, FILE, SHORTED, raised, shorted, traced
from tests.test_examples import EXAMPLES, WRONG, findings_of

SVG = "{http://www.w3.org/2000/svg}"
LONG_NAMES = DECK.replace("deck", "drawbridge_deck_of_the_castle").replace("bottom", "lowered_onto_the_bank")
TO_AND_FRO = ("S1 raise", "run", "S1 lower", "run") * 4


@pytest.fixture(scope="module", autouse=True)
def folder() -> Iterator[None]:
    """An empty folder to put plans in."""
    with elsewhere():
        yield


def told(name: str) -> Told:
    """Traces that are long, broken off, wide, or of a finding."""
    FILE.write_text(
        {"shorted": SHORTED, "finding": SHORTED, "long names": LONG_NAMES}.get(name, DECK), encoding="utf-8"
    )
    traces: dict[str, Callable[[], Told]] = {
        "raised": raised,
        "shorted": shorted,
        "nothing done": lambda: traced(""),
        "long": lambda: traced("", *TO_AND_FRO),
        "long names": lambda: traced("", *TO_AND_FRO),
        "finding": lambda: finding_trace(FILE, (), "supply-short"),
    }
    return traces[name]()


NAMES = ("raised", "shorted", "nothing done", "long", "long names", "finding")


@pytest.mark.parametrize("name", NAMES)
def test_the_json_keeps_what_its_schema_promises(name: str) -> None:
    """The schema is the one that is shipped."""
    report = trace_json(told(name))
    assert report.isascii()
    schema("trace").validate(json.loads(report))


def test_the_json_tells_what_was_not_come_to() -> None:
    """A short ends the story with an action left."""
    report = json.loads(trace_json(told("shorted")))
    assert (report["broken_off"], report["not_come_to"]) == (True, ["release PB1"])
    assert report["steps"][-1]["conducts"]["short"][0] == "PS.+"


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("width", [40, 60, 80, 100, 140])
def test_no_line_is_wider_than_the_screen(name: str, width: int) -> None:
    """Words that are wider themselves aside, as are the lanes' names on the narrowest screen."""
    lines = plain_text(trace_lines(told(name), width)).splitlines()
    if name != "long names":
        assert [line for line in lines if columns(line) > max(width, 48)] == []


@pytest.mark.parametrize("name", NAMES)
def test_in_every_step_each_thing_stands_in_at_most_one_lane(name: str) -> None:
    """And something is filled in every lane, else it would not be there."""
    chart = chart_of(told(name))
    assert all(any(lane.filled) for lane in chart.lanes)
    by_name: dict[str, list[tuple[bool, ...]]] = {}
    for lane in chart.lanes:
        by_name.setdefault(lane.name, []).append(lane.filled)
    assert all(sum(step) <= 1 for lanes in by_name.values() for step in zip(*lanes, strict=True))


@pytest.mark.parametrize("name", NAMES)
def test_the_drawing_is_well_formed_and_nothing_lies_on_or_beyond_anything_else(name: str) -> None:
    """No two texts overlap, and none leaves the sheet."""
    drawing = ElementTree.fromstring(trace_svg(told(name)))
    width, height = float(drawing.attrib["width"]), float(drawing.attrib["height"])
    boxes: list[tuple[float, float, float, float]] = []
    for text in drawing.iter(f"{SVG}text"):
        x, y, length = (float(text.attrib[key]) for key in ("x", "y", "textLength"))
        assert length == pytest.approx(columns(text.text or "") * SIGN, abs=0.1)
        boxes.append((x, y - 12, x + length, y + 4))
    assert min(left for left, _, _, _ in boxes) >= 0 <= min(top for _, top, _, _ in boxes)
    assert max(right for _, _, right, _ in boxes) <= width
    assert max(bottom for _, _, _, bottom in boxes) <= height
    for one, other in combinations(boxes, 2):
        assert one[2] <= other[0] or other[2] <= one[0] or one[3] <= other[1] or other[3] <= one[1], (one, other)


def test_the_drawing_stands_alone_and_needs_no_colour() -> None:
    """It refers to nothing outside, has greys only, and carries the caution and the plan's own signs."""
    drawing = trace_svg(told("raised"))
    assert "href" not in drawing
    assert "url(" not in drawing
    root = ElementTree.fromstring(drawing)
    colours = {one.attrib[key] for one in root.iter() for key in ("fill", "stroke") if key in one.attrib}
    assert colours <= {"white", "black", "#333", "#888", "#bbb"}
    words = " ".join(one.text or "" for one in root.iter(f"{SVG}text"))
    assert "Raises & lowers the deck <slowly>" in words
    assert CAUTION in words


def test_a_finding_is_traced_to_what_it_found() -> None:
    """Its steps end in the short that it tells."""
    assert told("finding").trace.steps[-1].shorted


def test_a_prop_with_no_axis_can_be_told_to_run() -> None:
    """Nothing moves then, and that is said."""
    FILE.write_text("supply PS 12 V 10 A\nfuse F1 5 A\nlamp L1 12 V 2 W\nrung PS.+, F1, L1, PS.-\n", encoding="utf-8")
    words = plain_text(trace_lines(asked_trace(FILE, (), None, (), ("run", "wait")), 100))
    assert words.count("Nothing moves: there is nothing of the kind in the plan.") == 2


@pytest.mark.parametrize(
    ("check", "words"),
    [("supply-shirt", "Nearest: supply-short."), ("unbraked-stop", "unbraked-stop finds nothing in prop.plan.")],
)
def test_a_finding_that_is_not_there_is_told(check: str, words: str) -> None:
    """No such check, or nothing found."""
    FILE.write_text(SHORTED, encoding="utf-8")
    with pytest.raises(Unanswerable) as raised_error:
        finding_trace(Path(FILE), (), check)
    assert words in str(raised_error.value)


@pytest.mark.parametrize("path", WRONG, ids=lambda path: path.stem)
def test_the_steps_that_a_finding_tells_are_those_that_are_traced(path: Path) -> None:
    """Of the first finding with steps of each check; contacts on their way and relays that stick are no steps."""
    parts = (EXAMPLES / "parts",)
    found = [one for one in findings_of(path) if one.steps]
    for check in {finding.check for finding in found}:
        steps = next(finding.steps for finding in found if finding.check == check)
        if any(step.startswith(FAULT) for step in steps):
            with pytest.raises(Unanswerable, match="through a fault"):
                finding_trace(path, parts, check)
            continue
        trace = finding_trace(path, parts, check)
        told_steps = [moves_words(trace, number) for number in range(1, len(trace.shown))]
        assert told_steps == [step for step in steps[1:] if not re.search(" on the way$| sticks ", step)]
