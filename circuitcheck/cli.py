"""The commands: each joins what is asked, the work and the outputs, and gives an exit status.

What a command needs is imported when it is called, so that `--help` comes at once and `check` waits for nothing that
only tables need.
"""

import gc
import os
import sys
from argparse import Namespace
from collections.abc import Callable, Sequence
from contextlib import nullcontext
from pathlib import Path
from typing import TYPE_CHECKING, TextIO

from circuitcheck.arguments import SEVERITIES, Output, read_arguments
from circuitcheck.reports.problems import WIDTH, printable
from circuitcheck.reports.terminal import (
    replace_what_cannot_be_written,
    screen_width,
    takes_colour,
    width_of,
    write_lines,
)

if TYPE_CHECKING:
    from contextlib import AbstractContextManager

    from circuitcheck.examination import Examination, Unexamined
    from circuitcheck.reports.compare_asking import Compared
    from circuitcheck.reports.motion_asking import Moved
    from circuitcheck.reports.table_asking import Table
    from circuitcheck.reports.trace_asking import Told

Writer = Callable[[TextIO, int | None, bool], None]
"""Writes a report to a stream of so many columns (None: any number will do), with colour or without."""

CLEAN, FOUND, WRONG = 0, 1, 2
"""Exit statuses: nothing at the failing severity; something at it; the input or the call is wrong."""


def main(arguments: Sequence[str] | None = None) -> int:
    """Runs a command and gives its exit status. Nothing that goes wrong ends in a traceback."""
    # A run makes many small values and keeps most of them: looking for rubbish often costs a tenth of it.
    gc.set_threshold(100_000, 50, 50)
    replace_what_cannot_be_written()
    options = read_arguments(arguments)
    commands = {"check": _check, "table": _table, "trace": _trace, "motion": _motion}
    commands |= {"compare": _compare, "explain": _explain}
    try:
        return commands[options.command](options)
    except KeyboardInterrupt:
        return WRONG
    except OSError as error:
        return _tell(f"{error.filename or 'the output'} can't be written: {(error.strerror or str(error)).lower()}")
    except Exception as error:
        return _refused(error)


def _refused(error: Exception) -> int:
    """Tells why there is no result: a plan that can't be read, a question without an answer, or a mistake of ours."""
    from circuitcheck.plan.source import PlanError
    from circuitcheck.reports.problems import problems_text
    from circuitcheck.reports.table_asking import Unanswerable

    if isinstance(error, PlanError):
        sys.stderr.write(problems_text(error, width_of(sys.stderr)))
        return WRONG
    if isinstance(error, Unanswerable):
        return _tell(str(error))
    return _tell(f"stumbled over {type(error).__name__}: {error}. Please report this with the plan that led to it.")


def _check(options: Namespace) -> int:
    from circuitcheck.examination import Unexamined, examine_all
    from circuitcheck.reports.problems import problems_text

    with _progress() as tell:
        outcomes = examine_all(options.plans, tuple(options.library), tell)
    for outcome in outcomes:
        if isinstance(outcome, Unexamined):
            sys.stderr.write(problems_text(outcome.error, width_of(sys.stderr)) + "\n")
    _write_all(options, lambda name: _findings_writer(name, outcomes))
    return _status(outcomes, options.fail_on)


def _status(outcomes: "list[Examination | Unexamined]", fail_on: str) -> int:
    """One plan without a verdict is enough for the whole call to have none."""
    from circuitcheck.examination import Examination

    failing = SEVERITIES[: SEVERITIES.index(fail_on) + 1]
    examined = [one for one in outcomes if isinstance(one, Examination)]
    if len(examined) < len(outcomes):
        return WRONG
    return FOUND if any(finding.severity in failing for one in examined for finding in one.findings) else CLEAN


def _findings_writer(name: str, outcomes: "list[Examination | Unexamined]") -> Writer:
    if name == "json":
        from circuitcheck.reports.findings_json import findings_json

        return _plainly(findings_json(outcomes))
    from circuitcheck.reports.findings_text import findings_lines

    return lambda stream, width, colour: write_lines(findings_lines(outcomes, width or WIDTH), stream, colour)


def _table(options: Namespace) -> int:
    from circuitcheck.reports.table_asking import asked_table

    with _progress() as tell:
        tell(options.plan)
        table = asked_table(Path(options.plan), tuple(options.library), options.control, options.motor)
    _write_all(options, lambda name: _table_writer(name, table))
    return CLEAN


def _table_writer(name: str, table: "Table") -> Writer:
    from circuitcheck.reports.table_formats import table_csv, table_json, table_markdown
    from circuitcheck.reports.table_text import write_table

    if name == "text":
        return lambda stream, width, colour: write_table(table, stream, width, colour)
    return _plainly({"csv": table_csv, "json": table_json, "markdown": table_markdown}[name](table))


def _trace(options: Namespace) -> int:
    from circuitcheck.reports.trace_asking import asked_trace, finding_trace

    plan, roots = Path(options.plan), tuple(options.library)
    if options.finding:
        told = finding_trace(plan, roots, options.finding)
    else:
        told = asked_trace(plan, roots, options.story, options.begin, options.do)
    _write_all(options, lambda name: _trace_writer(name, told))
    return FOUND if told.trace.broken_off else CLEAN


def _trace_writer(name: str, told: "Told") -> Writer:
    from circuitcheck.reports.trace_json import trace_json
    from circuitcheck.reports.trace_svg import trace_svg
    from circuitcheck.reports.trace_text import trace_lines

    if name == "text":
        return lambda stream, width, colour: write_lines(trace_lines(told, width or WIDTH), stream, colour)
    return _plainly({"svg": trace_svg, "json": trace_json}[name](told))


def _motion(options: Namespace) -> int:
    from circuitcheck.reports.motion_asking import asked_motion

    with _progress() as tell:
        tell(options.plan)
        moved = asked_motion(Path(options.plan), tuple(options.library), options.motor)
    _write_all(options, lambda name: _motion_writer(name, moved))
    return CLEAN if moved.fits else FOUND


def _motion_writer(name: str, moved: "Moved") -> Writer:
    if name == "json":
        from circuitcheck.reports.motion_json import motion_json

        return _plainly(motion_json(moved))
    if name == "svg":
        from circuitcheck.reports.motion_svg import motion_svg

        return _plainly(motion_svg(moved))
    from circuitcheck.reports.motion_text import motion_lines

    return lambda stream, width, colour: write_lines(motion_lines(moved, width or WIDTH), stream, colour)


def _compare(options: Namespace) -> int:
    from circuitcheck.reports.compare_asking import compared

    with _progress() as tell:
        tell(f"{options.old} and {options.new}")
        found = compared(options.old, options.new, tuple(options.library))
    _write_all(options, lambda name: _compare_writer(name, found))
    return CLEAN if found.comparison.same else FOUND


def _compare_writer(name: str, found: "Compared") -> Writer:
    from circuitcheck.reports.compare_formats import compare_json, compare_markdown
    from circuitcheck.reports.compare_text import compare_lines

    if name == "text":
        return lambda stream, width, colour: write_lines(compare_lines(found, width or WIDTH), stream, colour)
    return _plainly({"markdown": compare_markdown, "json": compare_json}[name](found))


def _explain(options: Namespace) -> int:
    from circuitcheck.checks.registry import all_checks
    from circuitcheck.reports.explaining import list_lines, page_lines

    checks = {one.check.name: one.check for one in all_checks()}
    name = options.check
    if name and name not in checks:
        from circuitcheck.plan.nearest import nearest

        near = nearest(name, checks)
        return _tell(f"no check {name}. {'Nearest' if near else 'There is'}: {', '.join(near or checks)}.")
    width = width_of(sys.stdout)
    lines = page_lines(checks[name], width) if name else list_lines(tuple(checks.values()), width)
    _write(Output("text", ""), lambda stream, _, colour: write_lines(lines, stream, colour), options.color)
    return CLEAN


def _plainly(text: str) -> Writer:
    def write(stream: TextIO, _width: int | None, _colour: bool) -> None:
        stream.write(text)

    return write


def _write_all(options: Namespace, writer: Callable[[str], Writer]) -> None:
    """Every output that is asked for. The caution has no place in what programs read, so there it goes to stderr."""
    for output in options.format:
        _write(output, writer(output.format), options.color)
    if not {"text", "markdown"} & {output.format for output in options.format}:
        from circuitcheck.reports.cautions import CAUTION

        sys.stderr.write(f"{CAUTION}\n")


def _write(output: Output, write: Writer, color: str) -> None:
    if output.file:
        with open(output.file, "w", encoding="utf-8", errors="replace", newline="\n") as file:
            write(file, None, False)
        return
    try:
        write(sys.stdout, screen_width(sys.stdout), takes_colour(color, sys.stdout, os.environ))
        sys.stdout.flush()
    except BrokenPipeError:
        # Whoever reads has seen enough. What is left in the buffer must not be tried again when the process ends.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


def _progress() -> "AbstractContextManager[Callable[[str], None]]":
    """Tells what is being done where somebody sits before the screen."""
    from circuitcheck.examination import nobody

    if not sys.stderr.isatty():
        return nullcontext(nobody)
    from circuitcheck.reports.progress import Progress

    return Progress(sys.stderr)


def _tell(text: str) -> int:
    """One line about why there is no result."""
    sys.stderr.write(f"circuitcheck: {printable(text)}\n")
    return WRONG
