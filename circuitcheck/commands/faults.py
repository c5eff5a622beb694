"""`circuitcheck faults`: what one failure does."""

from argparse import ArgumentParser, Namespace
from pathlib import Path
from typing import TYPE_CHECKING

from circuitcheck.commands.command import CAUTIONS, CLEAN, Command, add_library, add_plan
from circuitcheck.commands.output import Writer, add_outputs, counting, in_lines, outputs_of, plainly, write_all

if TYPE_CHECKING:
    from circuitcheck.reports.faults_asking import FaultReport

ABOUT = f"""\
Supposes every single fault of every part: contacts welded and open, relays and
switches stuck, coils, diodes and motors open and shorted, wires and pins open
or touching, limits stuck, moved or torn off, fuses blown, supplies lost or
reversed. Tells what each does in the worst case, the shortest way to it,
whether anybody would notice before a second fault, and what to change first.

examples:
  circuitcheck faults drawbridge.plan
  circuitcheck faults --pairs drawbridge.plan
  circuitcheck faults --format markdown=faults.md --format text drawbridge.plan

what a fault does, the worst first, at rests that last, held against a sound box
that is worked by the same hands:
  does not stop      a motor is driven on where it should have stopped
  overtravel         an axis is driven outward at or past its end
  unexpected motion  a motor is driven where it should stand, or the other way
  brake lost         a motor is left open where it should brake
  supply short       + and - are joined; a fuse may clear it, and save its wires
  limit trapped      an axis stays at an end: nothing drives it back
  does nothing       a motor stands still where it should run
  holds              still stops, brakes and limits

A plan may require: `require one fault never drives deck past top`, `require
ES1 works after one fault`. Then `check` tells the faults that break it.

exit status:
  0  the faults were told
  2  the plan can't be read or has no exact answer, or the call is wrong

{CAUTIONS}"""


def _add(parser: ArgumentParser) -> None:
    add_plan(parser)
    help = "also two faults at once, the first of them hidden, as far as stops and limits go; that may take minutes"
    parser.add_argument("--pairs", action="store_true", help=help)
    add_library(parser)
    add_outputs(parser, ("text", "markdown", "json"))


def _run(options: Namespace) -> int:
    from circuitcheck.reports.faults_asking import asked_faults

    outputs = outputs_of(options)
    with counting() as hear:
        hear(options.plan, 0, 1)
        report = asked_faults(Path(options.plan), tuple(options.library), options.pairs, hear)
    write_all(options, outputs, lambda name: _writer(name, report))
    return CLEAN


def _writer(name: str, report: "FaultReport") -> Writer:
    from circuitcheck.reports.faults_formats import faults_json, faults_markdown
    from circuitcheck.reports.faults_text import faults_lines

    if name == "text":
        return in_lines(lambda width: faults_lines(report, width))
    return plainly({"markdown": faults_markdown, "json": faults_json}[name](report))


COMMAND = Command("tell what each single fault does, and what to design out first", ABOUT, _add, _run)
