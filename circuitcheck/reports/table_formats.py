"""The truth table for other programs and for documents: CSV, Markdown, JSON.

`table.schema.json` beside this file says what readers of the JSON can rely on.
"""

import csv
import json
from collections.abc import Sequence
from io import StringIO

from circuitcheck.reports.cautions import CAUTION
from circuitcheck.reports.findings_json import SCHEMA
from circuitcheck.reports.problems import printable
from circuitcheck.reports.table_asking import Table
from circuitcheck.reports.table_rows import Row


def table_json(table: Table) -> str:
    """Signs outside ASCII are escaped, so that any encoding carries it."""
    rows = [row._asdict() for row in table.rows]
    report = {"schema": SCHEMA, "plan": table.name, "inputs": table.inputs, "rows": rows}
    return json.dumps(report, indent=2) + "\n"


def table_csv(table: Table) -> str:
    """A head and a line a row, as RFC 4180 has it but with plain line ends."""
    text = StringIO()
    writer = csv.writer(text, lineterminator="\n")
    writer.writerow(headings(table))
    writer.writerows(cells(row) for row in table.rows)
    return text.getvalue()


def table_markdown(table: Table) -> str:
    """A table with its title and the caution."""
    head = headings(table)
    lines = [f"**{escaped(table.title)}**", "", pipes(head), pipes(["---"] * len(head))]
    lines += [pipes(cells(row)) for row in table.rows]
    return "\n".join([*lines, "", CAUTION]) + "\n"


def headings(table: Table) -> list[str]:
    """The names over the columns: inputs, relays, motors."""
    return [*table.inputs, *table.rows[0].relays, *table.rows[0].motors]


def cells(row: Row) -> list[str]:
    """A row's words, in the order of the headings."""
    return [*row.given.values(), *row.relays.values(), *row.motors.values()]


def pipes(words: Sequence[str]) -> str:
    """A row of a Markdown table."""
    return f"| {' | '.join(map(escaped, words))} |"


def escaped(text: str) -> str:
    """The text as Markdown shows it letter by letter.

    Names are letters, digits and underscores; what a plan says in quotes can be anything.
    """
    return "".join(f"\\{sign}" if sign in "\\`*_{}[]<>()#+!|&" else sign for sign in printable(text))
