"""Ladders for the tests of their reports, and those that are kept word by word."""

from collections.abc import Callable
from pathlib import Path

from circuitcheck.reports.ladder_asking import Redrawn, asked_ladder
from circuitcheck.reports.ladder_svg import ladder_svg
from circuitcheck.reports.ladder_text import ladder_lines
from circuitcheck.reports.styled import plain_text

FILE = Path("prop.plan")

DECK = """\
plan Deck "Raises & lowers the deck <slowly>"

supply PS 12 V 10 A
fuse   F1 7.5 A
estop  ES1 nc
switch S1 spdt positions raise off lower
relay  K1 K2 spdt coil 12 V 160 ohm with diode "<up> & down"
axis   deck from bottom to top
limit  LS1 nc on deck at top
limit  LS2 nc on deck at bottom
lamp   L1 12 V 2 W
motor  M1 12 V stall 8 A drives deck toward top

rung   PS.+, F1, ES1, S1.com
rung   S1.raise, LS1, K1.A1-A2, PS.-
rung   S1.lower, LS2, K2.A1-A2, PS.-
rung   ES1.12, K1.14
rung   ES1.12, K2.14
rung   K1.12, PS.-
rung   K2.12, PS.-
rung   K1.11, M1, K2.11
rung   S1.raise, L1, PS.-
"""
LANTERN = """\
plan Lantern "A lamp in a bridge, one through another, one back through a contact, and a short"

supply PS 12 V 10 A
fuse   F1 3 A
switch S1 S2 S3 S4 S5 S6 spst positions off on
switch S7 spdt positions left off right
button LS1 LS2 nc
relay  K1 K2 no coil 12 V 160 ohm with diode
lamp   L1 L2 L3 12 V 2 W
lamp   L4 12 V 5 W
splice N1 N2 N3
rung   PS.+, F1
rung   F1.2, S1, N1
rung   F1.2, S2, N2
rung   N1, S3, N2
rung   N1, S4, N3
rung   N2, S5, N3
rung   N3, L1, PS.-
rung   F1.2, K1.13-14, L2, L3, PS.-
rung   F1.2, S7.com
rung   S7.left, LS1, K1.A1-A2, PS.-
rung   S7.right, LS2, K1.A1
rung   S7.right, K2.A1-A2, PS.-
rung   F1.2, K2.13-14, L4, PS.-
rung   N3, S6, PS.-
"""
"""A bridge, loads in series, a sneak and a short."""


def drawn(state: str | None) -> Redrawn:
    """The ladder of the plan in FILE."""
    return asked_ladder(FILE, (), state)


def ladder(width: int, state: str | None = None) -> Callable[[], str]:
    """The text of so many columns."""
    return lambda: plain_text(ladder_lines(drawn(state), width))


LADDERS: dict[str, tuple[str, Callable[[], str]]] = {
    "ladder": (DECK, ladder(80)),
    "ladder_lit": (DECK, ladder(80, "S1=raise")),
    "ladder_narrow": (DECK, ladder(40)),
    "ladder_of_a_bridge": (LANTERN, ladder(80)),
    "ladder_of_a_bridge_wide": (LANTERN, ladder(140, "S1=on, S5=on, S3=on")),
    "ladder_svg": (DECK, lambda: ladder_svg(drawn("S1=raise"))),
    "ladder_of_a_bridge_svg": (LANTERN, lambda: ladder_svg(drawn(None))),
}
