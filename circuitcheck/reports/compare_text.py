"""Two versions of a plan compared, for reading: the verdict first, how to see it, then all that changed."""

from collections.abc import Iterable

from circuitcheck.checks.check import Finding
from circuitcheck.reports.cautions import CAUTION
from circuitcheck.reports.compare_asking import Compared, Told
from circuitcheck.reports.compare_rows import Row
from circuitcheck.reports.compare_words import (
    COMPARED,
    legend,
    other_sentences,
    part_sentence,
    row_words,
    story_lines,
    title,
    verdict,
    wire_sentence,
)
from circuitcheck.reports.problems import columns, where
from circuitcheck.reports.styled import EMPTY, Line, Span, labelled, line, prose


def compare_lines(compared: Compared, width: int) -> list[Line]:
    """The whole report."""
    style = "good" if compared.comparison.same else "warning"
    lines = [*prose(title(compared), width, "name"), *prose(verdict(compared), width, style), EMPTY]
    for told in compared.told:
        lines += [*_told(told, width), EMPTY]
    for sentence in other_sentences(compared):
        lines += [*prose(sentence, width, "warning"), EMPTY]
    lines += _findings("Findings that came", compared.came, width)
    lines += _findings("Findings that went", compared.went, width)
    lines += _changes("Parts", [part_sentence(change) for change in compared.parts], width)
    wires = [wire_sentence(change) for change in compared.wiring.wires]
    heading = "Wires" if not compared.wiring.same_joins else "Wires, joining the same terminals as before"
    lines += _changes(heading, wires, width)
    return [*lines, *prose(COMPARED, width), EMPTY, *prose(CAUTION, width, "quiet")]


def _told(told: Told, width: int) -> list[Line]:
    lines: list[Line] = []
    for label, words in story_lines(told.story):
        lines += labelled(label, words.split(), width)
    if told.rows is None:
        return [*lines, EMPTY, *prose("There are too many combinations that differ to tell them all.", width)]
    if not told.rows:
        return lines
    lines += [EMPTY, *prose("All combinations that differ, old → new:", width, "name")]
    lines += _in_columns(told.rows, width) or [one for row in told.rows for one in _sentence(row, width)]
    for sentence in legend(told.rows):
        lines += prose(sentence, width)
    return lines


def _in_columns(rows: tuple[Row, ...], width: int) -> list[Line]:
    """A table; nothing where it would be wider than the screen."""
    head = [*rows[0].given, *rows[0].devices]
    cells = [head, *([*row.given.values(), *row.devices.values()] for row in rows)]
    widths = [max(map(columns, column)) for column in zip(*cells, strict=True)]
    if sum(widths) + 2 * len(widths) - 2 > width:
        return []
    lines: list[Line] = [_row(head, widths, len(head), "label")]
    lines.append(line("  ".join("─" * size for size in widths), "quiet"))
    return lines + [_row(row, widths, len(rows[0].given), "warning") for row in cells[1:]]


def _row(cells: list[str], widths: list[int], plain: int, style: str) -> Line:
    padded = [cell + " " * (size - columns(cell) + 2) for cell, size in zip(cells, widths, strict=True)]
    first = Span("".join(padded[:plain]), "label" if style == "label" else "")
    return (first, Span("".join(padded[plain:]).rstrip(), style))


def _sentence(row: Row, width: int) -> list[Line]:
    given, does = row_words(row)
    return [*labelled("given", given.split(), width, margin=8), *labelled("", does.split(), width, margin=8)]


def _findings(heading: str, findings: Iterable[Finding], width: int) -> list[Line]:
    lines: list[Line] = []
    for finding in findings:
        place = where(finding.where[0]) if finding.where else ""
        named = (Span(f"  {finding.severity}", finding.severity), Span(f"  {finding.check}", "name"))
        if sum(columns(span.text) for span in named) + 2 + columns(place) <= width:
            lines.append((*named, Span(f"  {place}")))
        else:
            lines += [named, *labelled("", [place], width, margin=4)]
        lines += labelled("", f"{finding.what}.".split(), width, margin=4)
    return [line(heading, "name"), *lines, EMPTY] if lines else []


def _changes(heading: str, sentences: list[str], width: int) -> list[Line]:
    lines = [one for sentence in sentences for one in labelled("", sentence.split(), width, margin=2)]
    return [line(heading, "name"), *lines, EMPTY] if lines else []
