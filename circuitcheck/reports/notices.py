"""What programs are told, one by one: findings, and what keeps plans from a verdict, in one shape.

Every format for machines is made of these, so that none of them has to know more than how to write one down.
"""

import os
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from circuitcheck.checks.check import SEVERITIES, Finding
from circuitcheck.checks.fingerprints import fingerprints
from circuitcheck.library.verdict import Outcome, Unexamined
from circuitcheck.plan.source import Place, Problem, Source
from circuitcheck.plan.text import whole_file
from circuitcheck.reports.problems import printable

NO_VERDICT = "no-verdict"
"""Stands for a check's name where a plan can't be read, or has no exact answer within reach."""

MOST_WORDS = 60
"""How many signs of a plan's line name a place; a promise can be as long as it likes."""


class Notice(NamedTuple):
    """finding: a problem's is made up, its check NO_VERDICT and its remedy what helps. plan: the plan's own name.
    place: the first, or the file's start where there is none. also: the others, each with words for it.
    fingerprint: no two of a run are the same."""

    finding: Finding
    plan: str
    place: Place
    also: tuple[tuple[Place, str], ...]
    fingerprint: str = ""


def notices(outcomes: Sequence[Outcome]) -> list[Notice]:
    """All of a run, plan by plan, each plan's worst first."""
    told = [notice for outcome in outcomes for notice in _of_plan(outcome)]
    marks = fingerprints((notice.plan, notice.finding) for notice in told)
    return [notice._replace(fingerprint=mark) for notice, mark in zip(told, marks, strict=True)]


def counting(outcomes: Sequence[Outcome]) -> list[Notice]:
    """Those of them that somebody has to do something about: no plan accepts them, and no baseline knows them."""
    return [notice for notice in notices(outcomes) if notice.finding.counts]


def worst_first(told: Sequence[Notice]) -> list[Notice]:
    """The same by severity, and in the order that they had within each."""
    return sorted(told, key=lambda notice: SEVERITIES.index(notice.finding.severity))


def as_sentence(what: str) -> str:
    """With one full stop at its end, on one line."""
    return f"{printable(what).rstrip('.')}."


def in_repository(file: str) -> str:
    """The path from the top of the git repository that the file lies in, with / between folders.

    Where there is no repository, from the current folder; where the file lies outside that, from the root.
    """
    path = os.path.abspath(file)
    top = next((folder for folder in _folders_above(path) if os.path.exists(os.path.join(folder, ".git"))), os.getcwd())
    inside = path.startswith(os.path.join(top, ""))
    return (os.path.relpath(path, top) if inside else path).replace(os.sep, "/")


def _of_plan(outcome: Outcome) -> Iterator[Notice]:
    if isinstance(outcome, Unexamined):
        for problem in outcome.error.problems:
            yield Notice(_as_finding(problem), "", problem.place, problem.also)
        return
    for finding in outcome.findings:
        first, *others = finding.where or (whole_file(outcome.file),)
        also = tuple((place, _words_at(place, outcome.sources)) for place in others)
        yield Notice(finding, outcome.name, first, also)


def _as_finding(problem: Problem) -> Finding:
    """What was found stands for the parts as well, so that its fingerprint is its own."""
    what, where = problem.what, (problem.place,)
    return Finding(NO_VERDICT, "error", "operation", what, (what,), where, {}, (), (), 0, 0, "", problem.help)


def _words_at(place: Place, sources: tuple[Source, ...]) -> str:
    """The plan's own words at a place, as far as they stand in one line."""
    lines = next((source.lines for source in sources if source.file == place.file), ())
    if not 1 <= place.line <= len(lines):
        return "also here"
    end = place.end_column - 1 if place.end_line == place.line else None
    words = printable(lines[place.line - 1][place.column - 1 : end]).strip()
    return (words if len(words) <= MOST_WORDS else f"{words[: MOST_WORDS - 1]}…") or "also here"


def _folders_above(path: str) -> Iterator[str]:
    folder = os.path.dirname(path)
    while True:
        yield folder
        if os.path.dirname(folder) == folder:
            return
        folder = os.path.dirname(folder)
