"""What the language server and the process that examines plans say to each other.

A question and its answer are one frame each: their length in 8 bytes, then the pickled value. The process is the
server's own child, and nobody else speaks to it.
"""

import pickle
import struct
from typing import Final, NamedTuple

from circuitcheck.checks.check import Finding
from circuitcheck.plan.source import Problem

HEAD: Final = struct.Struct(">Q")


class Examine(NamedTuple):
    """Look through a plan. texts: of the files that the editor has open, by the file that their name means."""

    file: str
    texts: dict[str, str]
    roots: tuple[str, ...]


class Tell(NamedTuple):
    """What is known of a part, or of a terminal, in the plan as it was last looked through."""

    file: str
    name: str
    is_terminal: bool


class TellWire(NamedTuple):
    """What is known of the wire that a line of the file describes, in the plan as it was last looked through."""

    file: str
    line: int


class Remedies(NamedTuple):
    """What puts right the findings that stand on these lines of the file.

    lines: the file as the editor has it. Nothing is offered for a text that was typed on since it was looked through:
    it would be undone.
    """

    file: str
    lines: tuple[str, ...]
    first: int
    last: int


Question = Examine | Tell | TellWire | Remedies


class Examined(NamedTuple):
    """problems: where it has no verdict, why; then there are no findings."""

    findings: tuple[Finding, ...]
    problems: tuple[Problem, ...]


class Fix(NamedTuple):
    """A remedy that was tried. text: the whole file with it made; changes: what of the behaviour it changes, or ""."""

    title: str
    finding: Finding
    text: str
    changes: str


class Elsewhere(NamedTuple):
    """A finding of a kind that has remedies, whose part is described in another `file`: other plans may use that, so
    nothing of it is changed from here."""

    finding: Finding
    file: str


Answer = Examined | tuple[str, ...] | tuple[Fix | Elsewhere, ...]


def frame(value: Question | Answer) -> bytes:
    """The value as it is sent."""
    content = pickle.dumps(value)
    return HEAD.pack(len(content)) + content
