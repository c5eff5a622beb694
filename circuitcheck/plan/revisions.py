"""Plans as they stood in a revision of their git repository: `HEAD~1:plans/drawbridge.plan`.

git is asked, and only ever to read. What a plan uses is taken from the same revision.
"""

import os
import posixpath
import re
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import NamedTuple

from circuitcheck.plan.nearest import nearest
from circuitcheck.plan.reading import MOST_FILES, read_plan
from circuitcheck.plan.source import PlanError, Problem
from circuitcheck.plan.syntax import Plan
from circuitcheck.plan.text import whole_file

_USE = re.compile(rb'^[ \t]*use[ \t]+"([^"\r\n]+)"', re.MULTILINE)


class InRevision(NamedTuple):
    """`path` as git has it: from the top of the repository, or beginning with ./ from the current folder."""

    revision: str
    path: str

    @property
    def text(self) -> str:
        """As written."""
        return f"{self.revision}:{self.path}"


def in_revision(text: str) -> InRevision | None:
    """What REVISION:PATH means; None for a file. A file that is there is a file, and so is a path on a drive, C:\\…"""
    revision, colon, path = text.partition(":")
    if not colon or not path or len(revision) < 2 or revision.startswith("-") or os.path.exists(text):
        return None
    return InRevision(revision, path)


def read_revision(meant: InRevision, roots: tuple[Path, ...] = ()) -> Plan:
    """The plan as it stood. roots: folders of shared parts; one that lies in the repository is taken from the revision.

    Raises PlanError with every problem, also where there is no git, no repository, no such revision or file.
    """
    top = _top(meant)
    path = _from_top(meant)
    with _taken_out(meant, path) as folder:
        own = tuple(
            folder / root.resolve().relative_to(top) if root.resolve().is_relative_to(top) else root for root in roots
        )
        return read_plan(folder / path, own, meant.text)


def _top(meant: InRevision) -> Path:
    """The repository's uppermost folder, once it is sure that the revision is in it."""
    found = _git(meant, "rev-parse", "--show-toplevel")
    if found is None:
        help = (
            "REVISION:PATH asks git, which finds no repository, or may not read it: go to the plan's, or name a file."
        )
        raise _refused(meant, "no git repository here", help)
    if _git(meant, "rev-parse", "--verify", "--quiet", "--end-of-options", f"{meant.revision}^{{commit}}") is None:
        help = "`git log --oneline` lists the revisions; HEAD is the last one, HEAD~1 the one before."
        raise _refused(meant, f"no revision {meant.revision} in this repository", help)
    return Path(os.fsdecode(found.strip())).resolve()


def _from_top(meant: InRevision) -> str:
    """The path from the repository's top."""
    path = meant.path.replace("\\", "/")
    here = os.fsdecode((_git(meant, "rev-parse", "--show-prefix") or b"").strip())
    whole = posixpath.normpath(posixpath.join(here, path) if path.startswith(("./", "../")) else path)
    if _blob(meant, whole) is not None:
        return whole
    if _blob(meant, posixpath.normpath(posixpath.join(here, path))) is not None:
        help = f"From the current folder it is {meant.revision}:./{path}"
    else:
        listed = _git(meant, "ls-tree", "-r", "-z", "--full-tree", "--name-only", meant.revision) or b""
        plans = [os.fsdecode(name) for name in listed.split(b"\0") if name.endswith(b".plan")]
        near = nearest(whole, plans) or [
            plan for plan in plans if posixpath.basename(plan) == posixpath.basename(whole)
        ]
        help = f"Nearest: {', '.join((near or plans)[:4])}." if plans else "There is no plan in it."
    raise _refused(meant, f"no file {whole} in the revision {meant.revision}", help)


@contextmanager
def _taken_out(meant: InRevision, path: str) -> Iterator[Path]:
    """A folder that holds the plan and what it uses, for as long as it is read."""
    from tempfile import TemporaryDirectory

    with TemporaryDirectory() as folder:
        waiting, taken = [path], {path}
        while waiting:
            name = waiting.pop()
            content = _blob(meant, name)
            if content is None:
                continue  # Reading the plan tells of it, at the line where it is used.
            target = Path(folder, name)
            target.parent.mkdir(parents=True, exist_ok=True)
            target.write_bytes(content)
            for used in _USE.findall(content):
                other = posixpath.normpath(posixpath.join(posixpath.dirname(name), used.decode("utf-8", "replace")))
                if other not in taken and not other.startswith(("..", "/")) and len(taken) <= MOST_FILES:
                    taken.add(other)
                    waiting.append(other)
        yield Path(folder).resolve()


def _blob(meant: InRevision, path: str) -> bytes | None:
    return _git(meant, "cat-file", "blob", f"{meant.revision}:{path}")


def _git(meant: InRevision, *arguments: str) -> bytes | None:
    """What git answers; None where it can't."""
    import subprocess

    try:
        done = subprocess.run(["git", *arguments], stdin=subprocess.DEVNULL, capture_output=True, check=False)
    except (OSError, ValueError):
        help = "Plans of a revision are read by git: install it, or name two files."
        raise _refused(meant, "git can't be started", help) from None
    return done.stdout if done.returncode == 0 else None


def _refused(meant: InRevision, what: str, help: str) -> PlanError:
    return PlanError((Problem(whole_file(meant.text), what, help),), ())
