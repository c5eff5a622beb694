"""`circuitcheck explain`: a check's own page."""

import sys
from argparse import ArgumentParser, Namespace

from circuitcheck.commands.command import CLEAN, Command
from circuitcheck.commands.output import Output, add_color, in_lines, tell, write
from circuitcheck.reports.terminal import width_of

ABOUT = """\
A check's own page: what it looks for, why that matters, how it is looked for,
what to do, what it leaves out, a wrong plan and a right one. Without a name,
all checks with the first sentence of their pages.

examples:
  circuitcheck explain
  circuitcheck explain supply-short
"""


def _add(parser: ArgumentParser) -> None:
    parser.add_argument("check", nargs="?", metavar="CHECK", help="the check's name, as findings give it")
    add_color(parser)


def _run(options: Namespace) -> int:
    from circuitcheck.checks.registry import all_checks
    from circuitcheck.reports.explaining import list_lines, page_lines

    checks = {one.check.name: one.check for one in all_checks()}
    name = options.check
    if name and name not in checks:
        from circuitcheck.plan.nearest import nearest

        near = nearest(name, checks)
        return tell(f"no check {name}. {'Nearest' if near else 'There is'}: {', '.join(near or checks)}.")
    width = width_of(sys.stdout)
    lines = page_lines(checks[name], width) if name else list_lines(tuple(checks.values()), width)
    write(Output("text", ""), in_lines(lambda _: lines), options.color)
    return CLEAN


COMMAND = Command("tell what a check looks for", ABOUT, _add, _run)
