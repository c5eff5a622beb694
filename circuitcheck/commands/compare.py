"""`circuitcheck compare`: two versions of a plan."""

from argparse import ArgumentParser, Namespace
from typing import TYPE_CHECKING

from circuitcheck.commands.command import CAUTIONS, CLEAN, FOUND, Command, add_library
from circuitcheck.commands.output import Writer, add_outputs, in_lines, outputs_of, plainly, progress, write_all

if TYPE_CHECKING:
    from circuitcheck.reports.compare_asking import Compared

ABOUT = f"""\
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


def _add(parser: ArgumentParser) -> None:
    parser.add_argument("old", metavar="OLD", help="a plan, REVISION:PATH, or - for one that is piped in")
    parser.add_argument("new", metavar="NEW", help="the same plan, changed")
    add_library(parser)
    add_outputs(parser, ("text", "markdown", "json"))


def _run(options: Namespace) -> int:
    from circuitcheck.reports.compare_asking import compared

    outputs = outputs_of(options)
    with progress() as doing:
        doing(f"{options.old} and {options.new}")
        found = compared(options.old, options.new, tuple(options.library))
    write_all(options, outputs, lambda name: _writer(name, found))
    return CLEAN if found.comparison.same else FOUND


def _writer(name: str, found: "Compared") -> Writer:
    from circuitcheck.reports.compare_formats import compare_json, compare_markdown
    from circuitcheck.reports.compare_text import compare_lines

    if name == "text":
        return in_lines(lambda width: compare_lines(found, width))
    return plainly({"markdown": compare_markdown, "json": compare_json}[name](found))


COMMAND = Command("tell what a change does to the behaviour", ABOUT, _add, _run)
