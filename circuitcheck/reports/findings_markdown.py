"""Findings for a pull request and for the summary of a CI job: a table, and each finding folded away under it."""

from collections.abc import Iterator, Sequence
from itertools import accumulate

from circuitcheck.checks.check import Finding
from circuitcheck.checks.ways import compressed
from circuitcheck.library.verdict import Outcome, Verdict
from circuitcheck.reports.cautions import CAUTION
from circuitcheck.reports.findings_text import REACHED, counted, order_words
from circuitcheck.reports.notices import NO_VERDICT, Notice, as_sentence, counting, notices, worst_first
from circuitcheck.reports.problems import where
from circuitcheck.reports.table_formats import escaped, pipes

MOST_SIGNS = 55_000
MOST_SIGNS_ACCEPTED = 5_000
"""A comment on a pull request takes 65,536 signs, these and what stands around them."""


def findings_markdown(outcomes: Sequence[Outcome]) -> str:
    """Worst first over all plans, as many as a comment takes, then how many more there are; last what plans accept."""
    told = worst_first(counting(outcomes))
    pages = _fitting([(_row(notice), *_page(notice)) for notice in told], MOST_SIGNS)
    lines = [f"### circuitcheck: {_verdict(outcomes)}", ""]
    if pages:
        rows = [page[0] for page in pages]
        lines += [pipes(("severity", "check", "where", "what")), pipes(("---",) * 4), *rows, ""]
    lines += [line for page in pages for line in page[1:]]
    if len(pages) < len(told):
        lines += [f"{len(told) - len(pages)} more findings have no room here.", ""]
    accepted = _fitting([(_acceptance(one),) for one in notices(outcomes) if one.finding.accepted], MOST_SIGNS_ACCEPTED)
    if accepted:
        lines += ["<details><summary>accepted by their plans</summary>", "", *(one for (one,) in accepted)]
        lines += ["", "</details>", ""]
    return "\n".join([*lines, CAUTION]) + "\n"


def _fitting(pages: Sequence[tuple[str, ...]], room: int) -> list[tuple[str, ...]]:
    """The first of them, as many as there is room for."""
    ends = accumulate(sum(map(len, page)) + len(page) for page in pages)
    return [page for page, end in zip(pages, ends, strict=True) if end <= room]


def _verdict(outcomes: Sequence[Outcome]) -> str:
    """What can't be read is counted by itself: it may be right or wrong."""
    examined = [outcome for outcome in outcomes if isinstance(outcome, Verdict)]
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
    if finding.check != NO_VERDICT:
        yield f"- reached: {REACHED[finding.reached]}"
    if finding.path:
        yield f"- way: {escaped(' → '.join(compressed(finding.path, finding.way)))}"
    yield from _steps(finding)
    for label, text in (("why", finding.why), ("remedy", finding.remedy)):
        if text:
            yield f"- {label}: {escaped(text)}"
    yield ""
    yield "</details>"
    yield ""


def _acceptance(notice: Notice) -> str:
    finding = notice.finding
    words = f"{where(notice.place)}: {finding.check} on {', '.join(finding.parts)}: {finding.accepted}"
    return f"- {escaped(words)}"


def _steps(finding: Finding) -> Iterator[str]:
    if finding.steps:
        yield "- to see:"
        yield from (f"  {number}. {escaped(step)}" for number, step in enumerate(finding.steps, 1))
    yield from (f"- and then: {escaped(order_words(telling))}" for telling in finding.orders)
