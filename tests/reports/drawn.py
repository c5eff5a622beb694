"""The wiring drawing that is kept word by word."""

from collections.abc import Callable
from pathlib import Path

from circuitcheck.reports.drawing_asking import Drawn, asked_drawing
from circuitcheck.reports.drawing_svg import drawing_svg

FILE = Path("prop.plan")

DECK = """\
plan Deck "Raises & lowers the deck <slowly>"

conditions wire 0.75 mm2 0.5 m
supply PS 12 V 10 A
fuse   F1 7.5 A
switch S1 spdt positions raise off lower
relay  K1 K2 spdt coil 12 V 160 ohm with diode "<up> & down"
axis   deck from bottom to top
limit  LS1 nc on deck at top
limit  LS2 nc on deck at bottom
motor  M1 12 V stall 8 A drives deck toward top

wire   PS.+ F1.1 : 1.5 mm2 red
wire   K1.11 M1.+ : 16 AWG green/yellow w7
wire   K2.11 M1.- : 1.5 mm2 white
rung   F1.2, S1.com
rung   S1.raise, LS1, K1.A1-A2, PS.-
rung   S1.lower, LS2, K2.A1-A2, PS.-
rung   F1.2, K1.14
rung   F1.2, K2.14
rung   K1.12, PS.-
rung   K2.12, PS.-
"""
SHORTED = DECK + "wire S1.raise PS.-\n"


def drawn(state: str | None) -> Drawn:
    """The drawing of the plan in FILE."""
    return asked_drawing(FILE, (), state)


DRAWINGS: dict[str, tuple[str, Callable[[], str]]] = {
    "drawing_svg": (DECK, lambda: drawing_svg(*drawn("S1=raise"))),
}
