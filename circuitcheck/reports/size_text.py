"""Sizes for reading: the verdict first, tables of wires and parts, what to do, what is missing, what it rests on."""

from collections.abc import Iterable

from circuitcheck.reports.cautions import CAUTION
from circuitcheck.reports.problems import columns, printable
from circuitcheck.reports.size_asking import Sizes
from circuitcheck.reports.size_words import (
    NONE,
    NOT_COUNTED,
    SIZE_CAUTION,
    STYLES,
    current,
    missing,
    remarks_by_names,
    tables_used,
    taken,
    verdict_sentence,
    with_unit,
)
from circuitcheck.reports.styled import EMPTY, Line, Span, labelled, line, prose
from circuitcheck.sizing.sized import Sized

HEADINGS = ("", "runs", "starts", "stalled", "needs", "takes", "used", "verdict")
USED = HEADINGS.index("used")
LEGEND = (
    "runs, starts, stalled: amperes at most in all states that operation reaches, for as long as it likes, for a "
    "moment, with one motor held fast. needs: what it must take for long, which its fuse may limit; for contacts also "
    "what they make and break. takes: what it may; of a fuse 75 % of its rating. used, where there is room: how much "
    "of that it needs."
)
BOUND = "≤: an upper bound; it wasn't found whether all of it flows at once."


def size_lines(sizes: Sizes, width: int) -> list[Line]:
    """The whole report."""
    sizing = sizes.sizing
    lines = [*prose(sizes.title, width, "name")]
    lines += [*prose(verdict_sentence(sizes), width, "good" if sizing.fits else "error"), EMPTY]
    lines += _section("Wires", [wire.sized for wire in sizing.wires], width)
    lines += _section("Parts", [*sizing.parts, *sizing.drops], width)
    bound = [BOUND] if any(not one.currents.exact for one in sizing.every) else []
    lines += [*prose(" ".join([LEGEND, *bound]), width), EMPTY]
    lines += _list("Not declared: write", missing(sizes), width, "warning")
    lines += _list("Taken, since the plan doesn't say", taken(sizes), width, "name")
    lines += _list("Tables", tables_used(sizes), width, "name")
    lines += prose(NOT_COUNTED, width)
    return [*lines, EMPTY, *prose(f"{SIZE_CAUTION} {CAUTION}", width, "quiet")]


def _section(heading: str, found: list[Sized], width: int) -> list[Line]:
    if not found:
        return []
    rows = [_cells(one) for one in found]
    lines = [line(heading, "name"), *(_in_columns(rows, found, width) or _in_sentences(rows, found, width)), EMPTY]
    for names, remarks in remarks_by_names(found):
        lines += labelled("", f"{names}: {remarks}".split(), width, margin=2)
    return [*lines, EMPTY] if lines[-1] else lines


def _cells(one: Sized) -> list[str]:
    name = one.name if one.kind == "wire" else f"{_kind(one)} {one.name}"
    made = f" {one.made}" if one.made and one.kind in ("wire", "fuse") else ""
    amounts = [current(amount) for amount in one.currents]
    bounds = [with_unit(one.needs, one.unit), with_unit(one.can, one.unit)]
    return [f"{name}{made}", *amounts, *bounds, NONE if one.used is None else f"{100 * one.used:.0f} %", one.verdict]


def _kind(one: Sized) -> str:
    return "drop to" if one.kind == "motor" else one.kind


def _in_columns(rows: list[list[str]], found: list[Sized], width: int) -> list[Line]:
    """A table, without the share that is used where that makes it too wide; nothing where it is too wide even so."""
    cells = [[printable(cell) for cell in row] for row in (HEADINGS, *rows)]
    widths = [max(map(columns, column)) for column in zip(*cells, strict=True)]
    if sum(widths) + 2 * len(widths) - 2 > width:
        cells = [[*row[:USED], *row[USED + 1 :]] for row in cells]
        del widths[USED]
    if sum(widths) + 2 * len(widths) - 2 > width:
        return []
    lines = [
        (Span(f"{_row(cells[0][:-1], widths[:-1])}  {cells[0][-1]}", "label"),),
        line("  ".join("─" * size for size in widths), "quiet"),
    ]
    for row, one in zip(cells[1:], found, strict=True):
        lines.append((Span(_row(row[:-1], widths[:-1]) + "  "), Span(row[-1], STYLES[one.verdict])))
    return lines


def _row(cells: Iterable[str], widths: list[int]) -> str:
    """Names to the left, figures to the right."""
    padded = []
    for number, (cell, size) in enumerate(zip(cells, widths, strict=True)):
        blanks = " " * (size - columns(cell))
        padded.append(blanks + cell if number else cell + blanks)
    return "  ".join(padded)


def _in_sentences(rows: list[list[str]], found: list[Sized], width: int) -> list[Line]:
    """A wire or part after the other: what flows, what it needs and takes."""
    lines: list[Line] = []
    for (name, runs, starts, stalled, needs, takes, _, verdict), one in zip(rows, found, strict=True):
        named = (("runs", runs), ("starts", starts), ("stalled", stalled))
        flows = [f"{label} {amount} A," for label, amount in named if amount != NONE]
        words = [*flows, f"needs {needs},", f"takes {takes}"]
        lines.append((Span(f"{printable(name)}: "), Span(verdict, STYLES[one.verdict])))
        lines += labelled("", words, width, margin=2)
    return lines


def _list(heading: str, items: list[str], width: int, style: str) -> list[Line]:
    lines = [one for item in items for one in labelled("", item.split(), width, margin=2)]
    return [line(heading, style), *lines, EMPTY] if lines else []
