"""`circuitcheck check`: what is wrong with plans."""

import sys
from argparse import ArgumentParser, Namespace
from typing import TYPE_CHECKING

from circuitcheck.commands.command import CAUTIONS, CLEAN, FOUND, WRONG, Command, add_library
from circuitcheck.commands.output import Writer, add_outputs, in_lines, outputs_of, plainly, progress, write_all
from circuitcheck.reports.terminal import width_of

if TYPE_CHECKING:
    from circuitcheck.examination import Examination, Unexamined

ABOUT = f"""\
Looks through every combination of contacts in each plan, and through all that
operation can lead to, and tells what is wrong: where in the plan, which way
the current runs, how to see it happen, and what to do about it.

examples:
  circuitcheck check drawbridge.plan
  circuitcheck check plans/                  every *.plan in there, folders too
  circuitcheck check --fail-on error plans/  warnings are told, but don't fail
  circuitcheck check --format text --format json=findings.json drawbridge.plan
  circuitcheck check - < drawbridge.plan     a plan that is piped in

exit status:
  0  nothing at or above the failing severity
  1  findings at or above it
  2  a plan can't be read or has no exact answer, or the call is wrong

severities:
  error    it happens in operation and does harm
  warning  a fault in waiting, or a part that does nothing
  note     worth knowing; so is all that operation never gets to by itself

{CAUTIONS}"""


SEVERITIES = ("error", "warning", "note")


def _add(parser: ArgumentParser) -> None:
    help = "a plan, a folder of plans, or - for one that is piped in"
    parser.add_argument("plans", nargs="+", metavar="PLAN", help=help)
    help = "the least severity that gives exit status 1 (usually warning: a right plan has none)"
    parser.add_argument("--fail-on", choices=SEVERITIES, default="warning", help=help)
    add_library(parser)
    add_outputs(parser, ("text", "json"))


def _run(options: Namespace) -> int:
    from circuitcheck.examination import Unexamined, examine_all
    from circuitcheck.reports.problems import problems_text

    outputs = outputs_of(options)
    with progress() as doing:
        outcomes = examine_all(options.plans, tuple(options.library), doing)
    for outcome in outcomes:
        if isinstance(outcome, Unexamined):
            sys.stderr.write(problems_text(outcome.error, width_of(sys.stderr)) + "\n")
    write_all(options, outputs, lambda name: _writer(name, outcomes))
    return _status(outcomes, options.fail_on)


def _status(outcomes: "list[Examination | Unexamined]", fail_on: str) -> int:
    """One plan without a verdict is enough for the whole call to have none."""
    from circuitcheck.examination import Examination

    failing = SEVERITIES[: SEVERITIES.index(fail_on) + 1]
    examined = [one for one in outcomes if isinstance(one, Examination)]
    if len(examined) < len(outcomes):
        return WRONG
    return FOUND if any(finding.severity in failing for one in examined for finding in one.findings) else CLEAN


def _writer(name: str, outcomes: "list[Examination | Unexamined]") -> Writer:
    if name == "json":
        from circuitcheck.reports.findings_json import findings_json

        return plainly(findings_json(outcomes))
    from circuitcheck.reports.findings_text import findings_lines

    return in_lines(lambda width: findings_lines(outcomes, width))


COMMAND = Command("tell what is wrong with plans", ABOUT, _add, _run)
