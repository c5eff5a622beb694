"""Where the grammar is found and how its tables are kept."""

import shutil
from hashlib import sha256
from pathlib import Path

import pytest

from circuitcheck.plan.builder import Builder
from circuitcheck.plan.grammar import cache_folder, grammar_file, load_parser
from circuitcheck.plan.syntax import Part


def reads(folder: Path) -> bool:
    """Whether a parser that keeps its tables in `folder` reads a statement."""
    return isinstance(load_parser(Builder(), folder).parse("fuse F1 5 A"), Part)


def kept(folder: Path) -> tuple[Path, Path]:
    tables, checksum = sorted(folder.iterdir())
    return tables, checksum


def test_the_grammar_is_found_in_a_checkout_and_in_an_installed_package(tmp_path: Path) -> None:
    """A wheel has it inside the package, an editable install one folder up."""
    package = tmp_path / "circuitcheck"
    for folder in (tmp_path / "grammar", package / "grammar"):
        folder.mkdir(parents=True)
        shutil.copy(grammar_file(), folder)
        assert grammar_file(package) == folder / "plan.lark"


def test_the_wheel_is_told_to_take_the_grammar_along() -> None:
    """The build's own settings put it where `grammar_file` looks first."""
    project = grammar_file().parent.parent / "pyproject.toml"
    assert 'grammar = "circuitcheck/grammar"' in project.read_text()


def test_the_tables_are_kept_and_used_again(tmp_path: Path) -> None:
    """The second load leaves the kept file as it is."""
    folder = tmp_path / "new" / "cache"
    assert reads(folder)
    before = [path.stat().st_mtime_ns for path in kept(folder)]
    assert reads(folder)
    assert [path.stat().st_mtime_ns for path in kept(folder)] == before


@pytest.mark.parametrize("damage", ["cut", "emptied", "changed", "no checksum", "wrong checksum", "no tables"])
def test_a_damaged_cache_is_made_anew(tmp_path: Path, damage: str) -> None:
    """Whatever happened to the files, the parser works, and the files are whole again afterwards."""
    assert reads(tmp_path)
    tables, checksum = kept(tmp_path)
    whole = tables.read_bytes()
    if damage == "cut":
        tables.write_bytes(whole[: len(whole) // 2])
    elif damage == "emptied":
        tables.write_bytes(b"")
    elif damage == "changed":
        tables.write_bytes(whole.replace(b"supply", b"supplx"))
    elif damage == "no checksum":
        checksum.unlink()
    elif damage == "wrong checksum":
        checksum.write_bytes(b"\xff")
    else:
        tables.unlink()
    assert isinstance(load_parser(Builder(), tmp_path).parse("supply PS 12 V"), Part)
    tables, checksum = kept(tmp_path)
    assert sha256(tables.read_bytes()).hexdigest() == checksum.read_text("ascii")


def test_a_folder_that_cannot_be_used_costs_only_time(tmp_path: Path) -> None:
    """A file where the folder should be: the tables are worked out and not kept."""
    (tmp_path / "cache").write_text("")
    assert reads(tmp_path / "cache")
    assert reads(tmp_path / "cache" / "below")


def test_the_cache_lies_in_the_users_own_folder(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    """XDG Base Directory Specification: $XDG_CACHE_HOME if absolute, else ~/.cache; on Windows %LOCALAPPDATA%."""
    monkeypatch.setattr("sys.platform", "linux")
    monkeypatch.setenv("HOME", str(tmp_path))
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "xdg"))
    assert cache_folder() == tmp_path / "xdg" / "circuitcheck"
    monkeypatch.setenv("XDG_CACHE_HOME", "relative")
    assert cache_folder() == Path.home() / ".cache" / "circuitcheck"
    monkeypatch.setattr("sys.platform", "win32")
    monkeypatch.setenv("LOCALAPPDATA", str(tmp_path / "local"))
    assert cache_folder() == tmp_path / "local" / "circuitcheck"
