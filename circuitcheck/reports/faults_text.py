"""What faults do, for reading: a summary, the table by parts, what to design out first, what wasn't looked at."""

from collections.abc import Iterable, Sequence

from circuitcheck.reports.cautions import CAUTION
from circuitcheck.reports.faults_asking import FaultReport
from circuitcheck.reports.faults_fuses import fuse_lines
from circuitcheck.reports.faults_rows import (
    HIDDEN,
    MOST_SHOWN,
    NOT_COVERED,
    Entry,
    consequence_words,
    counted,
    left_out_words,
    noticed_words,
    pair_heading,
    part_rows,
    summary,
    supposed_words,
    to_design_out,
)
from circuitcheck.reports.problems import columns, printable
from circuitcheck.reports.styled import EMPTY, Line, Span, labelled, line, prose, wrapped

STYLES = {
    "does not stop": "error",
    "overtravel": "error",
    "unexpected motion": "error",
    "brake lost": "warning",
    "limit trapped": "warning",
    "not judged": "warning",
}
GAP = "  "


def faults_lines(report: FaultReport, width: int) -> list[Line]:
    """The whole report."""
    lines = [*prose(report.title, width, "name"), EMPTY]
    for sentence in summary(report):
        lines += prose(sentence, width)
    lines += [EMPTY, *_counts(report), EMPTY, *_table(report, width), EMPTY] if report.faults else [EMPTY]
    lines += _entries("To design out first", to_design_out(report.faults), width)
    if report.pairs is not None:
        lines += _entries(pair_heading(), to_design_out(report.pairs), width)
    if fuses := fuse_lines(report):
        lines += _listed("Fuses and wires", fuses, width)
    if supposed := supposed_words(report):
        lines += _listed("Supposed", supposed, width)
    lines += _listed("Left out", left_out_words(), width)
    lines += _listed("Not covered", NOT_COVERED, width)
    return lines + prose(CAUTION, width, "quiet")


def _counts(report: FaultReport) -> list[Line]:
    rows = counted(report)
    margin = max((columns(word) for word, _, _ in rows), default=0)
    return [
        (
            Span(word.ljust(margin), STYLES.get(word, "")),
            Span(f"{GAP}{count:>4}"),
            Span(f"{GAP}{hidden} hidden" if hidden else "", "quiet"),
        )
        for word, count, hidden in rows
    ]


def _table(report: FaultReport, width: int) -> list[Line]:
    """Part, consequence, faults; a part's name once. Where there is little room the faults stand below."""
    rows = part_rows(report)
    first = max((columns(printable(row.part)) for row in rows), default=4)
    second = max((columns(row.consequence) for row in rows), default=11)
    room = width - first - second - 2 * len(GAP)
    if room < 24:
        first, room = min(first, 4), width - 6
        return [part for row in rows for part in _stacked(row.part, row.consequence, row.faults, room)]
    lines: list[Line] = [
        (Span(f"{'part'.ljust(first)}{GAP}{'worst'.ljust(second)}{GAP}faults ({HIDDEN} hidden)", "label"),),
        (Span(f"{'─' * first}{GAP}{'─' * second}{GAP}{'─' * min(room, 60)}", "label"),),
    ]
    before = ""
    for row in rows:
        cells = wrapped(list(row.faults), ", ", room)
        name = "" if row.part == before else printable(row.part)
        before = row.part
        for number, cell in enumerate(cells):
            word = row.consequence if number == 0 else ""
            named = name if number == 0 else ""
            lines.append(
                (
                    Span(named.ljust(first), "name"),
                    Span(GAP),
                    Span(word.ljust(second), STYLES.get(word, "")),
                    Span(f"{GAP}{printable(cell)}"),
                )
            )
    return lines


def _stacked(part: str, consequence: str, faults: Sequence[str], room: int) -> Iterable[Line]:
    yield (Span(printable(part), "name"), Span(": "), Span(consequence, STYLES.get(consequence, "")))
    for cell in wrapped(list(faults), ", ", room):
        yield (Span(f"    {printable(cell)}"),)


def _entries(heading: str, entries: list[Entry], width: int) -> list[Line]:
    if not entries:
        return []
    lines = [*prose(heading, width, "label"), EMPTY]
    for number, entry in enumerate(entries[:MOST_SHOWN], 1):
        lines += _entry(number, entry, width)
    if len(entries) > MOST_SHOWN:
        more = len(entries) - MOST_SHOWN
        lines += [*prose(f"{more} more, each with its story: --format markdown or json.", width, "quiet"), EMPTY]
    return lines


def _entry(number: int, entry: Entry, width: int) -> list[Line]:
    told = entry.first
    head = f"{number}. {consequence_words(told)}: {printable(told.what)}"
    lines = prose(head, width, STYLES.get(told.consequence, ""))
    lines += labelled("  with", ", ".join(one.fault.called for one in entry.faults).split(), width)
    if told.also:
        lines += labelled("  also", ", ".join(told.also).split(), width)
    lines += labelled("  seen", noticed_words(told).split(), width)
    lines += labelled("  steps", " → ".join(told.steps).split(), width)
    lines += labelled("  change", told.remedy.split(), width)
    return [*lines, EMPTY]


def _listed(heading: str, sentences: Iterable[str], width: int) -> list[Line]:
    lines: list[Line] = [line(heading, "label")]
    for sentence in sentences:
        lines += [(Span("  "), *one) for one in prose(sentence, min(width, 100) - 2)]
    return [*lines, EMPTY]
