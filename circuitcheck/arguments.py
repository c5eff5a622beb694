"""What can be asked on the command line, and the help texts."""

from argparse import ArgumentParser, ArgumentTypeError, Namespace, RawDescriptionHelpFormatter
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import NamedTuple

from circuitcheck import __version__

SEVERITIES = ("error", "warning", "note")
CHECK_FORMATS = ("text", "json")
TABLE_FORMATS = ("text", "csv", "markdown", "json")

ABOUT = """\
circuitcheck proves what a hand-wired control box for a moving prop does in
every combination of its contacts. It reads a wiring plan (a text file, *.plan)
and tells, before anything is soldered, whether some combination of switches
and relays shorts the supply, leaves a motor to coast, or drives past a limit.

examples:
  circuitcheck check drawbridge.plan     look for everything that is wrong
  circuitcheck table drawbridge.plan     what the motor does in each combination
  circuitcheck explain unbraked-stop     what a check looks for, and what helps
"""

CAUTIONS = """\
cautions:
  It does not replace local electrical codes, a risk assessment or a qualified
  person. Moving machinery can crush: test with the mechanism guarded and the
  supply current-limited.
"""

CHECK_ABOUT = f"""\
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

TABLE_ABOUT = f"""\
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

EXPLAIN_ABOUT = """\
A check's own page: what it looks for, why that matters, how it is looked for,
what to do, what it leaves out, a wrong plan and a right one. Without a name,
all checks with the first sentence of their pages.

examples:
  circuitcheck explain
  circuitcheck explain supply-short
"""


class Output(NamedTuple):
    """A format, and the file that it goes to; "" for stdout."""

    format: str
    file: str


def read_arguments(arguments: Sequence[str] | None) -> Namespace:
    """What is asked: `command` names it, the rest are its options. Ends the process where the call is wrong."""
    parser = _parser()
    options = parser.parse_args(arguments)
    if options.command in ("check", "table"):
        options.format = options.format or [Output("text", "")]
        files = [output.file for output in options.format]
        twice = next((file for file in files if files.count(file) > 1), None)
        if twice is not None:
            parser.error(f"two formats for {twice or 'one output'}; name a file for each, like --format json=FILE")
    return options


def _parser() -> ArgumentParser:
    parser = _described(ArgumentParser, f"{ABOUT}\n{CAUTIONS}", prog="circuitcheck")
    parser.add_argument("--version", action="version", version=f"circuitcheck {__version__}")
    commands = parser.add_subparsers(title="commands", metavar="COMMAND", dest="command", required=True)
    add = commands.add_parser
    check = _described(add, CHECK_ABOUT, name="check", help="tell what is wrong with plans")
    table = _described(add, TABLE_ABOUT, name="table", help="tell what the motors do in each combination")
    explain = _described(add, EXPLAIN_ABOUT, name="explain", help="tell what a check looks for")
    help = "a plan, a folder of plans, or - for one that is piped in"
    check.add_argument("plans", nargs="+", metavar="PLAN", help=help)
    table.add_argument("plan", metavar="PLAN", help="a plan, or - for one that is piped in")
    explain.add_argument("check", nargs="?", metavar="CHECK", help="the check's name, as findings give it")
    _add_outputs(check, CHECK_FORMATS)
    _add_outputs(table, TABLE_FORMATS)
    help = "the least severity that gives exit status 1 (usually warning: a right plan has none)"
    check.add_argument("--fail-on", choices=SEVERITIES, default="warning", help=help)
    help = "only where this switch, axis, supply, outside contact or latching relay stands there; several times"
    table.add_argument("--control", action="append", default=[], metavar="NAME=POSITION", help=help)
    help = "only this motor and the relays it has to do with; several times"
    table.add_argument("--motor", action="append", default=[], metavar="NAME", help=help)
    for command in (check, table):
        help = "a folder of shared parts that plans may use files from; several times"
        command.add_argument("--library", action="append", default=[], type=Path, metavar="FOLDER", help=help)
    for command in (check, table, explain):
        help = "colour: on a terminal unless NO_COLOR is set (auto), always, never"
        command.add_argument("--color", choices=("auto", "always", "never"), default="auto", help=help)
    return parser


def _described(make: Callable[..., ArgumentParser], about: str, **named: str) -> ArgumentParser:
    name = (named.pop("name"),) if "name" in named else ()
    return make(*name, description=about, formatter_class=RawDescriptionHelpFormatter, allow_abbrev=False, **named)


def _add_outputs(command: ArgumentParser, formats: tuple[str, ...]) -> None:
    def output(text: str) -> Output:
        name, equals, file = text.partition("=")
        if name not in formats:
            raise ArgumentTypeError(f'no format "{name}"; there is {", ".join(formats)}')
        if equals and not file:
            raise ArgumentTypeError(f'"{text}" names no file')
        return Output(name, file)

    help = f"{', '.join(formats)} (usually text), into a file where one is named; several times"
    command.add_argument("--format", action="append", type=output, metavar="NAME[=FILE]", help=help)
