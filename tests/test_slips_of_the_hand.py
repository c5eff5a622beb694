"""Calls that would cost somebody's work are refused, and streams that aren't there bring nothing down."""

import errno
import io
import os
import sys
import tempfile
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest

from circuitcheck.cli import main
from circuitcheck.plan.source import Problem
from circuitcheck.plan.text import read_standard_input
from circuitcheck.remedies import repairing

PLAN = "supply PS 12 V 10 A\nfuse   F1 5 A\nlamp   L1 12 V 2 W\nrung   PS.+, F1, L1, PS.-\n"


@pytest.fixture(autouse=True)
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The folder that we are in, with a plan under two names."""
    monkeypatch.chdir(tmp_path)
    for name in ("lamp.plan", "lamp.txt"):
        Path(name).write_text(PLAN, encoding="utf-8")
    return tmp_path


@pytest.mark.parametrize(
    "call",
    [
        ["ladder", "lamp.txt", "--format", "text=lamp.txt"],
        ["ladder", "lamp.txt", "--format", "text=lamp.plan"],
        ["benchtest", "./lamp.plan", "--format", "json=lamp.plan"],
        ["check", "lamp.txt", "--format", "json=./lamp.txt"],
        ["compare", "lamp.txt", "lamp.plan", "--format", "json=lamp.txt"],
        ["check", "--certificate", "lamp.plan", "lamp.txt"],
        ["check", "--write-baseline", "lamp.txt", "lamp.txt"],
        ["page", "lamp.txt", "-o", "lamp.txt"],
        ["page", "lamp.plan", "-o", "./lamp.plan"],
    ],
)
def test_no_output_takes_the_place_of_a_plan(call: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    """Neither of the one that is read nor of another."""
    assert main(call) == 2
    assert "is a plan or a report, and would be lost; name another file" in capsys.readouterr().err
    assert {file.read_text(encoding="utf-8") for file in Path().iterdir()} == {PLAN}


def test_no_output_takes_the_place_of_a_report_that_is_read(capsys: pytest.CaptureFixture[str]) -> None:
    """`join` would lose what it joins."""
    Path("1.json").write_text("{}", encoding="utf-8")
    assert main(["join", "1.json", "--format", "json=1.json"]) == 2
    assert "1.json is a plan or a report, and would be lost" in capsys.readouterr().err


def test_two_names_of_one_file_are_one(capsys: pytest.CaptureFixture[str]) -> None:
    """The second format would overwrite the first."""
    assert main(["ladder", "lamp.plan", "--format", "text=a", "--format", "svg=./a"]) == 2
    assert "two formats for a; name a file for each" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("call", "said"),
    [
        (["page", "lamp.plan", "-o", ""], "the page goes into a file; name one like -o drawbridge.html"),
        (["page", "lamp.plan", "-o", "-"], "the page goes into a file; name one like -o drawbridge.html"),
        (["buildbook", "lamp.plan", "-o", ""], "the book's folder has no name; name one like -o drawbridge-book"),
        (["begin", ""], "the plan's file has no name; name one like drawbridge.plan"),
        (["tidy", ""], "a file without a name"),
    ],
)
def test_what_has_no_name_is_asked_for_one(call: list[str], said: str, capsys: pytest.CaptureFixture[str]) -> None:
    """An empty word comes of a variable that nobody has set: nothing is written anywhere for it."""
    assert main(call) == 2
    told = capsys.readouterr()
    assert (told.out, said in told.err) == ("", True)
    assert {file.name for file in Path().iterdir()} == {"lamp.plan", "lamp.txt"}


def test_a_list_that_belongs_to_no_book_is_left_alone(capsys: pytest.CaptureFixture[str]) -> None:
    """Whoever keeps wires.csv by hand finds it as it was; a book may be written over an earlier one."""
    Path("mine").mkdir()
    Path("mine/wires.csv").write_text("mine", encoding="utf-8")
    assert main(["buildbook", "lamp.plan", "-o", "mine"]) == 2
    assert "mine holds wires.csv, and no book that it belongs to; name another folder" in capsys.readouterr().err
    assert [file.read_text(encoding="utf-8") for file in Path("mine").iterdir()] == ["mine"]
    assert main(["buildbook", "lamp.plan", "-o", "book"]) == main(["buildbook", "lamp.plan", "-o", "book"]) == 0


@pytest.mark.parametrize("call", [["buildbook", "title.plan", "-o", "book"], ["drawing", "title.plan"]])
def test_a_plan_without_parts_is_drawn_as_such(call: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    """There is nothing to put on any sheet of paper, and that is what is said."""
    Path("title.plan").write_text("plan Jaw\n", encoding="utf-8")
    assert main(call) == 0
    said = Path("book/book.html").read_text(encoding="utf-8") if call[0] == "buildbook" else capsys.readouterr().out
    assert "This plan has no part that could be drawn." in said


@pytest.mark.parametrize(
    ("named", "said"),
    [
        ("-jaw.plan", "table ./-jaw.plan"),
        ("my jaw's.plan", "table 'my jaw'\"'\"'s.plan'"),
        ("jaw\n.plan", "table 'jaw\N{REPLACEMENT CHARACTER}.plan'"),
    ],
)
def test_what_begin_says_can_be_typed_in(named: str, said: str, capsys: pytest.CaptureFixture[str]) -> None:
    """Whatever the plan's file is called, on one line."""
    assert main(["begin", "--motors", "1", "--", named]) == 0
    assert capsys.readouterr().err.endswith(f"circuitcheck {said}\n")


@pytest.mark.parametrize("call", [["tidy", "-"], ["ladder", "-"], ["begin", "-"], ["diagnose", "lamp.plan", "--ask"]])
def test_a_closed_input_is_an_empty_one(
    call: list[str], monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """As a service or a timer starts programs; nobody can be asked there either."""
    monkeypatch.setattr(sys, "stdin", None)
    assert main(call) == (0 if call[0] == "begin" else 2)
    assert "stumbled" not in capsys.readouterr().err


@pytest.mark.parametrize("call", [["ladder", "lamp.plan"], ["explain"], ["tidy", "--check", "lamp.plan"]])
def test_a_closed_output_takes_nothing(call: list[str], monkeypatch: pytest.MonkeyPatch) -> None:
    """The exit status is what it would be."""
    monkeypatch.setattr(sys, "stdout", None)
    monkeypatch.setattr(sys, "stderr", None)
    assert main(call) == 0


def test_a_pipe_without_end_is_too_much(monkeypatch: pytest.MonkeyPatch) -> None:
    """Nobody waits for the rest of it."""

    class Endless(io.BytesIO):
        def read(self, size: int | None = -1, /) -> bytes:
            assert size is not None
            assert size > 0
            return b"y" * size

    monkeypatch.setattr(sys, "stdin", SimpleNamespace(buffer=Endless()))
    found = read_standard_input()
    assert isinstance(found, Problem)
    assert found.what == "standard input is over 2 MB"


def test_bytes_that_are_no_text_are_no_answer(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """What a keyboard of another encoding sends is asked for again."""

    class Screen(io.TextIOWrapper):
        def isatty(self) -> bool:
            return True

    monkeypatch.setattr(sys, "stdin", Screen(io.BytesIO(b"J\xe4w\nJaw\n\n\n\n\n\n"), encoding="utf-8"))
    assert main(["begin", "-"]) == 0
    told = capsys.readouterr()
    assert "is no answer to that." in told.err
    assert told.out.startswith("# Jaw: begun")


def test_names_that_a_screen_would_act_upon_are_told_on_one_line(capsys: pytest.CaptureFixture[str]) -> None:
    """Also where a plan is laid out."""
    Path("a\n\x1b[2J.plan").write_text("fuse  F1 5A\n", encoding="utf-8")
    assert main(["tidy", "--check", "a\n\x1b[2J.plan"]) == 1
    assert capsys.readouterr().out == "a\N{REPLACEMENT CHARACTER}\N{REPLACEMENT CHARACTER}[2J.plan: would change\n"


@pytest.mark.skipif(not hasattr(os, "geteuid") or os.geteuid() == 0, reason="root may write whatever is locked")
def test_a_plan_that_is_locked_is_not_replaced(capsys: pytest.CaptureFixture[str]) -> None:
    """Though its folder may be changed."""
    Path("lamp.plan").write_text("fuse  F1 5A\n", encoding="utf-8")
    Path("lamp.plan").chmod(0o444)
    assert main(["tidy", "lamp.plan"]) == 2
    assert "lamp.plan can't be written: permission denied" in capsys.readouterr().err
    assert Path("lamp.plan").read_text(encoding="utf-8") == "fuse  F1 5A\n"


def test_what_cannot_be_written_keeps_no_other_plan_from_its_layout(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """It is told by its own name, whatever file was to be put beside it."""

    def locked(dir: Path, prefix: str) -> tuple[int, str]:
        if "a.plan" in prefix:
            raise PermissionError(errno.EACCES, "Permission denied", f"{dir}/{prefix}x")
        return real(dir=dir, prefix=prefix)

    real = tempfile.mkstemp
    monkeypatch.setattr(tempfile, "mkstemp", locked)
    for name in ("a.plan", "b.plan"):
        Path(name).write_text("fuse  F1 5A\n", encoding="utf-8")
    assert main(["tidy", "a.plan", "b.plan"]) == 2
    told = capsys.readouterr()
    assert told.out == "b.plan: laid out anew\n"
    assert told.err == "circuitcheck: a.plan can't be written: nothing can be put beside it (permission denied)\n"


@pytest.mark.parametrize("meanwhile", ["lamp   L9 12 V 2 W\n", None])
def test_a_plan_that_somebody_saves_meanwhile_is_not_repaired(
    meanwhile: str | None, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """Their work stays, and a plan that is gone stays away."""
    plan = Path("latch.plan")
    plan.write_text("supply PS 12 V 10 A\nfuse F1 3 A\nsolenoid Y1 12 V 12 ohm\nrung PS.+, F1, Y1, PS.-\n")

    def saved(*asked: Any) -> tuple[repairing.Offer, ...]:
        plan.unlink()
        if meanwhile is not None:
            plan.write_text(meanwhile)
        return real(*asked)

    real = repairing.repaired
    monkeypatch.setattr(repairing, "repaired", saved)
    assert main(["repair", "--write", "latch.plan"]) == 2
    assert "latch.plan has changed while it was looked through; call again" in capsys.readouterr().err
    assert (plan.read_text() if plan.exists() else None) == meanwhile


@pytest.mark.parametrize("library", ["", "prats", "lamp.plan"])
def test_a_folder_of_shared_parts_has_to_be_there(library: str, capsys: pytest.CaptureFixture[str]) -> None:
    """A name that is mistyped would else be told of a plan's first file that is not found."""
    with pytest.raises(SystemExit) as left:
        main(["check", "--library", library, "lamp.plan"])
    assert left.value.code == 2
    assert f'there is no folder "{library}"' in capsys.readouterr().err
