"""What a remedy is: a few edits of a plan's own file, and the finding that they are meant for."""

from collections.abc import Iterable
from typing import NamedTuple

from circuitcheck.checks.check import Finding
from circuitcheck.plan.source import Place, Source


class Edit(NamedTuple):
    """`text` in the place of a stretch within one line; an empty stretch is where it goes in."""

    place: Place
    text: str


class Remedy(NamedTuple):
    """title: what is done, as a builder would say it ("put D3 across K1"). finding: what it is meant to put right.

    aim: what it is by itself, whatever name a new part gets: two remedies of one aim are one, before and after others.
    """

    title: str
    aim: tuple[str, ...]
    finding: Finding
    edits: tuple[Edit, ...]


def edited(source: Source, edits: Iterable[Edit]) -> str:
    """The file's text with all edits made. Edits of one place come in the order given; others don't overlap."""
    lines = list(source.lines)
    in_order = sorted(edits, key=lambda one: one.place[1:3])
    # From the end to the beginning, so that the places before an edit stay right.
    for edit in in_order[::-1]:
        number, start, end = edit.place.line - 1, edit.place.column - 1, edit.place.end_column - 1
        lines[number] = lines[number][:start] + edit.text + lines[number][end:]
    return "\n".join(lines)


def lines_after(source: Source, above: Place, statements: Iterable[tuple[str, str]]) -> Edit:
    """New statements, each a keyword and the rest, below the one at a place and set in as far as its first line is."""
    first, number = source.lines[above.line - 1], above.end_line
    margin = first[: len(first) - len(first.lstrip())]
    text = "".join(f"\n{margin}{keyword:<6} {rest}" for keyword, rest in statements)
    end = len(source.lines[number - 1]) + 1
    return Edit(Place(source.file, number, end, number, end), text)
