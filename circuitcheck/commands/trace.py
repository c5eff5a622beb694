"""`circuitcheck trace`: a story, step by step."""

from argparse import ArgumentParser, Namespace
from pathlib import Path
from typing import TYPE_CHECKING

from circuitcheck.commands.command import CAUTIONS, CLEAN, FOUND, Command, WrongCall, add_library, add_plan
from circuitcheck.commands.output import Writer, add_outputs, in_lines, outputs_of, plainly, write_all

if TYPE_CHECKING:
    from circuitcheck.reports.trace_asking import Told

ABOUT = f"""\
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


def _add(parser: ArgumentParser) -> None:
    add_plan(parser)
    help = "a file with a story: how it begins, then one action a line"
    parser.add_argument("--story", type=Path, metavar="FILE", help=help)
    help = 'where things stand at first, like "S1 lower, deck at bottom"; several times'
    parser.add_argument("--begin", action="append", default=[], metavar="SETTINGS", help=help)
    help = 'an action, like "S1 raise"; several times, in order, after those of a story file'
    parser.add_argument("--do", action="append", default=[], metavar="ACTION", help=help)
    help = "instead of a story: the steps of the first finding of this check"
    parser.add_argument("--finding", metavar="CHECK", help=help)
    add_library(parser)
    add_outputs(parser, ("text", "svg", "json"))


def _run(options: Namespace) -> int:
    from circuitcheck.reports.trace_asking import asked_trace, finding_trace

    if options.finding and (options.story or options.begin or options.do):
        raise WrongCall("a finding has a story of its own: ask for --finding without --story, --begin and --do")
    outputs, plan, roots = outputs_of(options), Path(options.plan), tuple(options.library)
    if options.finding:
        told = finding_trace(plan, roots, options.finding)
    else:
        told = asked_trace(plan, roots, options.story, options.begin, options.do)
    write_all(options, outputs, lambda name: _writer(name, told))
    return FOUND if told.trace.broken_off else CLEAN


def _writer(name: str, told: "Told") -> Writer:
    from circuitcheck.reports.trace_json import trace_json
    from circuitcheck.reports.trace_svg import trace_svg
    from circuitcheck.reports.trace_text import trace_lines

    if name == "text":
        return in_lines(lambda width: trace_lines(told, width))
    return plainly({"svg": trace_svg, "json": trace_json}[name](told))


COMMAND = Command("walk a story and tell what follows, step by step", ABOUT, _add, _run)
