"""All that a plan's verdict hangs on: its bytes, those of the files it uses, and how these are come to.

Files are only read here, not understood: a line that looks like a `use` is taken for one, also where the parser will
say that it is none. What is taken in too many costs an examination, what is left out would cost a wrong verdict.
"""

import os
import re
from hashlib import sha256
from typing import NamedTuple

from circuitcheck.library.asking import STANDARD_INPUT, Asked
from circuitcheck.plan.source import Problem, Source
from circuitcheck.plan.text import MOST_BYTES, source_of_bytes

MOST_FILES = 200
_USE = re.compile(r'^\s*use\s+"([^"\n]+)"', re.MULTILINE)


class File(NamedTuple):
    """path: with symbolic links followed. called: as the user, or the file that uses it, names it. uses: as written."""

    path: str
    called: str
    content: bytes
    uses: tuple[str, ...]


class Inputs(NamedTuple):
    """files: the plan first. key: 64 hexadecimal digits that change with anything that the verdict hangs on."""

    files: tuple[File, ...]
    key: str

    @property
    def sources(self) -> tuple[Source, ...]:
        """The files' lines; without those that are no text."""
        found = (source_of_bytes(file.called, file.content) for file in self.files)
        return tuple(source for source in found if not isinstance(source, Problem))


class InputsReader:
    """Reads what plans hang on; a file that several of them use is read once. tool: stands for the tool itself."""

    def __init__(self, tool: str) -> None:
        self._tool = tool
        self._contents: dict[str, tuple[bytes, tuple[str, ...]] | None] = {}
        self._real: dict[str, str] = {}

    def inputs_of(self, asked: Asked) -> Inputs | None:
        """What this plan hangs on; None where something can't be read, or may not, so that there is nothing to keep."""
        files = self.files_of(asked)
        if files is None:
            return None
        numbers = {file.path: str(number) for number, file in enumerate(files)}
        allowed = [self._resolved(root) for root in (os.path.dirname(asked.file) or ".", *map(str, asked.roots))]
        words = [self._tool, asked.file, *asked.off, "", repr(asked.defaults)]
        for number, file in enumerate(files):
            folder = os.path.dirname(file.path if number else asked.file)
            targets = [self._resolved(os.path.join(folder, used)) for used in file.uses]
            if not all(any(_within(target, root) for root in allowed) for target in targets):
                return None
            words += [file.called, sha256(file.content).hexdigest(), *(numbers[target] for target in targets), ""]
        # No file's name holds a zero, so that no two lists of words make one text.
        return Inputs(files, sha256("\0".join(words).encode("utf-8", "surrogateescape")).hexdigest())

    def files_of(self, asked: Asked) -> tuple[File, ...] | None:
        """The plan and what it uses, in the order in which a reader meets them; None where one can't be read."""
        if asked.file == STANDARD_INPUT:
            return None
        found: dict[str, File] = {}
        waiting = [(asked.file, asked.file)]
        while waiting:
            path, called = waiting.pop()
            real = self._resolved(path)
            if real in found:
                continue
            read = self._read(real)
            if read is None or len(found) >= MOST_FILES:
                return None
            content, uses = read
            found[real] = File(real, called, content, uses)
            folder = os.path.dirname(real if len(found) > 1 else path)
            near = os.path.dirname(called)
            following = ((os.path.join(folder, used), os.path.normpath(os.path.join(near, used))) for used in uses)
            waiting.extend(reversed(tuple(following)))
        return tuple(found.values())

    def _resolved(self, path: str) -> str:
        real = self._real.get(path)
        if real is None:
            real = self._real[path] = os.path.realpath(path)
        return real

    def _read(self, path: str) -> tuple[bytes, tuple[str, ...]] | None:
        if path not in self._contents:
            self._contents[path] = _read(path)
        return self._contents[path]


def _read(path: str) -> tuple[bytes, tuple[str, ...]] | None:
    try:
        # What is no file may never end. Of a file as much is asked for as it holds: room for the most takes longer.
        size = os.path.isfile(path) and os.path.getsize(path)
        if not size or size > MOST_BYTES:
            return None
        with open(path, "rb", buffering=0) as opened:
            content = opened.read(size + 1)
    except (OSError, ValueError):
        return None
    if b"use" not in content:
        return content, ()
    # Any kind of line end counts as one, as for the reader.
    text = content.decode("utf-8", "replace").replace("\r", "\n")
    return content, tuple(dict.fromkeys(_USE.findall(text)))


def _within(path: str, folder: str) -> bool:
    return path == folder or path.startswith(os.path.join(folder, ""))
