"""The command as it is called: exit statuses, streams, colour, folders, and everything that can go wrong."""

import io
import json
import os
import subprocess
import sys
from collections.abc import Mapping, Sequence
from pathlib import Path

import pytest

from circuitcheck import __version__
from circuitcheck.cli import main
from circuitcheck.commands import explain
from circuitcheck.reports.terminal import screen_width, takes_colour

RIGHT = "supply PS 12 V 10 A\nfuse F1 5 A\nbutton PB1 no\nlamp L1 12 V 2 W\nrung PS.+, F1, PB1, L1, PS.-\n"
ERROR = "supply PS 12 V 10 A\nfuse F1 5 A\nswitch S1 spst positions off on\nrung PS.+, F1, S1, PS.-\n"
WARNING = RIGHT + "lamp L2 12 V 2 W\n"
THIN = RIGHT.replace("F1 5 A", "F1 0.1 A")
SLIP = "supply PS 12 V\nwire PS.+ K1.A1\n"
PACKAGE = Path(__file__).parent.parent


class Screen(io.StringIO):
    """A stream that says it is a terminal."""

    def isatty(self) -> bool:
        return True


@pytest.fixture(autouse=True)
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The folder that we are in, with plans of every kind; nothing is set that changes how reports look."""
    monkeypatch.chdir(tmp_path)
    for name in ("COLUMNS", "NO_COLOR", "FORCE_COLOR", "TERM"):
        monkeypatch.delenv(name, raising=False)
    for name, text in (("right", RIGHT), ("error", ERROR), ("warning", WARNING), ("thin", THIN), ("slip", SLIP)):
        Path(f"{name}.plan").write_text(text, encoding="utf-8")
    return tmp_path


def ends(arguments: Sequence[str]) -> object:
    """The exit status, also of a call that argparse answers by itself."""
    try:
        return main(arguments)
    except SystemExit as ended:
        return ended.code


@pytest.mark.parametrize(
    ("arguments", "status"),
    [
        (["check", "right.plan"], 0),
        (["check", "error.plan"], 1),
        (["check", "warning.plan"], 1),
        (["check", "--fail-on", "error", "warning.plan"], 0),
        (["check", "--fail-on", "note", "error.plan"], 1),
        (["check", "slip.plan"], 2),
        (["check", "error.plan", "slip.plan"], 2),
        (["check", "nothing.plan"], 2),
        (["table", "right.plan"], 0),
        (["table", "slip.plan"], 2),
        (["table", "--motor", "M9", "right.plan"], 2),
        (["trace", "right.plan", "--do", "press PB1"], 0),
        (["trace", "error.plan", "--do", "S1 on"], 1),
        (["trace", "error.plan", "--finding", "supply-short"], 0),
        (["trace", "right.plan", "--finding", "supply-short"], 2),
        (["trace", "right.plan", "--do", "L1 lit"], 2),
        (["trace", "right.plan", "--story", "nothing.story"], 2),
        (["trace", "slip.plan"], 2),
        (["size", "right.plan"], 0),
        (["size", "thin.plan"], 1),
        (["size", "right.plan", "--explain", "PS.+-F1.1"], 0),
        (["size", "right.plan", "--explain", "w99"], 2),
        (["size", "slip.plan"], 2),
        (["explain"], 0),
        (["explain", "supply-short"], 0),
        (["explain", "supply-shirt"], 2),
    ],
)
def test_the_exit_status_tells_what_came_of_it(arguments: list[str], status: int) -> None:
    """0: nothing at the failing severity; 1: something; 2: the input or the call is wrong."""
    assert main(arguments) == status


@pytest.mark.parametrize(
    "arguments",
    [
        [],
        ["chek", "right.plan"],
        ["check"],
        ["check", "--form", "json", "right.plan"],
        ["check", "--format", "xml", "right.plan"],
        ["check", "--format", "json=", "right.plan"],
        ["check", "--format", "json", "--format", "text", "right.plan"],
        ["check", "--fail-on", "never", "right.plan"],
        ["table", "right.plan", "error.plan"],
        ["trace", "right.plan", "--finding", "supply-short", "--do", "press PB1"],
        ["trace", "right.plan", "--format", "csv"],
        ["size", "right.plan", "--format", "csv"],
    ],
)
def test_a_wrong_call_ends_with_2(arguments: list[str]) -> None:
    """Nothing is guessed: not an abbreviation, not which of two reports goes where."""
    assert ends(arguments) == 2


@pytest.mark.parametrize(
    "arguments",
    [["--help"], *([name, "--help"] for name in ("check", "join", "table", "trace", "size", "motion", "explain"))],
)
def test_help_fits_a_screen_of_80_columns(arguments: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    """It says what the command does, with examples."""
    assert ends(arguments) == 0
    text = capsys.readouterr().out
    assert "examples:" in text
    assert [line for line in text.splitlines() if len(line) > 80] == []


def test_an_impossible_action_is_told_with_its_place(capsys: pytest.CaptureFixture[str]) -> None:
    """Like a slip in a plan, under the words of the call."""
    main(["trace", "right.plan", "--do", "press PB1", "--do", "L1 lit"])
    told = capsys.readouterr()
    assert told.out == ""
    assert told.err.startswith("--do:2:1: L1 is nothing that can be worked\n    2 | L1 lit\n")


def test_a_trace_is_written_in_every_format_at_once(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Text on the screen, the drawing and the JSON in files."""
    formats = ["--format", "text", "--format", "svg=a.svg", "--format", "json=a.json"]
    assert main(["trace", "right.plan", "--do", "press PB1", *formats]) == 0
    assert "L1 lit" in capsys.readouterr().out
    assert (folder / "a.svg").read_text(encoding="utf-8").startswith("<?xml")
    assert json.loads((folder / "a.json").read_text(encoding="utf-8"))["actions"] == ["press PB1"]


def test_the_version_is_told(capsys: pytest.CaptureFixture[str]) -> None:
    """That of the package."""
    assert ends(["--version"]) == 0
    assert capsys.readouterr().out == f"circuitcheck {__version__}\n"


def test_findings_go_to_stdout_and_slips_of_the_pen_to_stderr(capsys: pytest.CaptureFixture[str]) -> None:
    """So `check > report.txt` shows at once what keeps a plan from being read."""
    main(["check", "error.plan", "slip.plan"])
    told = capsys.readouterr()
    assert "supply-short" in told.out
    assert "slip.plan" not in told.out.replace("2 plans", "")
    assert told.err.startswith("slip.plan:2:11: ")


def test_a_folder_stands_for_the_plans_within_it_in_order(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Hidden folders are left out, a plan that is named twice is examined once."""
    for name in ("box/b.plan", "box/a.plan", "box/deep/c.plan", "box/.old/d.plan"):
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_text(RIGHT, encoding="utf-8")
    (folder / "box/readme.txt").write_text("no plan", encoding="utf-8")
    assert main(["check", "--format", "json", "box/b.plan", "box"]) == 0
    files = [plan["file"].replace(os.sep, "/") for plan in json.loads(capsys.readouterr().out)["plans"]]
    assert files == ["box/b.plan", "box/a.plan", "box/deep/c.plan"]


def test_a_folder_without_plans_is_told(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Nothing examined is not the same as nothing found."""
    (folder / "empty").mkdir()
    assert main(["check", "empty"]) == 2
    assert "There is no plan in that folder" in capsys.readouterr().err


def test_plans_of_a_named_folder_may_use_what_lies_in_it(folder: Path) -> None:
    """By itself, such a plan needs --library to reach a file outside its own folder."""
    (folder / "show/parts").mkdir(parents=True)
    (folder / "show/props").mkdir()
    (folder / "show/parts/lamps.plan").write_text("type spot lamp 12 V 2 W\n", encoding="utf-8")
    plan = 'use "../parts/lamps.plan"\n' + RIGHT.replace("lamp L1 12 V 2 W", "lamp L1 as spot")
    (folder / "show/props/lantern.plan").write_text(plan, encoding="utf-8")
    assert main(["check", "show"]) == 0
    assert main(["check", "show/props/lantern.plan"]) == 2
    assert main(["check", "--library", "show/parts", "show/props/lantern.plan"]) == 0


def piped(text: bytes, *arguments: str) -> subprocess.CompletedProcess[bytes]:
    """The command as a process, with this text piped in."""
    environment = os.environ | {"PYTHONPATH": str(PACKAGE)}
    return subprocess.run(
        [sys.executable, "-m", "circuitcheck", *arguments], input=text, capture_output=True, env=environment
    )


def test_a_plan_can_be_piped_in() -> None:
    """It is called standard input."""
    done = piped(ERROR.encode(), "check", "-")
    assert done.returncode == 1
    assert b"standard input:1:8" in done.stdout


@pytest.mark.parametrize(
    "text", [b"", b"\x00\x01\x02", b"\xff\xfe\x00a", "prix : 5 €".encode("iso8859-15"), b"(" * 10_000]
)
def test_whatever_is_piped_in_ends_in_a_message(text: bytes) -> None:
    """No traceback, no hang, exit status 2."""
    done = piped(text, "check", "-")
    assert done.returncode == 2
    assert b"standard input:" in done.stderr
    assert b"Traceback" not in done.stderr


def test_a_reader_that_stops_reading_is_no_error() -> None:
    """`circuitcheck check … | head -1` says nothing about pipes, and keeps its exit status."""
    environment = os.environ | {"PYTHONPATH": str(PACKAGE)}
    read_end, write_end = os.pipe()
    os.close(read_end)
    command = [sys.executable, "-m", "circuitcheck", "check", "error.plan"]
    done = subprocess.run(command, stdout=write_end, stderr=subprocess.PIPE, env=environment)
    os.close(write_end)
    assert (done.returncode, done.stderr) == (1, b"")


def test_several_reports_can_be_had_in_one_run(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Text on the screen, JSON in a file."""
    assert main(["check", "--format", "text", "--format", "json=findings.json", "error.plan"]) == 1
    assert "supply-short" in capsys.readouterr().out
    assert json.loads((folder / "findings.json").read_text(encoding="utf-8"))["schema"] == "circuitcheck/1"


def test_a_report_into_a_file_has_no_colour(folder: Path) -> None:
    """Whatever the screen takes."""
    main(["check", "--color", "always", "--format", "text=report.txt", "error.plan"])
    assert "\x1b" not in (folder / "report.txt").read_text(encoding="utf-8")


def test_a_report_that_cannot_be_written_is_told(capsys: pytest.CaptureFixture[str]) -> None:
    """With its file's name and the reason."""
    assert main(["check", "--format", "json=no/such/folder.json", "right.plan"]) == 2
    assert capsys.readouterr().err.startswith("circuitcheck: no/such/folder.json can't be written: no such file")


def test_programs_get_the_caution_beside_their_report(capsys: pytest.CaptureFixture[str]) -> None:
    """JSON and CSV have no room for it, so it stands on stderr."""
    for arguments in (["check", "--format", "json", "right.plan"], ["table", "--format", "csv", "right.plan"]):
        main(arguments)
        told = capsys.readouterr()
        assert "does not replace local electrical codes" in told.err
        assert "electrical codes" not in told.out


def test_what_nobody_foresaw_is_one_line(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    """No traceback, exit status 2."""

    def stumble(_options: object) -> int:
        raise KeyError("M1\nM2")

    monkeypatch.setattr(explain, "COMMAND", explain.COMMAND._replace(run=stumble))
    assert main(["explain"]) == 2
    (line,) = capsys.readouterr().err.splitlines()
    assert line.startswith("circuitcheck: stumbled over KeyError")
    assert "report" in line


def test_colour_is_as_asked(capsys: pytest.CaptureFixture[str]) -> None:
    """Always, also into a pipe; never; and by itself only on a terminal."""
    for color, coloured in (("always", True), ("never", False), ("auto", False)):
        main(["check", "--color", color, "error.plan"])
        assert ("\x1b[" in capsys.readouterr().out) is coloured


@pytest.mark.parametrize(
    ("environment", "stream", "coloured"),
    [
        ({}, Screen(), True),
        ({}, io.StringIO(), False),
        ({"NO_COLOR": "1"}, Screen(), False),
        ({"NO_COLOR": ""}, Screen(), True),
        ({"FORCE_COLOR": "1"}, io.StringIO(), True),
        ({"FORCE_COLOR": "0"}, Screen(), False),
        ({"NO_COLOR": "1", "FORCE_COLOR": "1"}, Screen(), False),
        ({"TERM": "dumb"}, Screen(), False),
    ],
)
def test_the_surroundings_decide_about_colour(
    environment: Mapping[str, str], stream: io.StringIO, coloured: bool
) -> None:
    """NO_COLOR first (no-color.org: set and not empty), then FORCE_COLOR, TERM, and whether it is a terminal."""
    assert takes_colour("auto", stream, environment) is coloured


def test_the_words_of_a_plan_are_no_markup(capsys: pytest.CaptureFixture[str]) -> None:
    """In colour too, what stands in a plan is shown as it stands there."""
    Path("odd.plan").write_text(ERROR.replace("\nfuse", " # [red]x[/red] :warning:\nfuse", 1), encoding="utf-8")
    main(["check", "--color", "always", "odd.plan"])
    assert "[red]x[/red] :warning:" in capsys.readouterr().out


def test_the_width_is_what_somebody_set_or_the_screen_has(monkeypatch: pytest.MonkeyPatch) -> None:
    """COLUMNS goes first; a pipe has no width; less than 40 columns are taken for 40."""
    assert screen_width(io.StringIO()) is None
    for columns, width in (("120", 120), ("7", 40), ("0", None), ("wide", None)):
        monkeypatch.setenv("COLUMNS", columns)
        assert screen_width(io.StringIO()) == width


def test_explain_without_a_name_lists_every_check(capsys: pytest.CaptureFixture[str]) -> None:
    """Each with a first sentence; an unknown name gives the nearest."""
    main(["explain"])
    listed = capsys.readouterr().out
    assert "supply-short " in listed
    assert "unbraked-stop " in listed
    main(["explain", "supply-shirt"])
    assert capsys.readouterr().err == "circuitcheck: no check supply-shirt. Nearest: supply-short.\n"
