"""The lists of a build book for spreadsheets: one CSV file each, as RFC 4180 has it but with plain line ends.

A spreadsheet takes a cell that begins with = + - @ for a formula, and a plan may come from anybody: such a cell gets an
apostrophe before it, which spreadsheets take for "this is text" (OWASP, CSV Injection). Terminals like PS.+ begin with
a letter and stay as they are.
"""

import csv
from collections.abc import Iterable
from io import StringIO

from circuitcheck.paper.book import Book
from circuitcheck.paper.cut_list import cut_metres
from circuitcheck.reports.book_words import feeds_words, item_names, item_remark, replacement_words, step_words
from circuitcheck.reports.problems import printable

Row = Iterable[object]

FORMULA_SIGNS = ("=", "+", "-", "@")


def book_lists(book: Book) -> dict[str, str]:
    """The text of each list by the name of its file; a list without lines is left out."""
    tables = {
        "wires.csv": (WIRES, _wires(book)),
        "cuts.csv": (CUTS, _cuts(book)),
        "strips.csv": (STRIPS, _strips(book)),
        "pins.csv": (PINS, _pins(book)),
        "labels.csv": (LABELS, _labels(book)),
        "parts.csv": (PARTS, _parts(book)),
        "fuses.csv": (FUSES, _fuses(book)),
    }
    filled = ((name, head, list(rows)) for name, (head, rows) in tables.items())
    return {name: csv_text(head, rows) for name, head, rows in filled if rows}


def csv_text(head: Row, rows: Iterable[Row]) -> str:
    """A head and a line a row."""
    text = StringIO()
    writer = csv.writer(text, lineterminator="\n")
    writer.writerows([defused(str(cell)) for cell in row] for row in (head, *rows))
    return text.getvalue()


def defused(cell: str) -> str:
    """The cell on one line, and no formula."""
    cell = printable(cell)
    return f"'{cell}" if cell.startswith(FORMULA_SIGNS) else cell


WIRES = ("from", "to", "number", "colour", "gauge", "metres", "at from", "at to", "area", "step", "done")
CUTS = ("colour", "gauge", "number", "from", "to", "metres", "cut to", "done")
STRIPS = ("strip", "way", "number", "to", "colour", "gauge")
PINS = ("connector", "pin", "side", "number", "to", "colour", "gauge")
LABELS = ("label", "at", "kind")
PARTS = ("count", "part", "names", "remark")
FUSES = ("fuse", "label", "amps", "kind", "feeds", "replace with")


def _wires(book: Book) -> Iterable[Row]:
    for step in book.wires.steps:
        for start, end, wire in ((line.start, line.end, line.wire) for line in step.lines):
            ends = (f"{one.place} of {one.of}" for one in (start, end))
            facts = (wire.number, wire.colour, wire.gauge, f"{wire.metres:g}" if wire.metres else "")
            yield (start.terminal, end.terminal, *facts, *ends, step.area + 1, step_words(step), "")


def _cuts(book: Book) -> Iterable[Row]:
    for roll in book.rolls:
        for wire in roll.wires:
            lengths = (f"{wire.metres:g}", f"{cut_metres(wire):g}") if wire.metres else ("", "")
            yield (roll.colour, roll.gauge, wire.number, wire.tail, wire.head, *lengths, "")


def _strips(book: Book) -> Iterable[Row]:
    for strip in book.strips:
        for way in strip.ways:
            for wire in way.wires:
                yield strip.part.name, way.mark, wire.number, wire.far_from(way.terminal), wire.colour, wire.gauge


def _pins(book: Book) -> Iterable[Row]:
    for one in book.pin_outs:
        for pin in one.pins:
            for half, side, wires in (("p", "plug", pin.plug), ("s", "socket", pin.socket)):
                for wire in wires:
                    far = wire.far_from(f"{one.part.name}.{half}{pin.number}")
                    yield one.part.name, pin.number, side, wire.number, far, wire.colour, wire.gauge


def _labels(book: Book) -> Iterable[Row]:
    yield from ((one.number, one.terminal, "wire") for one in book.labels.wires)
    yield from ((one.name, one.label, "part") for one in book.labels.parts)


def _parts(book: Book) -> Iterable[Row]:
    yield from ((len(item.names), item.what, item_names(item), item_remark(item)) for item in book.items)


def _fuses(book: Book) -> Iterable[Row]:
    for fuse in book.fuses:
        feeds = feeds_words(book.circuit, fuse)
        yield fuse.name, fuse.label, f"{fuse.amps:g}", fuse.kind, feeds, replacement_words(fuse)
