"""`circuitcheck tidy`: plans in the one layout."""

import sys
from argparse import ArgumentParser, Namespace
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

from circuitcheck.commands.command import CLEAN, FOUND, WRONG, Command
from circuitcheck.commands.output import tell_unwritten

if TYPE_CHECKING:
    from circuitcheck.plan.source import Source

ABOUT = """\
Puts plans into the one layout that all plans share, so that a change shows
what was changed and nothing else. No word of a plan and no comment is lost or
moved to another place: before a file is written the new text is read again,
and every statement and comment must be what it was. A plan that can't be read
is left alone.

examples:
  circuitcheck tidy drawbridge.plan
  circuitcheck tidy plans/            every *.plan in there, folders too
  circuitcheck tidy --check plans/    only tell which would change
  circuitcheck tidy - < jaw.plan      from a pipe to a pipe

the layout:
  what a statement is about begins in column 8, right of its keyword; plan,
  use, type, module and end stand by themselves
  wires, and types, that follow one another stand in columns
  one blank between words, none before a comma; 12V becomes 12 V
  one blank line where there were some, and around title, uses and modules
  the inside of a module, and a line that goes on, are set in
  comments behind lines of a block stand below one another
Where a statement goes on in the next line is yours to choose, and stays.

exit status:
  0  every plan has the layout now; with --check: it had it before
  1  with --check: a plan would change
  2  a plan can't be read, or the call is wrong
"""


def _add(parser: ArgumentParser) -> None:
    help = "a plan, a folder of plans, or - for one that is piped in and out"
    parser.add_argument("plans", nargs="+", metavar="PLAN", help=help)
    parser.add_argument("--check", action="store_true", help="write nothing; exit with 1 where something would change")


def _run(options: Namespace) -> int:
    from circuitcheck.plan.source import PlanError
    from circuitcheck.reports.problems import problems_text
    from circuitcheck.reports.terminal import width_of

    status = CLEAN
    for name in _files(options.plans):
        try:
            status = max(status, _tidy(name, options.check))
        except PlanError as error:
            sys.stderr.write(problems_text(error, width_of(sys.stderr)))
            status = WRONG
        except OSError as error:
            status = tell_unwritten(error)
    return status


def _files(names: list[str]) -> Iterator[str]:
    from circuitcheck.plan.folders import plans_meant

    yield from dict.fromkeys(file for name in names for file in plans_meant(name))


def _tidy(name: str, only_check: bool) -> int:
    from circuitcheck.layout.tidying import tidied
    from circuitcheck.plan.signs import printable
    from circuitcheck.plan.writing import replace_text

    source = _source(name)
    text = tidied(source)
    changed = text != "\n".join(source.lines)
    if name == "-" and not only_check:
        sys.stdout.write(text)
    elif changed and not only_check:
        replace_text(Path(name), text)
        sys.stdout.write(f"{printable(source.file)}: laid out anew\n")
    elif changed:
        sys.stdout.write(f"{printable(source.file)}: would change\n")
    return FOUND if changed and only_check else CLEAN


def _source(name: str) -> "Source":
    from circuitcheck.plan.source import PlanError, Problem
    from circuitcheck.plan.text import read_source, read_standard_input

    found = read_standard_input() if name == "-" else read_source(Path(name), name)
    if isinstance(found, Problem):
        raise PlanError((found,), ())
    return found


COMMAND = Command("put plans into the one layout", ABOUT, _add, _run)
