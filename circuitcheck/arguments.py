"""What can be asked on the command line, and the help texts."""

from argparse import ArgumentParser, ArgumentTypeError, Namespace, RawDescriptionHelpFormatter
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import NamedTuple

from circuitcheck import __version__

SEVERITIES = ("error", "warning", "note")
CHECK_FORMATS = ("text", "json")
TABLE_FORMATS = ("text", "csv", "markdown", "json")
TRACE_FORMATS = ("text", "svg", "json")
MOTION_FORMATS = ("text", "svg", "json")
COMPARE_FORMATS = ("text", "markdown", "json")

ABOUT = """\
circuitcheck proves what a hand-wired control box for a moving prop does in
every combination of its contacts. It reads a wiring plan (a text file, *.plan)
and tells, before anything is soldered, whether some combination of switches
and relays shorts the supply, leaves a motor to coast, or drives past a limit.

examples:
  circuitcheck check drawbridge.plan     look for everything that is wrong
  circuitcheck table drawbridge.plan     what the motor does in each combination
  circuitcheck trace drawbridge.plan --do "S1 lower" --do run
                                         what follows when controls are worked
  circuitcheck motion drawbridge.plan    how far the deck goes on when it stops
  circuitcheck compare HEAD:./drawbridge.plan drawbridge.plan
                                         what a change does to the behaviour
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

TRACE_ABOUT = f"""\
Walks a story: somebody works the controls, and each step is told with what
moves, which motor or lamp changes and where current flows from then on, as a
table and as a timing chart. What isn't set begins so: supplies on, relays
released, axes at their first place, all else at its first position.

examples:
  circuitcheck trace drawbridge.plan --begin "S1 lower, deck at bottom" \\
                     --do "S1 raise" --do "deck to top" --do "PS off"
  circuitcheck trace drawbridge.plan --story raise.story
  circuitcheck trace drawbridge.plan --finding hunting-axis
  circuitcheck trace --format svg=raise.svg drawbridge.plan --story raise.story

actions, one a line of a story file (# begins a comment) or one a --do:
  S1 raise             works a control; `S1 raise slowly` lets relays move while
                       it is between its positions, else it is the quicker
  press PB1            and `release PB1`
  PS off, OUT1 on      a supply fails; an outside contact changes
  deck to top          lets the deck's motor move it until it is there
  run                  lets every driven axis move until it stops; `run deck`,
                       `run deck 2 zones`
  wait                 lets the times of timing relays run out; `wait K1`
  K2 first             from here on K2 is the quickest relay

A story file may say before its actions how it begins: begin PS on, S1 lower.

Where several relays want to move, that goes first which has moved least since
the last action, of those one that is preferred, then the first in the plan. If
another order ends elsewhere, the trace says so.

exit status:
  0  the story was walked to its end
  1  it broke off: in a short, or where an axis doesn't get to where it should
  2  the plan or the story can't be read, or the call is wrong

{CAUTIONS}"""

MOTION_ABOUT = f"""\
How far each motor turns on, from when a limit, a control or a power failure
ends its drive until it stands, in each direction: while a relay takes its
time, while its contact travels, braked or coasting. Which of these happens is
taken from all that operation can lead to. And whether that fits into the room
before a hard stop, or on a cam; how a motor starts; currents at their peak.
Ranges of figures give ranges of answers: nothing they allow falls outside.

examples:
  circuitcheck motion drawbridge.plan
  circuitcheck motion --motor M1 --format svg=deck.svg drawbridge.plan

figures that a plan can give (each may be a range, like 16..20 A):
  motor M1 12 V stall 18 A 20 N m free 1.5 A 40 rpm rotor 900 g cm2 gear 60:1
  motor M1 12 V free 40 rpm coasts 110 deg brakes in 6 deg    measured instead
  axis deck from bottom to top, 70 deg, inertia 0.3 kg m2, friction 0.5 N m,
       gravity 2 N m, overtravel 5 deg                       (all in one line)
  cam CS1 spdt 20 deg on drum at park         how long it keeps its switch down

  What is taken for what a plan doesn't say is told; what is missing as well.

verdicts:
  fits                         whatever the figures are within their ranges
  does not fit                 likewise
  hangs on the figures' range  some of them fit and some don't
  not known                    figures are missing

exit status:
  0  every stop that could be worked out fits
  1  a stop does not fit, or hangs on the figures' range
  2  the plan can't be read or has no exact answer, or the call is wrong

{CAUTIONS}"""

COMPARE_ABOUT = f"""\
Compares two versions of a plan: not their lines but what they do. Tells which
motor, lamp or relay does something else and when, one way to see it, findings
that came and went, and parts and wires that changed.

Each version is a file, or REVISION:PATH for a plan as it stood in a revision
of its git repository, with the files that it used then. PATH begins at the
top of the repository, or at the current folder where it begins with ./

examples:
  circuitcheck compare drawbridge.plan drawbridge_new.plan
  circuitcheck compare HEAD:./drawbridge.plan drawbridge.plan
  circuitcheck compare main:plans/jaw.plan HEAD:plans/jaw.plan
  circuitcheck compare --format markdown=comment.md old.plan new.plan

what it means that the behaviour is the same:
  Somebody works both boxes alike, from power-up on: the same switches at the
  same moments, supplies, outside contacts; axes go where both drive them.
  Whenever both are at rest, each motor, lamp, buzzer and solenoid does the
  same, each relay that both have stands alike, and no supply is shorted in
  just one. Where the order of relays decides, each must be able to do what
  the other can. It is decided over all states, none sampled. A relay that
  only one has isn't looked at, only what it does; a motor or lamp that only
  one has counts as standing still or dark in the other. A timing relay with
  another delay and a switch with another position are differences. Not
  compared: what contacts touch while they travel, volts and currents, other
  times. Parts are the same by their names, else by their place in the wiring:
  renaming a part changes nothing.

exit status:
  0  the behaviour is the same, whatever parts, wires or findings changed
  1  it differs
  2  a plan can't be read or has no exact answer, or the call is wrong

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
    if options.command in ("check", "table", "trace", "motion", "compare"):
        options.format = options.format or [Output("text", "")]
        files = [output.file for output in options.format]
        twice = next((file for file in files if files.count(file) > 1), None)
        if twice is not None:
            parser.error(f"two formats for {twice or 'one output'}; name a file for each, like --format json=FILE")
    if options.command == "trace" and options.finding and (options.story or options.begin or options.do):
        parser.error("a finding has a story of its own: ask for --finding without --story, --begin and --do")
    return options


def _parser() -> ArgumentParser:
    parser = _described(ArgumentParser, f"{ABOUT}\n{CAUTIONS}", prog="circuitcheck")
    parser.add_argument("--version", action="version", version=f"circuitcheck {__version__}")
    commands = parser.add_subparsers(title="commands", metavar="COMMAND", dest="command", required=True)
    add = commands.add_parser
    check = _described(add, CHECK_ABOUT, name="check", help="tell what is wrong with plans")
    table = _described(add, TABLE_ABOUT, name="table", help="tell what the motors do in each combination")
    trace = _described(add, TRACE_ABOUT, name="trace", help="walk a story and tell what follows, step by step")
    motion = _described(add, MOTION_ABOUT, name="motion", help="tell how far motors turn on when they stop")
    compare = _described(add, COMPARE_ABOUT, name="compare", help="tell what a change does to the behaviour")
    explain = _described(add, EXPLAIN_ABOUT, name="explain", help="tell what a check looks for")
    help = "a plan, a folder of plans, or - for one that is piped in"
    check.add_argument("plans", nargs="+", metavar="PLAN", help=help)
    table.add_argument("plan", metavar="PLAN", help="a plan, or - for one that is piped in")
    trace.add_argument("plan", metavar="PLAN", help="a plan, or - for one that is piped in")
    _add_story(trace)
    motion.add_argument("plan", metavar="PLAN", help="a plan, or - for one that is piped in")
    compare.add_argument("old", metavar="OLD", help="a plan, REVISION:PATH, or - for one that is piped in")
    compare.add_argument("new", metavar="NEW", help="the same plan, changed")
    explain.add_argument("check", nargs="?", metavar="CHECK", help="the check's name, as findings give it")
    _add_outputs(check, CHECK_FORMATS)
    _add_outputs(table, TABLE_FORMATS)
    _add_outputs(trace, TRACE_FORMATS)
    _add_outputs(motion, MOTION_FORMATS)
    _add_outputs(compare, COMPARE_FORMATS)
    help = "the least severity that gives exit status 1 (usually warning: a right plan has none)"
    check.add_argument("--fail-on", choices=SEVERITIES, default="warning", help=help)
    help = "only where this switch, axis, supply, outside contact or latching relay stands there; several times"
    table.add_argument("--control", action="append", default=[], metavar="NAME=POSITION", help=help)
    help = "only this motor and the relays it has to do with; several times"
    table.add_argument("--motor", action="append", default=[], metavar="NAME", help=help)
    help = "only this motor; several times"
    motion.add_argument("--motor", action="append", default=[], metavar="NAME", help=help)
    for command in (check, table, trace, motion, compare):
        help = "a folder of shared parts that plans may use files from; several times"
        command.add_argument("--library", action="append", default=[], type=Path, metavar="FOLDER", help=help)
    for command in (check, table, trace, motion, compare, explain):
        help = "colour: on a terminal unless NO_COLOR is set (auto), always, never"
        command.add_argument("--color", choices=("auto", "always", "never"), default="auto", help=help)
    return parser


def _add_story(trace: ArgumentParser) -> None:
    help = "a file with a story: how it begins, then one action a line"
    trace.add_argument("--story", type=Path, metavar="FILE", help=help)
    help = 'where things stand at first, like "S1 lower, deck at bottom"; several times'
    trace.add_argument("--begin", action="append", default=[], metavar="SETTINGS", help=help)
    help = 'an action, like "S1 raise"; several times, in order, after those of a story file'
    trace.add_argument("--do", action="append", default=[], metavar="ACTION", help=help)
    help = "instead of a story: the steps of the first finding of this check"
    trace.add_argument("--finding", metavar="CHECK", help=help)


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
