"""Motions for the tests of their reports, and those that are kept word by word."""

from collections.abc import Callable
from pathlib import Path

from circuitcheck.reports.motion_asking import Moved, asked_motion
from circuitcheck.reports.motion_json import motion_json
from circuitcheck.reports.motion_svg import motion_svg
from circuitcheck.reports.motion_text import motion_lines
from circuitcheck.reports.styled import plain_text

FILE = Path("prop.plan")

DECK = """\
plan Deck "Raises & lowers the deck <slowly>"

supply PS 12 V 10 A internal 50 mohm
fuse   F1 10 A
switch S1 spdt positions raise off lower
relay  K1 K2 spdt coil 12 V 160 ohm with diode release 2..5 ms, 20 ms with diode
axis   deck from bottom to top, 70 deg, inertia 0.3 kg m2, gravity 2 N m, overtravel 16 deg
limit  LS1 nc on deck at top
limit  LS2 nc on deck at bottom
motor  M1 12 V stall 18..20 A 20 N m free 1.5 A 40 rpm rotor 900 g cm2 gear 60:1 drives deck toward top

rung   PS.+, F1, S1.com
rung   S1.raise, LS1, K1.A1-A2, PS.-
rung   S1.lower, LS2, K2.A1-A2, PS.-
rung   F1.2, K1.14-11
rung   F1.2, K2.14-11
rung   K1.12, PS.-
rung   K2.12, PS.-
wire   K1.11 M1.+ : 1.5 mm2 blue 2 m
wire   K2.11 M1.- : 1.5 mm2 white 2 m
"""
DRUM = """\
plan Shutter

supply PS 12 V 10 A
fuse   F1 7.5 A
switch S1 spst positions off run
relay  K1 spdt coil 12 V 90 ohm with diode
axis   drum turning through park half
cam    CS1 spdt 15 deg on drum at park
motor  M1 12 V free 45 rpm coasts 100..130 deg brakes in 6..8 deg drives drum toward half
rung   PS.+, F1, ( S1 | CS1.com-nc ), K1.A1-A2, PS.-
rung   F1.2, K1.14-11, M1, PS.-
wire   K1.12 PS.-
"""
CURTAIN = """\
plan Curtain "Opens the curtain, with no figures of its motor"

supply PS 24 V 5 A
fuse   F1 5 A
switch S1 dpdt positions open off shut
axis   curtain from shut to apart, 2.4 m, drum 60 mm, overtravel 30 mm
limit  LS1 nc on curtain at apart
limit  LS2 nc on curtain at shut
motor  M1 24 V stall 9 A drives curtain toward apart may coast
rung   PS.+, F1, S1.com1
rung   S1.open1, LS1, M1, S1.open2
rung   S1.shut1, LS2, M1.-
rung   S1.shut2, M1.+
wire   S1.com2 PS.-
"""
ENDLESS = CURTAIN.replace("overtravel 30 mm", "overtravel 30 mm, inertia 0.1 kg m2, gravity 8..9 N m").replace(
    "stall 9 A", "stall 9 A free 0.8 A 40 rpm rotor 900 g cm2 gear 60:1"
)
"""A curtain whose weight is more than friction holds: it coasts for ever."""


def moved() -> Moved:
    """The motion of all motors of the plan in FILE."""
    return asked_motion(FILE, (), ())


def text(width: int) -> Callable[[], str]:
    """The text report of so many columns."""
    return lambda: plain_text(motion_lines(moved(), width))


MOTIONS: dict[str, tuple[str, Callable[[], str]]] = {
    "motion": (DECK, text(80)),
    "motion_wide": (DECK, text(140)),
    "motion_narrow": (DECK, text(40)),
    "motion_json": (DECK, lambda: motion_json(moved())),
    "motion_svg": (DECK, lambda: motion_svg(moved())),
    "motion_of_a_drum": (DRUM, text(80)),
    "motion_without_figures": (CURTAIN, text(80)),
    "motion_without_end": (ENDLESS, text(80)),
}
