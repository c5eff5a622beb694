"""`circuitcheck motion`: how far motors turn on when they stop."""

from argparse import ArgumentParser, Namespace
from pathlib import Path
from typing import TYPE_CHECKING

from circuitcheck.commands.command import CAUTIONS, CLEAN, FOUND, Command, WrongCall, add_library, add_plan
from circuitcheck.commands.output import (
    Writer,
    add_outputs,
    as_bytes,
    in_lines,
    outputs_of,
    plainly,
    progress,
    write_all,
)

if TYPE_CHECKING:
    from circuitcheck.reports.motion_asking import Moved

ABOUT = f"""\
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
  1  a stop does not fit, or hangs on the figures' range, or a motor's load
     holds it fast
  2  the plan can't be read or has no exact answer, or the call is wrong

{CAUTIONS}"""


def _add(parser: ArgumentParser) -> None:
    add_plan(parser)
    help = "only this motor; several times"
    parser.add_argument("--motor", action="append", default=[], metavar="NAME", help=help)
    add_library(parser)
    add_outputs(parser, ("text", "svg", "png", "json"))


def _run(options: Namespace) -> int:
    from circuitcheck.reports.motion_asking import asked_motion

    outputs = outputs_of(options)
    with progress() as doing:
        doing(options.plan)
        moved = asked_motion(Path(options.plan), tuple(options.library), options.motor)
    write_all(options, outputs, lambda name: _writer(name, moved))
    return CLEAN if moved.fits else FOUND


def _writer(name: str, moved: "Moved") -> Writer:
    if name == "json":
        from circuitcheck.reports.motion_json import motion_json

        return plainly(motion_json(moved))
    if name == "svg":
        from circuitcheck.reports.motion_svg import motion_svg

        return plainly(motion_svg(moved))
    if name == "png":
        return as_bytes(_png(moved))
    from circuitcheck.reports.motion_text import motion_lines

    return in_lines(lambda width: motion_lines(moved, width))


def _png(moved: "Moved") -> bytes:
    from circuitcheck.reports.motion_png import motion_png

    try:
        return motion_png(moved)
    except ImportError:
        raise WrongCall(
            "a PNG is drawn by matplotlib, which isn't installed: pip install 'circuitcheck[plots]', or ask for svg"
        ) from None


COMMAND = Command("tell how far motors turn on when they stop", ABOUT, _add, _run)
