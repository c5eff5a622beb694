"""`circuitcheck table`: the truth table of the motors."""

from argparse import ArgumentParser, Namespace
from pathlib import Path
from typing import TYPE_CHECKING

from circuitcheck.commands.command import CAUTIONS, CLEAN, Command, add_library, add_plan
from circuitcheck.commands.output import Writer, add_outputs, outputs_of, plainly, progress, write_all

if TYPE_CHECKING:
    from circuitcheck.reports.table_asking import Table

ABOUT = f"""\
The truth table of the motors: for each combination of controls, axis zones,
outside contacts and supplies, how the relays settle and what each motor then
does. Combinations that agree share a row, with a "–" for what doesn't matter.

examples:
  circuitcheck table drawbridge.plan
  circuitcheck table --motor M1 --control PS=on drawbridge.plan
  circuitcheck table --control "deck=past top" drawbridge.plan
  circuitcheck table --format csv=table.csv drawbridge.plan

what a motor does:
  forward, reverse   driven, plus on its + brush or on its - brush
  braked             shorted on itself: it stops at once
  braked one way     shorted through a diode, in one direction of turning only
  coasting           open: it runs on
  weak               fed through another load
  shorted            relays may meet a shorted supply on their way
  order-dependent    it depends on which relay is quicker
  never settles      relays go on moving for ever, and the motor with them

exit status:
  0  the table was written
  2  the plan can't be read, the table would be too long, or the call is wrong

{CAUTIONS}"""


def _add(parser: ArgumentParser) -> None:
    add_plan(parser)
    help = "only where this switch, axis, supply, outside contact or latching relay stands there; several times"
    parser.add_argument("--control", action="append", default=[], metavar="NAME=POSITION", help=help)
    help = "only this motor and the relays it has to do with; several times"
    parser.add_argument("--motor", action="append", default=[], metavar="NAME", help=help)
    add_library(parser)
    add_outputs(parser, ("text", "csv", "markdown", "json"))


def _run(options: Namespace) -> int:
    from circuitcheck.reports.table_asking import asked_table

    outputs = outputs_of(options)
    with progress() as doing:
        doing(options.plan)
        table = asked_table(Path(options.plan), tuple(options.library), options.control, options.motor)
    write_all(options, outputs, lambda name: _writer(name, table))
    return CLEAN


def _writer(name: str, table: "Table") -> Writer:
    from circuitcheck.reports.table_formats import table_csv, table_json, table_markdown
    from circuitcheck.reports.table_text import write_table

    if name == "text":
        return lambda stream, width, colour: write_table(table, stream, width, colour)
    return plainly({"csv": table_csv, "json": table_json, "markdown": table_markdown}[name](table))


COMMAND = Command("tell what the motors do in each combination", ABOUT, _add, _run)
