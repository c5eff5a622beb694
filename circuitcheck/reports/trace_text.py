"""A trace for reading: a table of its steps, and the timing chart under it."""

from collections.abc import Sequence

from circuitcheck.checks.ways import compressed, stretches
from circuitcheck.reports.cautions import CAUTION
from circuitcheck.reports.problems import columns, printable
from circuitcheck.reports.styled import EMPTY, Line, Span, labelled, line, prose, wrapped
from circuitcheck.reports.trace_asking import Told
from circuitcheck.reports.trace_chart import chart_of, chart_text
from circuitcheck.reports.trace_words import (
    changes_words,
    conducts_anew,
    left_out_words,
    moves_words,
    remarks_words,
)

NARROWEST_TABLE = 72
HEADINGS = ("step", "what moves", "what changes", "what conducts now")


def trace_lines(told: Told, width: int) -> list[Line]:
    """The whole report."""
    lines = [*prose(told.title, width, "name"), EMPTY]
    lines += _table(told, width) if width >= NARROWEST_TABLE else _list(told, width)
    left_out = left_out_words(told)
    if left_out:
        lines += [*prose(left_out, width, "warning"), EMPTY]
    chart = chart_of(told)
    drawn = chart_text(chart, width)
    if drawn:
        lines += [*(line(one) for one in drawn), EMPTY]
    if chart.unchanged:
        lines += [*labelled("all along", _with_commas(chart.unchanged), width), EMPTY]
    return lines + prose(CAUTION, width, "quiet")


def _table(told: Told, width: int) -> list[Line]:
    widths = _column_widths(width)
    lines = [_row(HEADINGS, widths, "label"), _row(["─" * one for one in widths], widths, "label")]
    for number in range(len(told.trace.steps)):
        moves, changes, ways = _cells(told, number)
        cells = [
            [str(number)],
            wrapped(moves.split(), " ", widths[1]),
            wrapped([f"{one}," for one in changes[:-1]] + changes[-1:], " ", widths[2]),
            [part for way in ways for part in wrapped(way, " → ", widths[3])],
        ]
        height = max(len(cell) for cell in cells)
        lines += [_row([cell[row] if row < len(cell) else "" for cell in cells], widths, "") for row in range(height)]
        for remark in remarks_words(told, number):
            lines += [
                (Span(" " * (widths[0] + 2)), Span(part, "warning"))
                for part in wrapped(printable(remark).split(), " ", min(width, 100) - widths[0] - 2)
            ]
    return [*lines, EMPTY]


def _column_widths(width: int) -> tuple[int, int, int, int]:
    """Of the whole width less two blanks between columns; more than 140 columns make no better table."""
    room = min(width, 140) - 6 - 4
    moves, changes = min(room * 30 // 100, 32), min(room * 25 // 100, 26)
    return 4, moves, changes, room - moves - changes


def _row(cells: Sequence[str], widths: Sequence[int], style: str) -> Line:
    padded = [cell + " " * (width - columns(cell)) for cell, width in zip(cells, widths, strict=True)]
    return (Span("  ".join(padded).rstrip(), style),)


def _list(told: Told, width: int) -> list[Line]:
    lines: list[Line] = []
    for number in range(len(told.trace.steps)):
        moves, changes, ways = _cells(told, number)
        lines += labelled(str(number), moves.split(), width, margin=4)
        lines += labelled("", _with_commas(changes), width, margin=4)
        for way in ways:
            lines += labelled("", way, width, " → ", margin=6)
        for remark in remarks_words(told, number):
            lines += [(Span("    "), *one) for one in prose(remark, width - 4, "warning")]
    return [*lines, EMPTY]


def _cells(told: Told, number: int) -> tuple[str, list[str], list[list[str]]]:
    """What moves, what changes, and the ways that conduct from now on, each begun with what it feeds."""
    anew = conducts_anew(told, number)
    ways = []
    for name, way in anew.items():
        passed = [printable(one) for one in compressed(way, stretches(told.trace.circuit, way))]
        ways += [[f"{name}: {passed[0]}", *passed[1:]]] if passed else []
    no_more = [name for name, way in anew.items() if not way]
    ways += [[f"no more: {', '.join(no_more)}"]] if no_more else []
    return printable(moves_words(told, number)), [printable(one) for one in changes_words(told, number)], ways


def _with_commas(items: Sequence[str]) -> list[str]:
    return [f"{item}," for item in items[:-1]] + list(items[-1:])
