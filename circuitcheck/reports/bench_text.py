"""A bench sheet for reading."""

from collections.abc import Iterable

from circuitcheck.reports.bench_asking import BenchReport, SheetLine, SheetPart
from circuitcheck.reports.bench_words import FIRST, METER
from circuitcheck.reports.cautions import CAUTION
from circuitcheck.reports.styled import EMPTY, Line, labelled, line, prose


def bench_lines(report: BenchReport, width: int) -> list[Line]:
    """The whole sheet."""
    lines = [*prose(f"{report.title}: bench test", width, "name"), EMPTY]
    for sentence in FIRST:
        lines += prose(sentence, width, "warning")
    lines += [EMPTY, *prose(report.coverage, width), EMPTY]
    for number, part in enumerate(report.parts, 1):
        lines += _part(number, part, width)
    return [*lines, *prose(METER, width, "quiet"), EMPTY, *prose(CAUTION, width, "quiet")]


def _part(number: int, part: SheetPart, width: int) -> list[Line]:
    lines = [line(f"Part {number}: {part.name}", "name"), *prose(part.do, width)]
    if part.rest and part.lines:
        lines += labelled("at rest", part.rest, width, ", ")
    lines += [*prose(part.chosen, width, "quiet"), EMPTY]
    for one in part.lines:
        lines += _line(one, width)
    return lines


def _line(one: SheetLine, width: int) -> Iterable[Line]:
    yield from labelled(f"[ ] {one.number:>2} set", one.set, width, ", ")
    yield from labelled("    look", one.measure.split(), width)
    yield from labelled("    expect", one.expect.split(), width)
    for proof in one.rules_out:
        yield from labelled("    else", [f"{proof.reads}:", *", ".join(proof.faults).split()], width)
    yield EMPTY
