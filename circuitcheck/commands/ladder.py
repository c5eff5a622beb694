"""`circuitcheck ladder`: the circuit redrawn as a ladder."""

from argparse import ArgumentParser, Namespace
from pathlib import Path
from typing import TYPE_CHECKING

from circuitcheck.commands.command import CAUTIONS, CLEAN, Command, add_library, add_plan
from circuitcheck.commands.output import Writer, add_outputs, in_lines, outputs_of, plainly, progress, write_all

if TYPE_CHECKING:
    from circuitcheck.reports.ladder_asking import Redrawn

ABOUT = f"""\
Redraws the circuit as a ladder: one rung for each load, a + rail at the left,
a − rail at the right, and between them every contact, fuse and diode through
which current can come to the load. It is drawn from the network of all wires,
so it shows what they do and not what was meant. A way that feeds a load
through other loads or back through a contact, and a way past all loads, is a
rung of its own, marked SNEAK PATH or SHORT. A motor has a way for each
direction, and one for each loop that shorts it on itself. What is neither
series nor parallel is drawn as a bridge between named points.

examples:
  circuitcheck ladder drawbridge.plan
  circuitcheck ladder drawbridge.plan --state "S1=raise, deck=top"
                                         what conducts then, relays at rest
  circuitcheck ladder drawbridge.plan --format svg=ladder.svg

symbols (IEC 61131-3 in text, IEC 60617 in drawings; (M) and the like are ours):
  -| |-  -|/|-   a contact that makes, that breaks    -( )-  a relay's coil
  -(M)-  motor   -(X)-  lamp   -(B)-  buzzer   -[Y]-  solenoid
  -[-]-  fuse    -[ ]-  resistor   ->|-  diode   -o  a net by name

exit status:
  0  the ladder was drawn
  2  the plan or the state can't be read or has no exact answer, or the call is
     wrong

{CAUTIONS}"""


def _add(parser: ArgumentParser) -> None:
    add_plan(parser)
    help = 'light what conducts with things standing so, like "S1=raise, deck=top"; relays follow where none is named'
    parser.add_argument("--state", metavar="SETTINGS", help=help)
    add_library(parser)
    add_outputs(parser, ("text", "svg"))


def _run(options: Namespace) -> int:
    from circuitcheck.reports.ladder_asking import asked_ladder

    outputs = outputs_of(options)
    with progress() as doing:
        doing(options.plan)
        redrawn = asked_ladder(Path(options.plan), tuple(options.library), options.state)
    write_all(options, outputs, lambda name: _writer(name, redrawn))
    return CLEAN


def _writer(name: str, redrawn: "Redrawn") -> Writer:
    if name == "svg":
        from circuitcheck.reports.ladder_svg import ladder_svg

        return plainly(ladder_svg(redrawn))
    from circuitcheck.reports.ladder_text import ladder_lines

    return in_lines(lambda width: ladder_lines(redrawn, width))


COMMAND = Command("redraw the circuit as a ladder", ABOUT, _add, _run)
