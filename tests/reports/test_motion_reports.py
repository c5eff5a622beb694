"""What every report of a motion keeps to, and what the command says."""

import json
import re
import sys
from collections.abc import Iterator
from itertools import combinations
from pathlib import Path
from xml.etree import ElementTree

import pytest

from circuitcheck.cli import main
from circuitcheck.plan.source import PlanError
from circuitcheck.reports.cautions import CAUTION, MOTION_CAUTION
from circuitcheck.reports.motion_json import motion_json
from circuitcheck.reports.motion_png import motion_png
from circuitcheck.reports.motion_svg import motion_svg
from circuitcheck.reports.motion_text import motion_lines
from circuitcheck.reports.problems import columns
from circuitcheck.reports.styled import plain_text
from circuitcheck.reports.table_asking import Unanswerable
from circuitcheck.reports.trace_svg import SIGN
from tests.reports.goldens import elsewhere
from tests.reports.moved import CURTAIN, DECK, DRUM, ENDLESS, FILE, moved
from tests.reports.test_findings_reports import schema

SVG = "{http://www.w3.org/2000/svg}"
LONG_NAMES = DECK.replace("deck", "drawbridge_deck_of_the_castle").replace("bottom", "lowered_onto_the_bank")
PLANS = {"deck": DECK, "drum": DRUM, "curtain": CURTAIN, "endless": ENDLESS, "long names": LONG_NAMES}


@pytest.fixture(scope="module", autouse=True)
def folder() -> Iterator[None]:
    """An empty folder to put plans in."""
    with elsewhere():
        yield


@pytest.fixture(params=PLANS)
def plan(request: pytest.FixtureRequest) -> str:
    """Each of the plans, put in its file."""
    FILE.write_text(PLANS[request.param], encoding="utf-8")
    return PLANS[request.param]


def status(*arguments: str, plan: str) -> int:
    """The exit status of the command for a plan."""
    FILE.write_text(plan, encoding="utf-8")
    return main(["motion", *arguments, str(FILE)])


@pytest.mark.usefixtures("plan")
def test_the_json_keeps_what_its_schema_promises() -> None:
    """The schema is the one that is shipped."""
    report = motion_json(moved())
    assert report.isascii()
    schema("motion").validate(json.loads(report))


@pytest.mark.usefixtures("plan")
@pytest.mark.parametrize("width", [40, 60, 80, 100, 140])
def test_the_text_is_no_wider_than_the_screen(width: int) -> None:
    """And ends with both cautions."""
    text = plain_text(motion_lines(moved(), width))
    long = [line for line in text.splitlines() if columns(line) > width]
    assert [line for line in long if "drawbridge_deck" not in line] == []
    said = " ".join(text.split())
    assert said.endswith(f"{MOTION_CAUTION} {CAUTION}")


@pytest.mark.usefixtures("plan")
def test_the_drawing_is_whole_and_no_two_texts_overlap() -> None:
    """It is well-formed, says the caution, and each text has room of its own within the drawing."""
    root = ElementTree.fromstring(motion_svg(moved()))
    texts = list(root.iter(f"{SVG}text"))
    boxes = [
        (float(one.attrib["x"]), float(one.attrib["y"]), columns(one.text or "") * SIGN, one.text) for one in texts
    ]
    assert all(x >= 0 and x + wide <= float(root.attrib["width"]) and y <= float(root.attrib["height"])
               for x, y, wide, _ in boxes)  # fmt: skip
    for (x, y, wide, text), (other_x, other_y, other_wide, other) in combinations(boxes, 2):
        apart = abs(y - other_y) >= 12 or x + wide <= other_x or other_x + other_wide <= x
        assert apart, (text, other)
    assert CAUTION in " ".join(one.text or "" for one in texts)


def test_ranges_are_rounded_outward() -> None:
    """What a range says in the text holds what it is in the JSON."""
    FILE.write_text(DECK, encoding="utf-8")
    stop = json.loads(motion_json(moved()))["motors"][0]["directions"][0]["stops"][0]
    told = re.search(r"braked [\d.]+ +([\d.]+)\.\.([\d.]+) deg|([\d.]+)\.\.([\d.]+) deg",
                     plain_text(motion_lines(moved(), 140)).split("LS1, deck at top")[1])  # fmt: skip
    assert told
    least, greatest = (float(one) for one in told.groups() if one)
    assert least <= stop["whole"]["degrees"][0] <= stop["whole"]["degrees"][1] <= greatest


@pytest.mark.parametrize(
    ("overtravel", "expected", "said"),
    [("60 deg", 0, "fits"), ("16 deg", 1, "hangs on the figures' range"), ("2 deg", 1, "does not fit")],
)
def test_the_exit_status_says_whether_all_stops_fit(
    overtravel: str, expected: int, said: str, capsys: pytest.CaptureFixture[str]
) -> None:
    """0 only where every stop that is worked out surely fits."""
    assert status(plan=DECK.replace("16 deg", overtravel)) == expected
    assert f": {said}" in capsys.readouterr().out


def test_what_is_missing_is_asked_for_by_name(capsys: pytest.CaptureFixture[str]) -> None:
    """Nothing is guessed: the attribute to write is named, with the part that it belongs to."""
    assert status(plan=CURTAIN) == 0
    said = " ".join(capsys.readouterr().out.split())
    assert "overtravel 30 mm: not known the plan lacks M1 `free 40 rpm`, M1 `coasts 110 deg`" in said
    assert "curtain `inertia 0.3 kg m2`" in said


def test_a_cam_without_its_angle_is_asked_for_it(capsys: pytest.CaptureFixture[str]) -> None:
    """How long a cam keeps its switch pressed is for the plan to say."""
    assert status(plan=DRUM.replace(" 15 deg", "")) == 0
    said = " ".join(capsys.readouterr().out.split())
    assert "cam CS1 not given: not known the plan lacks CS1 `20 deg`" in said


def test_usual_times_are_told_as_such(capsys: pytest.CaptureFixture[str]) -> None:
    """Where the plan gives a relay no times, what stands in for them is said."""
    status(plan=DRUM)
    said = " ".join(capsys.readouterr().out.split())
    assert "K1 releases in 3..30 ms, slowed by the diode across its coil (usual, the plan gives none)" in said


def test_figures_that_no_motor_has_are_refused_at_their_place() -> None:
    """A motor that takes more than half of its stall current when it turns freely."""
    FILE.write_text(DECK.replace("free 1.5 A", "free 10 A").replace("20 N m", "5 N m"), encoding="utf-8")
    with pytest.raises(PlanError) as caught:
        moved()
    [problem] = caught.value.problems
    assert "10 A free and 18 A stalled" in problem.what
    assert problem.place.line == 10


def test_a_motor_that_there_is_not_is_told_with_its_neighbours(capsys: pytest.CaptureFixture[str]) -> None:
    """The nearest name is offered."""
    assert status("--motor", "M2", plan=DECK) == 2
    assert "no motor M2 in prop.plan. " in capsys.readouterr().err


def test_a_plan_without_motors_has_no_motion() -> None:
    """It is said, not shown as an empty report."""
    FILE.write_text("supply PS 12 V 10 A\nfuse F1 5 A\nlamp L1 12 V 2 W\nrung PS.+, F1, L1, PS.-\n", encoding="utf-8")
    with pytest.raises(Unanswerable, match=r"prop\.plan has no motor"):
        moved()


def test_whoever_has_nothing_to_draw_a_picture_with_is_told(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """What to install, and what can be had without."""
    monkeypatch.setitem(sys.modules, "matplotlib.figure", None)
    assert status("--format", "png=deck.png", plan=DECK) == 2
    assert "circuitcheck[plots]" in capsys.readouterr().err


def test_a_picture_goes_into_its_file_unchanged_and_is_the_same_at_every_run() -> None:
    """Beside a report in text: a PNG as the standard has it (ISO/IEC 15948: its signature, then IHDR), with nothing of
    the day in it."""
    status("--format", "text", "--format", "png=deck.png", plan=LONG_NAMES)
    picture = Path("deck.png").read_bytes()
    assert picture[:8] == b"\x89PNG\r\n\x1a\n"
    assert picture[12:16] == b"IHDR"
    assert picture == motion_png(moved())


def test_a_motor_that_its_load_holds_fast_is_told_as_such(capsys: pytest.CaptureFixture[str]) -> None:
    """20 N m against 90 N m of friction: no way of its is told to fit, and the exit status says so."""
    assert status(plan=DECK.replace("gravity 2 N m", "friction 90 N m")) == 1
    report = capsys.readouterr().out
    assert "friction and weight hold more than its torque moves" in report
    assert "fits" not in report


@pytest.mark.parametrize("name", ["text", "svg", "json"])
def test_states_in_which_a_supply_is_shorted_are_told_to_be_left_out(
    name: str, capsys: pytest.CaptureFixture[str]
) -> None:
    """A wire beside the fuse's end leaves no state in which the motor is driven, and every output stands."""
    status("--format", name, plan=DECK + "wire F1.2 PS.-\n")
    report = capsys.readouterr().out
    assert {"text": "Operation shorts a supply", "svg": "</svg>", "json": '"shorts": true'}[name] in report


WITHOUT_AXIS = """\
supply PS 12 V 10 A
fuse   F1 10 A
switch S1 spst positions off run
relay  K1 spdt off-delay 4 s coil 12 V 160 ohm
motor  M1 two-speed 12 V stall 9 A free 1 A 40 rpm coasts 90 deg
rung   PS.+, F1, S1, K1.A1-A2, PS.-
rung   F1.2, K1.15-18, M1.low
wire   M1.- PS.-
"""


@pytest.mark.parametrize(
    ("plan", "says"),
    [
        (WITHOUT_AXIS, "M1 forward"),
        (WITHOUT_AXIS, "K1's time is up"),
        (DECK.replace("gravity 2 N m", "gravity 2 N m, friction 5..25 N m"), "M1 may not get deck moving at all."),
        (DECK.replace("limit  LS1 nc", "limit  LS1 no"), "No limit switch ends its drive at top."),
    ],
)
def test_what_is_rare_in_a_motion_has_its_sentence(plan: str, says: str, capsys: pytest.CaptureFixture[str]) -> None:
    """A motor that moves nothing known, a timer that ends a drive, a load that may hold it, an end without a limit."""
    status(plan=plan)
    assert says in " ".join(capsys.readouterr().out.split())
