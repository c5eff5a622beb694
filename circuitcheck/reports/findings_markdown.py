"""Findings for a pull request and for the summary of a CI job: a table, and each finding folded away under it."""

from collections.abc import Iterator, Sequence

from circuitcheck.checks.check import Finding
from circuitcheck.examination import Examination, Unexamined
from circuitcheck.reports.cautions import CAUTION
from circuitcheck.reports.findings_text import REACHED, compressed, counted, order_words
from circuitcheck.reports.notices import Notice, as_sentence, notices, worst_first
from circuitcheck.reports.problems import where
from circuitcheck.reports.table_formats import escaped, pipes

MOST_SIGNS = 60_000
"""A comment on a pull request takes 65,536 signs."""


def findings_markdown(outcomes: Sequence[Examination | Unexamined]) -> str:
    """Worst first over all plans, as many as a comment takes; then how many more there are."""
    told = worst_first(notices(outcomes))
    lines = [f"### circuitcheck: {_verdict(outcomes)}", ""]
    room = MOST_SIGNS - len(CAUTION) - 200
    rows, pages = [], []
    for notice in told:
        row, page = _row(notice), list(_page(notice))
        room -= len(row) + sum(map(len, page)) + len(page) + 1
        if room < 0:
            break
        rows.append(row)
        pages += page
    if rows:
        lines += [pipes(("severity", "check", "where", "what")), pipes(("---",) * 4), *rows, "", *pages]
    if len(rows) < len(told):
        lines += [f"{len(told) - len(rows)} more findings have no room here.", ""]
    return "\n".join([*lines, CAUTION]) + "\n"


def _verdict(outcomes: Sequence[Examination | Unexamined]) -> str:
    """What can't be read is counted by itself: it may be right or wrong."""
    examined = [outcome for outcome in outcomes if isinstance(outcome, Examination)]
    without = len(outcomes) - len(examined)
    told = []
    if examined:
        found = counted(finding for examination in examined for finding in examination.findings)
        told.append(f"{found} in {_plans(len(examined))}")
    if without:
        told.append(f"{_plans(without)} without a verdict")
    return ", ".join(told)


def _plans(number: int) -> str:
    return f"{number} plan{'' if number == 1 else 's'}"


def _row(notice: Notice) -> str:
    finding = notice.finding
    return pipes((finding.severity, finding.check, where(notice.place), as_sentence(finding.what)))


def _page(notice: Notice) -> Iterator[str]:
    finding = notice.finding
    yield f"<details><summary>{escaped(where(notice.place))}: {finding.check}</summary>"
    yield ""
    yield escaped(as_sentence(finding.what))
    yield ""
    if notice.circuit:
        yield f"- reached: {REACHED[finding.reached]}"
    if notice.circuit and finding.path:
        yield f"- way: {escaped(' → '.join(compressed(notice.circuit, finding.path)))}"
    yield from _steps(finding)
    for label, text in (("why", finding.why), ("remedy", finding.remedy)):
        if text:
            yield f"- {label}: {escaped(text)}"
    yield ""
    yield "</details>"
    yield ""


def _steps(finding: Finding) -> Iterator[str]:
    if finding.steps:
        yield "- to see:"
        yield from (f"  {number}. {escaped(step)}" for number, step in enumerate(finding.steps, 1))
    yield from (f"- and then: {escaped(order_words(telling))}" for telling in finding.orders)
