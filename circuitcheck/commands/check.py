"""`circuitcheck check`: what is wrong with plans."""

import sys
from argparse import ArgumentParser, Namespace
from importlib import import_module
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
  circuitcheck check --format github --format sarif=circuitcheck.sarif plans/
                                             for a CI service

formats:
  text, json   for reading, and for programs of your own
  lines        file:line:column: severity: check: text, for editors
  markdown     the summary of a CI job, or a comment on a pull request
  github       annotations of GitHub Actions
  gitlab       code quality report of GitLab
  junit        JUnit XML: a suite for each plan, a case for each check
  sarif        SARIF 2.1.0, for code scanning

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
FORMATS = ("text", "json", "sarif", "junit", "github", "gitlab", "markdown", "lines")


def _add(parser: ArgumentParser) -> None:
    help = "a plan, a folder of plans, or - for one that is piped in"
    parser.add_argument("plans", nargs="+", metavar="PLAN", help=help)
    help = "the least severity that gives exit status 1 (usually warning: a right plan has none)"
    parser.add_argument("--fail-on", choices=SEVERITIES, default="warning", help=help)
    add_library(parser)
    add_outputs(parser, FORMATS)


def _run(options: Namespace) -> int:
    from circuitcheck.examination import Unexamined, examine_all
    from circuitcheck.reports.problems import problems_text

    outputs = outputs_of(options)
    with progress() as doing:
        outcomes = examine_all(options.plans, tuple(options.library), doing)
    for outcome in outcomes:
        # A service that takes commands from its log must not find a plan's lines there; annotations tell them as well.
        if isinstance(outcome, Unexamined) and "github" not in {output.format for output in outputs}:
            sys.stderr.write(problems_text(outcome.error, width_of(sys.stderr)) + "\n")
    failing = SEVERITIES[: SEVERITIES.index(options.fail_on) + 1]
    write_all(options, outputs, lambda name: _writer(name, outcomes, failing))
    return _status(outcomes, failing)


def _status(outcomes: "list[Examination | Unexamined]", failing: tuple[str, ...]) -> int:
    """One plan without a verdict is enough for the whole call to have none."""
    from circuitcheck.examination import Examination

    examined = [one for one in outcomes if isinstance(one, Examination)]
    if len(examined) < len(outcomes):
        return WRONG
    return FOUND if any(finding.severity in failing for one in examined for finding in one.findings) else CLEAN


def _writer(name: str, outcomes: "list[Examination | Unexamined]", failing: tuple[str, ...]) -> Writer:
    if name == "text":
        from circuitcheck.reports.findings_text import findings_lines

        return in_lines(lambda width: findings_lines(outcomes, width))
    if name == "junit":
        from circuitcheck.reports.findings_junit import findings_junit

        return plainly(findings_junit(outcomes, failing))
    report = f"findings_{name}"
    return plainly(getattr(import_module(f"circuitcheck.reports.{report}"), report)(outcomes))


COMMAND = Command("tell what is wrong with plans", ABOUT, _add, _run)
