"""`circuitcheck benchtest`: what to measure on a finished box."""

from argparse import ArgumentParser, Namespace
from pathlib import Path
from typing import TYPE_CHECKING

from circuitcheck.commands.command import CAUTIONS, CLEAN, Command, add_library, add_plan
from circuitcheck.commands.output import Writer, add_outputs, in_lines, outputs_of, plainly, progress, write_all

if TYPE_CHECKING:
    from circuitcheck.reports.bench_asking import BenchReport

ABOUT = f"""\
The shortest list of settings and readings that shows every single fault of a
finished box apart from a sound one: first with power off and a meter, then
powered without the motors, then with them. Each line says what to set, where
to look, what to expect, and with which faults something else would be read.
Faults that no reading shows are named.

examples:
  circuitcheck benchtest drawbridge.plan
  circuitcheck benchtest --format html=sheet.html drawbridge.plan
  circuitcheck benchtest --format markdown --library parts drawbridge.plan

exit status:
  0  the sheet was written
  2  the plan can't be read or has no exact answer, or the call is wrong

{CAUTIONS}"""


def _add(parser: ArgumentParser) -> None:
    add_plan(parser)
    add_library(parser)
    add_outputs(parser, ("text", "markdown", "html", "json"))


def _run(options: Namespace) -> int:
    from circuitcheck.reports.bench_asking import asked_sheet

    outputs = outputs_of(options)
    with progress() as doing:
        doing(options.plan)
        report = asked_sheet(Path(options.plan), tuple(options.library), doing)
    write_all(options, outputs, lambda name: _writer(name, report))
    return CLEAN


def _writer(name: str, report: "BenchReport") -> Writer:
    from circuitcheck.reports.bench_formats import bench_json, bench_markdown
    from circuitcheck.reports.bench_page import bench_page
    from circuitcheck.reports.bench_text import bench_lines

    if name == "text":
        return in_lines(lambda width: bench_lines(report, width))
    return plainly({"markdown": bench_markdown, "html": bench_page, "json": bench_json}[name](report))


COMMAND = Command("list what to measure on a finished box", ABOUT, _add, _run)
