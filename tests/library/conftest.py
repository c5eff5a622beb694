"""Every test of libraries is in a folder of its own."""

from pathlib import Path

import pytest


@pytest.fixture(autouse=True)
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The folder that we are in, empty, a repository of its own as far as settings go; reports have no colour."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / ".cache"))
    monkeypatch.setenv("LOCALAPPDATA", str(tmp_path / ".cache"))
    (tmp_path / ".git").mkdir()
    for name in ("COLUMNS", "NO_COLOR", "FORCE_COLOR", "TERM"):
        monkeypatch.delenv(name, raising=False)
    return tmp_path
