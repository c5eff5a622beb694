"""Findings for editors and for grep, one line each: file:line:column: severity: check: text."""

from collections.abc import Sequence

from circuitcheck.library.verdict import Outcome
from circuitcheck.reports.notices import Notice, as_sentence, counting
from circuitcheck.reports.problems import where


def findings_lines(outcomes: Sequence[Outcome]) -> str:
    """A line for each finding, and for each problem of a plan without a verdict; files as the user named them."""
    return "".join(f"{_line(notice)}\n" for notice in counting(outcomes))


def _line(notice: Notice) -> str:
    finding = notice.finding
    return f"{where(notice.place)}: {finding.severity}: {finding.check}: {as_sentence(finding.what)}"
