"""Files that are no plans: each is refused with a place and a reason."""

import os
from pathlib import Path

import pytest

from circuitcheck.plan.source import Problem
from tests.plan.told import problems_in, problems_of


def told(path: Path, content: bytes) -> Problem:
    path.write_bytes(content)
    (problem,) = problems_in(path)
    return problem


@pytest.mark.parametrize(
    ("content", "line", "column", "what"),
    [
        (b"", 1, 1, "jaw.plan is empty"),
        (b"\xef\xbb\xbf \r\n\t", 1, 1, "jaw.plan is empty"),
        (b"# later\n", 1, 1, "jaw.plan holds only comments"),
        (b"fuse F1 5 A\nlamp \0", 2, 6, "jaw.plan is no text"),
        (b"\x89PNG\r\n\x1a\n\0\0", 1, 1, "jaw.plan is no text"),
        (b"PK\x03\x04\0\0\xff", 1, 1, "jaw.plan is no text"),
        ('fuse F1 5 A\nlamp L1 "grün"'.encode("latin-1"), 2, 12, "the byte FC is not UTF-8"),
        ('ä\rlamp L1 "'.encode() + b"\xe4", 2, 10, "the byte E4 is not UTF-8"),
        ("fuse F1 5 A".encode("utf-16"), 1, 1, "jaw.plan is saved as UTF-16"),
        (b"#" * 2_000_001, 1, 1, "jaw.plan is over 2 MB"),
        (b"(" * 10_000_000, 1, 1, "jaw.plan is over 2 MB"),
    ],
)
def test_what_is_no_text_is_refused_at_the_byte(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, content: bytes, line: int, column: int, what: str
) -> None:
    """The place is the byte's own line and column where one byte is to blame."""
    monkeypatch.chdir(tmp_path)
    problem = told(Path("jaw.plan"), content)
    assert (problem.place.line, problem.place.column, problem.what) == (line, column, what)


def test_a_file_that_is_not_there_has_a_near_one(tmp_path: Path) -> None:
    """The nearest plan of the same folder is offered."""
    (tmp_path / "drawbridge.plan").write_text("plan Drawbridge")
    (problem,) = problems_in(tmp_path / "drawbrige.plan")
    assert problem.what.startswith("no file ")
    assert problem.help == "Nearest in that folder: drawbridge.plan."


def test_a_folder_or_a_missing_folder_is_no_plan(tmp_path: Path) -> None:
    """Both are told, neither is read."""
    assert problems_in(tmp_path)[0].what.endswith("is a folder")
    assert problems_in(tmp_path / "props" / "jaw.plan")[0].help == "There is no folder props."


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="no named pipes on this system")
def test_a_named_pipe_is_refused_without_waiting_for_it(tmp_path: Path) -> None:
    """Opening one would wait for a writer for ever."""
    os.mkfifo(tmp_path / "jaw.plan")
    assert problems_in(tmp_path / "jaw.plan")[0].what.endswith("is not a file")


@pytest.mark.skipif(not hasattr(os, "geteuid") or os.geteuid() == 0, reason="the superuser may read anything")
def test_a_file_that_may_not_be_read_is_told(tmp_path: Path) -> None:
    """The reason is the system's own."""
    path = tmp_path / "jaw.plan"
    path.write_text("plan Jaw")
    path.chmod(0)
    assert "can't be read: permission denied" in problems_in(path)[0].what


@pytest.mark.parametrize("name", ["jaw\0.plan", "j" * 5_000])
def test_a_name_that_no_file_can_have_is_told(name: str) -> None:
    """A zero byte and a very long name are refused by the system in ways of their own."""
    assert len(problems_in(Path(name))) == 1


def test_a_file_without_reading_permission_or_with_a_reading_error_is_a_problem(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Whatever the system says on opening is told, whoever runs this test."""
    path = tmp_path / "jaw.plan"
    path.write_text("plan Jaw")

    def refuse(*_: object) -> None:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Path, "open", refuse)
    assert problems_in(path)[0].what == f"{path} can't be read: permission denied"


def test_a_text_is_refused_as_a_file_would_be() -> None:
    """Editors hand over text that was never in a file."""
    assert problems_of("")[0].what == "drawbridge.plan is empty"
    assert problems_of("fuse \0")[0].what == "drawbridge.plan is no text"
