"""A plan with something of everything that sizing tells, and its golden reports."""

from collections.abc import Callable
from pathlib import Path

from circuitcheck.reports.size_asking import asked_sizes, wire_asked
from circuitcheck.reports.size_explaining import explained_json, explained_lines
from circuitcheck.reports.size_json import size_json
from circuitcheck.reports.size_text import size_lines
from circuitcheck.reports.styled import plain_text

FILE = Path("prop.plan")
LANTERN = """\
plan Lantern "Lowers the lantern into the trapdoor, and lights it"

conditions ambient 5..35 °C, bundled 4 wires
supply PS 12 V 10 A internal 50 mohm
fuse   F1 10 A
fuse   F2 1 A cartridge slow
switch S1 spst positions off on 5 A 30 V
relay  K1 spdt coil 12 V 160 ohm 0.9 H contacts 16 A 30 V
diode  D1 1 A 100 V
resistor R1 100 ohm 1 W
lamp   L1 12 V 2 W
motor  M1 12 V stall 9 A free 1 A 40 rpm
wire   PS.+ F1.1   : 1.5 mm2 red 0.2 m w1
wire   F1.2 K1.14  : 16 AWG red 0.3 m w2
wire   K1.11 M1.+  : 0.75 mm2 blue 2 m w3
wire   M1.- PS.-   : 0.75 mm2 black 2 m w4
wire   K1.12 PS.-  : 1.5 mm2 black 0.3 m w5
wire   F1.2 F2.1   : 1.5 mm2 red 0.2 m w6
wire   F2.2 S1.com : 0.5 mm2 orange 0.3 m w7
rung   S1.on, K1.A1-A2, PS.-
rung   K1.A2, D1, K1.A1
rung   S1.on, R1, L1, PS.-
"""


def sizes(width: int) -> Callable[[], str]:
    """The text report of so many columns."""
    return lambda: plain_text(size_lines(asked_sizes(FILE, ()), width))


def explained(wire: str, width: int) -> Callable[[], str]:
    """The arithmetic of a wire."""

    def write() -> str:
        found = asked_sizes(FILE, ())
        return plain_text(explained_lines(found, wire_asked(found, wire), width))

    return write


def as_json() -> str:
    """All sizes for other programs."""
    return size_json(asked_sizes(FILE, ()))


def explained_as_json() -> str:
    """The arithmetic of the motor's wire for other programs."""
    found = asked_sizes(FILE, ())
    return explained_json(found, wire_asked(found, "w3"))


SIZES: dict[str, tuple[str, Callable[[], str]]] = {
    "sizes": (LANTERN, sizes(80)),
    "sizes_wide": (LANTERN, sizes(140)),
    "sizes_narrow": (LANTERN, sizes(40)),
    "sizes_json": (LANTERN, as_json),
    "size_explained": (LANTERN, explained("w3", 80)),
    "size_explained_wide": (LANTERN, explained("PS.--M1.-", 140)),
    "size_explained_json": (LANTERN, explained_as_json),
}
"""Each with the plan that it is about."""
