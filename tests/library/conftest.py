"""Every test of libraries is in a folder of its own."""

import shutil
from pathlib import Path

import pytest

from circuitcheck.plan.grammar import cache_folder, load_parser


@pytest.fixture(scope="session")
def tables() -> tuple[Path, ...]:
    """The files of the grammar's tables: working them out takes longer than most tests."""
    load_parser(None)
    return tuple(cache_folder().glob("grammar-*"))


@pytest.fixture(autouse=True)
def folder(tmp_path: Path, tables: tuple[Path, ...], monkeypatch: pytest.MonkeyPatch) -> Path:
    """The folder that we are in, empty, a repository of its own as far as settings go; reports have no colour."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / ".cache"))
    monkeypatch.setenv("LOCALAPPDATA", str(tmp_path / ".cache"))
    (tmp_path / ".cache" / "circuitcheck").mkdir(mode=0o700, parents=True)
    for file in tables:
        shutil.copy(file, tmp_path / ".cache" / "circuitcheck")
    (tmp_path / ".git").mkdir()
    for name in ("COLUMNS", "NO_COLOR", "FORCE_COLOR", "TERM"):
        monkeypatch.delenv(name, raising=False)
    return tmp_path
