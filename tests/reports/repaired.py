"""Golden reports of `repair`: one remedy that changes nothing of what the prop does, one that has to be asked for."""

from collections.abc import Callable
from functools import partial
from pathlib import Path

from circuitcheck.examination import examine
from circuitcheck.plan.reading import read_text
from circuitcheck.remedies.repairing import Offer, repaired
from circuitcheck.reports.repair_text import repair_lines
from circuitcheck.reports.styled import plain_text

FILE = Path("prop.plan")

LATCHES = """\
plan Trapdoor "Two latches, one bare, one with its diode the wrong way round"

supply PS 12 V 10 A
fuse   F1 5 A
button PB1 PB2 no
solenoid Y1 Y2 12 V 12 ohm
diode  D1
rung   PS.+, F1, PB1, Y1, PS.-
rung   F1.2, PB2, Y2, PS.-
rung   Y1.1, D1, Y1.2
"""
LANTERN = """\
plan Lantern "Nothing to put right"

supply PS 12 V 10 A
fuse   F1 5 A
button PB1 no
lamp   L1 12 V 2 W
rung   PS.+, F1, PB1, L1, PS.-
"""


def _offers() -> tuple[Offer, ...]:
    return repaired(examine(FILE), partial(read_text, str(FILE)), frozenset())


def repair(width: int) -> Callable[[], str]:
    """The report of so many columns."""
    return lambda: plain_text(repair_lines(str(FILE), _offers(), False, width))


REPAIRS = {
    "repair": (LATCHES, repair(80)),
    "repair_wide": (LATCHES, repair(140)),
    "repair_of_a_right_plan": (LANTERN, repair(80)),
}
