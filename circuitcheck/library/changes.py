"""Which plans a change touches: since a revision of the git repository, through what they use and their settings."""

import os
from collections.abc import Sequence
from typing import NamedTuple

from circuitcheck.library.asking import STANDARD_INPUT, Asked
from circuitcheck.library.inputs import InputsReader
from circuitcheck.settings.finding import OWN_FILE, SHARED_FILE


class Untold(Exception):
    """What changed can't be found out. The message says why."""


class Changes(NamedTuple):
    """files: changed, new or gone, as whole paths. settings: the folders of those of them that hold settings."""

    files: frozenset[str]
    settings: tuple[str, ...]

    def touch(self, asked: Asked, reader: InputsReader) -> bool:
        """May the change make a difference to this plan? Where that can't be seen, it may."""
        path = os.path.abspath(asked.file)
        if asked.file == STANDARD_INPUT or path in self.files:
            return True
        if any(path.startswith(os.path.join(folder, "")) for folder in self.settings):
            return True
        files = reader.files_of(asked)
        return files is None or any(file.path in self.files or _named(file.called) in self.files for file in files)


def changes_since(revision: str) -> Changes:
    """What is different from `revision` in the repository of the current folder. Raises Untold."""
    top = _git("rev-parse", "--show-toplevel")
    if top is None:
        raise Untold("there is no git repository here, or no git")
    if _git("rev-parse", "--verify", "--quiet", "--end-of-options", f"{revision}^{{commit}}") is None:
        raise Untold(f"git knows no revision {revision} here")
    # Without renames, so that both the old and the new name are told.
    changed = _git("diff", "--name-only", "--no-renames", "-z", "--end-of-options", revision, "--")
    untracked = _git("ls-files", "--others", "--exclude-standard", "--full-name", "-z", ":/")
    if changed is None or untracked is None:
        raise Untold("git can't tell what has changed")
    folder = os.fsdecode(top.rstrip(b"\n"))
    names = [os.fsdecode(name) for name in (changed + untracked).split(b"\0") if name]
    # The same file may be named through a link, and git names it by where it lies.
    paths = {path for name in names for path in (_joined(folder, name), os.path.realpath(_joined(folder, name)))}
    settings = sorted(os.path.dirname(path) for path in paths if os.path.basename(path) in (OWN_FILE, SHARED_FILE))
    return Changes(frozenset(paths), tuple(settings))


def touched(asked: Sequence[Asked], changes: Changes) -> list[Asked]:
    """The plans that the change touches, in order."""
    reader = InputsReader("")
    return [one for one in asked if changes.touch(one, reader)]


def _joined(folder: str, name: str) -> str:
    return os.path.normpath(os.path.join(folder, name))


def _named(called: str) -> str:
    return os.path.abspath(called)


def _git(*arguments: str) -> bytes | None:
    import subprocess

    try:
        done = subprocess.run(["git", *arguments], stdin=subprocess.DEVNULL, capture_output=True, check=False)
    except (OSError, ValueError):
        return None
    return done.stdout if done.returncode == 0 else None
