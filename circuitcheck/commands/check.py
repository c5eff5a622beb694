"""`circuitcheck check`: what is wrong with plans."""

import sys
from argparse import ArgumentParser, Namespace
from collections.abc import Sequence
from typing import TYPE_CHECKING

from circuitcheck.commands.command import CAUTIONS, CLEAN, FOUND, WRONG, Command, WrongCall, add_library
from circuitcheck.commands.output import Writer, add_outputs, counting, in_lines, outputs_of, plainly, write_all
from circuitcheck.reports.terminal import width_of

if TYPE_CHECKING:
    from circuitcheck.library.asking import Asked
    from circuitcheck.library.cache import Cache
    from circuitcheck.library.verdict import Outcome

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
    parser.add_argument("--fail-on", choices=SEVERITIES, help=help)
    add_library(parser)
    parser.add_argument("--no-cache", action="store_true", help="examine every plan anew, and keep nothing")
    add_outputs(parser, ("text", "json"))


def _run(options: Namespace) -> int:
    from circuitcheck.library.checking import check_all

    outputs = outputs_of(options)
    asked = _asked(options)
    with counting() as hear:
        outcomes = check_all(asked, None if options.no_cache else _cache(), hear)
    _tell_problems(outcomes)
    write_all(options, outputs, lambda name: _writer(name, outcomes))
    return _status(outcomes)


def _asked(options: Namespace) -> "list[Asked]":
    from circuitcheck.library.asking import plans_asked
    from circuitcheck.library.settings import SettingsAmiss

    try:
        return plans_asked(options.plans, tuple(options.library), options.fail_on or "")
    except SettingsAmiss as error:
        raise WrongCall(str(error)) from None


def _cache() -> "Cache":
    from circuitcheck.library.cache import Cache
    from circuitcheck.plan.grammar import cache_folder

    return Cache(cache_folder())


def _tell_problems(outcomes: "Sequence[Outcome]") -> None:
    from circuitcheck.library.verdict import Unexamined
    from circuitcheck.reports.problems import problems_text

    for outcome in outcomes:
        if isinstance(outcome, Unexamined):
            sys.stderr.write(problems_text(outcome.error, width_of(sys.stderr)) + "\n")


def _status(outcomes: "Sequence[Outcome]") -> int:
    """One plan without a verdict is enough for the whole call to have none."""
    from circuitcheck.library.verdict import Verdict

    verdicts = [one for one in outcomes if isinstance(one, Verdict)]
    if len(verdicts) < len(outcomes):
        return WRONG
    return FOUND if any(verdict.fails for verdict in verdicts) else CLEAN


def _writer(name: str, outcomes: "Sequence[Outcome]") -> Writer:
    if name == "json":
        from circuitcheck.reports.findings_json import findings_json

        return plainly(findings_json(outcomes))
    from circuitcheck.reports.findings_text import findings_lines

    return in_lines(lambda width: findings_lines(outcomes, width))


COMMAND = Command("tell what is wrong with plans", ABOUT, _add, _run)
