"""`circuitcheck drawing`: the wiring drawing."""

from argparse import ArgumentParser, Namespace
from pathlib import Path

from circuitcheck.commands.command import CAUTIONS, CLEAN, Command, WrongCall, add_library, add_plan
from circuitcheck.commands.output import Output, add_outputs, outputs_of, plainly, progress, write_all

INSTALL = "pip install 'circuitcheck[drawings]'"
ABOUT = f"""\
Draws the wiring as it is soldered: each part as a box with its terminals
and what joins them inside, each wire from terminal to terminal with its
number, colour and gauge. Laid out by Graphviz so that current runs from left
to right and wires seldom cross; no label lies on anything else. A supply's +
stands at the left, its − at the right.

examples:
  circuitcheck drawing drawbridge.plan --format svg=drawbridge.svg
  circuitcheck drawing drawbridge.plan --state "S1=raise, K3=operated" > on.svg

Any browser shows and prints the SVG, on one sheet. It needs no colour: each
wire's colour is written beside it.

--state lights what carries current: whole bands where something is fed, long
dashes where a motor is braked, hatched ones for a short. What it doesn't name
takes its usual place: supplies on, controls and axes at their first position,
relays wherever they then come to rest. Without it nothing is switched on.

Wires to which the plan gives no number get one: w1, w2 and so on.

exit status:
  0  it was drawn
  2  the plan can't be read or has no exact answer, the call is wrong, or
     pygraphviz isn't there: {INSTALL}

{CAUTIONS}"""


def _add(parser: ArgumentParser) -> None:
    add_plan(parser)
    help = 'where things stand, like "S1=raise, deck=top"; relays not named come to rest by themselves'
    parser.add_argument("--state", metavar="STATE", help=help)
    add_library(parser)
    add_outputs(parser, ("svg",))


def _run(options: Namespace) -> int:
    from circuitcheck.reports.drawing_asking import asked_drawing
    from circuitcheck.reports.drawing_svg import drawing_svg

    outputs = outputs_of(options) if options.format else [Output("svg", "")]
    with progress() as doing:
        doing(options.plan)
        try:
            drawn = asked_drawing(Path(options.plan), tuple(options.library), options.state)
        except ImportError:
            raise WrongCall(f"a wiring drawing is laid out by pygraphviz, which isn't installed: {INSTALL}") from None
    write_all(options, outputs, lambda _name: plainly(drawing_svg(*drawn)))
    return CLEAN


COMMAND = Command("draw the wiring: parts, terminals, and every wire with its colour", ABOUT, _add, _run)
