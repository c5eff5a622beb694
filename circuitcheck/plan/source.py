"""Places in a plan's text, and what is wrong there.

A `Problem` holds facts and one field of words; `reports/problems.py` lays it out. A plan with problems never reaches
the circuit: a malformed plan and a bad circuit are different things.
"""

from typing import NamedTuple


class Place(NamedTuple):
    """A stretch of one file: lines and columns count from 1 in code points, the end column is exclusive."""

    file: str
    line: int
    column: int
    end_line: int
    end_column: int


class Source(NamedTuple):
    """A file as read: `file` as the user named it, `lines` without their line ends."""

    file: str
    lines: tuple[str, ...]


class Problem(NamedTuple):
    """Something that keeps a plan from being understood.

    what: what was found, in the plan's own words, with no full stop ("no terminal K1.15").
    help: what was expected or what to do, as full sentences.
    also: other places that belong to it, each with its own sentence ("K1 is first described here.").
    """

    place: Place
    what: str
    help: str
    also: tuple[tuple[Place, str], ...] = ()


class PlanError(Exception):
    """A plan that could not be understood, with every problem found in it, in order of place."""

    def __init__(self, problems: tuple[Problem, ...], sources: tuple[Source, ...]) -> None:
        super().__init__(problems, sources)
        self.problems = problems
        self.sources = sources

    def __str__(self) -> str:
        return f"{len(self.problems)} problems"
