"""Outcomes with made-up findings, as hostile as a plan or a file's name can be."""

from functools import cache
from pathlib import Path

from circuitcheck.checks.check import Finding
from circuitcheck.examination import examine
from circuitcheck.library.asking import plans_asked
from circuitcheck.library.verdict import Outcome, Unexamined, Verdict, verdict_of
from circuitcheck.library.workers import examine_one
from circuitcheck.plan.source import Place, PlanError, Problem
from tests.reports.goldens import RIGHT

HOSTILE = (
    "M1 hums\n::error file=a::owned",
    "50 % of %0A",
    "a: b, c",
    "\x1b[2J\x00\x0b",
    "]]> <b>& \ufffe",
    "\udcff",
    "| # *bold* `code` [link](x) @all",
    "##[error]owned",
    "  ::set-output name=a::b",
    "\r\n::warning::owned",
    "\u2028::error::owned\x85",
)
"""Texts that a terminal, a CI service, XML or Markdown would act upon, each in a place where a plan's words stand."""


def finding(
    what: str, severity: str = "error", file: str = "right.plan", check: str = "supply-short", part: str = "M1"
) -> Finding:
    """One that says these words wherever it says anything."""
    where = (Place(file, 2, 3, 2, 5), Place(file, 3, 1, 4, 2))
    return Finding(check, severity, "operation", what, (part,), where, {}, (), (what,), 1, 2, what, what)


def outcomes(name: str, *roots: Path) -> list[Outcome]:
    """A plan, or those of a folder, examined."""
    return [examine_one(one) for one in plans_asked([name], roots, "")]


@cache
def outcomes_of_wrong_examples() -> tuple[Outcome, ...]:
    """Those of examples/, which has to be the folder that we are in."""
    return tuple(outcomes("wrong", Path("parts")))


@cache
def _verdict_of_right() -> Verdict:
    return verdict_of(examine(Path("right.plan")))


def outcome(*findings: Finding, file: str = "") -> Verdict:
    """The verdict of the right plan, with these findings in place of none."""
    Path("right.plan").write_text(RIGHT, encoding="utf-8")
    whole = _verdict_of_right()
    return whole._replace(file=file or whole.file, findings=findings, seconds=1.5)


def unreadable(what: str, file: str = "slip.plan") -> Unexamined:
    """A plan that could not be understood, in these words."""
    place = Place(file, 1, 2, 1, 4)
    return Unexamined(file, PlanError((Problem(place, what, what, ((place, what),)),), ()))
