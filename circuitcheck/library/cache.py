"""Verdicts that are kept, so that a plan that nothing has changed for isn't examined again.

Each is a file of its own in the user's own cache folder, named for all that the verdict hangs on, and put in place as
a whole. It begins with a checksum of the rest: what was cut off, mixed up or written by something else is no verdict.
What can't be read or written is as if it weren't there.
"""

import json
import os
import sys
from collections.abc import Iterator
from hashlib import sha256
from pathlib import Path

from circuitcheck import __version__
from circuitcheck.library.inputs import Inputs
from circuitcheck.library.verdict import Verdict
from circuitcheck.library.verdict_json import verdict_json, verdict_of_json
from circuitcheck.plan.grammar import grammar_file

MOST_KEPT = 20_000
_PACKAGE = os.path.dirname(os.path.dirname(__file__))
_NO_PART_IN_IT = frozenset({"reports", "commands", "__pycache__"})
"""Folders of the package that have no part in a verdict."""


def tool_itself() -> str:
    """Stands for the tool and the Python it runs on: differs as soon as a file that has part in verdicts does.

    The version alone would do for who installs releases, and give who works on the tool yesterday's verdicts.
    """
    digest = sha256(f"{__version__} {sys.version}".encode())
    for file in (*_files_of(_PACKAGE), os.fspath(grammar_file())):
        with open(file, "rb") as opened:
            content = opened.read()
        digest.update(f"\n{os.path.relpath(file, _PACKAGE)} {len(content)}\n".encode())
        digest.update(content)
    return digest.hexdigest()


class Cache:
    """Verdicts in `folder`, which need not exist."""

    def __init__(self, folder: Path) -> None:
        self._folder = os.path.join(folder, "verdicts")
        self._writable = True
        self._written = False

    def kept(self, inputs: Inputs) -> Verdict | None:
        """The verdict on these, if it is there and whole."""
        try:
            with open(os.path.join(self._folder, inputs.key), "rb", buffering=0) as opened:
                checksum, _, content = opened.read().partition(b"\n")
        except OSError:
            return None
        if checksum != _checksum(inputs.key, content):
            return None
        found = json.loads(content)
        sources = inputs.sources if found["verdict"]["findings"] else ()
        return verdict_of_json(found["verdict"], sources, found["proves"])

    def keep(self, inputs: Inputs, verdict: Verdict) -> None:
        """Keeps the verdict, if the folder can be written to."""
        if not self._writable:
            return
        found = {"verdict": verdict_json(verdict), "proves": {check.name: check.proves for check in verdict.checks}}
        content = json.dumps(found, separators=(",", ":")).encode("ascii")
        target = os.path.join(self._folder, inputs.key)
        beside = f"{target}.{os.getpid()}"
        try:
            os.makedirs(self._folder, mode=0o700, exist_ok=True)
            with open(beside, "xb") as opened:
                opened.write(_checksum(inputs.key, content) + b"\n" + content)
            os.replace(beside, target)
            self._written = True
        except OSError:
            self._writable = False

    def tidy(self) -> None:
        """Takes the oldest away where more than MOST_KEPT have come together. Age decides about nothing else."""
        if not self._written:
            return
        try:
            with os.scandir(self._folder) as entries:
                files = sorted((entry.stat().st_mtime_ns, entry.path) for entry in entries)
            for _, path in files[: len(files) - MOST_KEPT * 3 // 4] if len(files) > MOST_KEPT else ():
                os.unlink(path)
        except OSError:
            return


def _checksum(key: str, content: bytes) -> bytes:
    return sha256(key.encode("ascii") + content).hexdigest().encode("ascii")


def _files_of(package: str) -> Iterator[str]:
    for here, folders, files in os.walk(package):
        folders[:] = sorted(folder for folder in folders if folder not in _NO_PART_IN_IT)
        yield from (os.path.join(here, file) for file in sorted(files) if file.endswith(".py"))
