"""The truth table for reading: columns where the screen is wide enough for them, else a sentence a row."""

from collections.abc import Sequence
from io import StringIO
from typing import TYPE_CHECKING, TextIO

from circuitcheck.reports.cautions import CAUTION
from circuitcheck.reports.problems import WIDTH, printable
from circuitcheck.reports.styled import EMPTY, Line, Span, labelled, prose
from circuitcheck.reports.table_asking import Table
from circuitcheck.reports.table_formats import cells, headings
from circuitcheck.reports.table_rows import ANY, RELAYS_BEFORE, Row
from circuitcheck.reports.terminal import STYLES, in_reading_order, rich_console, write_lines

if TYPE_CHECKING:
    from rich.table import Table as RichTable

MOTOR_STYLES = {
    "forward": "good",
    "reverse": "good",
    "braked": "",
    "shorted": "error",
    "never settles": "error",
    "order-dependent": "error",
}
"""How a motor's words look; those that are not here are warnings."""


def write_table(asked: Table, stream: TextIO, width: int | None, colour: bool) -> None:
    """Writes title, table, legend and caution. width: of the screen; None where any width will do (a pipe, a file)."""
    write_lines([*prose(asked.title, width or WIDTH, "name"), EMPTY], stream, colour)
    table = _columns(asked, stream)
    natural = rich_console(stream, colour, 100_000).measure(table).maximum
    in_columns = width is None or natural <= width
    if in_columns:
        _write_columns(table, stream, natural, colour)
    for row in () if in_columns else asked.rows:
        write_lines(_sentence(row, width or WIDTH), stream, colour)
    write_lines(
        [*_legend(asked.rows, in_columns, width or WIDTH), *prose(CAUTION, width or WIDTH, "quiet")], stream, colour
    )


def _columns(asked: Table, stream: TextIO) -> "RichTable":
    from rich.box import Box
    from rich.table import Table as RichTable
    from rich.text import Text

    rule_below_heading = Box("    \n    \n ── \n    \n    \n    \n    \n    \n")
    table = RichTable(box=rule_below_heading, pad_edge=False, show_edge=False)
    for heading in headings(asked):
        table.add_column(Text(in_reading_order(printable(heading), stream)), no_wrap=True)
    for row in asked.rows:
        words = cells(row)
        motors = len(words) - len(row.motors)
        styles = [""] * motors + [MOTOR_STYLES.get(word, "warning") for word in words[motors:]]
        shown = [in_reading_order(word, stream) for word in words]
        table.add_row(*(Text(word, STYLES.get(style, "")) for word, style in zip(shown, styles, strict=True)))
    return table


def _write_columns(table: "RichTable", stream: TextIO, width: int, colour: bool) -> None:
    if colour:
        rich_console(stream, colour, width).print(table)
    else:
        # rich fills every line up with blanks.
        text = StringIO()
        rich_console(text, colour, width).print(table)
        stream.writelines(f"{one.rstrip()}\n" for one in text.getvalue().splitlines())
    stream.write("\n")


def _sentence(row: Row, width: int) -> list[Line]:
    """What is given, then what follows; inputs that don't matter are left out."""
    given = [f"{name} {word}" for name, word in row.given.items() if word != ANY] or ["anything"]
    lines = labelled("given", _with_commas(given), width, margin=8)
    if row.relays:
        relays = [f"{name} {word}" for name, word in row.relays.items()]
        lines += labelled("relays", _with_commas(relays), width, margin=8)
    for name, word in row.motors.items():
        style = MOTOR_STYLES.get(word, "warning")
        lines.append((Span(f"{name:<7} ", "label"), Span(word, style)))
    return [*lines, EMPTY]


def _with_commas(items: list[str]) -> list[str]:
    return [f"{item}," for item in items[:-1]] + items[-1:]


def _legend(rows: Sequence[Row], in_columns: bool, width: int) -> list[Line]:
    """The signs and words that need one, where they are there."""
    lines = []
    if in_columns and any(ANY in row.given.values() for row in rows):
        lines += prose(f"{ANY} stands for: whatever its position.", width)
    if any("-" in row.relays.values() for row in rows):
        lines += prose("- under a relay: it comes to no one position.", width)
    if any(RELAYS_BEFORE in row.given for row in rows):
        meaning = "released, as after power-up; held, where operation leaves relays that hold themselves as shown"
        lines += prose(f"{RELAYS_BEFORE}: {meaning}.", width)
    return [*lines, EMPTY] if lines else []
