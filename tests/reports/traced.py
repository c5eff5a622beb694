"""Traces for the tests of their reports, and those that are kept word by word."""

from collections.abc import Callable
from pathlib import Path

from circuitcheck.reports.styled import plain_text
from circuitcheck.reports.trace_asking import Told, asked_trace, finding_trace
from circuitcheck.reports.trace_json import trace_json
from circuitcheck.reports.trace_svg import trace_svg
from circuitcheck.reports.trace_text import trace_lines

FILE = Path("prop.plan")

DECK = """\
plan Deck "Raises & lowers the deck <slowly>"

supply PS 12 V 10 A
fuse   F1 7.5 A
switch S1 spdt positions raise off lower
relay  K1 K2 spdt coil 12 V 160 ohm with diode
lamp   L1 12 V 2 W
axis   deck from bottom to top
limit  LS1 nc on deck at top
limit  LS2 nc on deck at bottom
motor  M1 12 V stall 8 A drives deck toward top

rung   PS.+, F1, S1.com
rung   S1.raise, LS1, K1.A1-A2, PS.-
rung   S1.lower, LS2, K2.A1-A2, PS.-
rung   F1.2, K1.14-11, M1.+
rung   F1.2, K2.14-11, M1.-
rung   K1.12, PS.-
rung   K2.12, PS.-
rung   K1.11, L1, PS.-
"""
RAISED = ("S1 raise", "deck to top", "S1 lower", "run deck 1 zone", "PS off")
SHORTED = """\
plan Lantern

supply PS 12 V 10 A
fuse   F1 5 A
button PB1 no
button PB2 no
lamp   L1 12 V 2 W
rung   PS.+, F1, PB1, L1, PS.-
rung   PB1.14, PB2, PS.-
"""


def traced(begin: str, *actions: str) -> Told:
    """The story walked in the plan in FILE."""
    return asked_trace(FILE, (), None, [begin] if begin else [], actions)


def raised() -> Told:
    """The deck raised, and stopped on its way down by a power failure."""
    return traced("S1 off, deck at bottom", *RAISED)


def shorted() -> Told:
    """A story that ends in a short, with an action left."""
    return traced("", "press PB1", "press PB2", "release PB1")


def text(told: Callable[[], Told], width: int) -> Callable[[], str]:
    """The text report of so many columns."""
    return lambda: plain_text(trace_lines(told(), width))


TRACES: dict[str, tuple[str, Callable[[], str]]] = {
    "trace": (DECK, text(raised, 80)),
    "trace_wide": (DECK, text(raised, 140)),
    "trace_narrow": (DECK, text(raised, 40)),
    "trace_svg": (DECK, lambda: trace_svg(raised())),
    "trace_json": (DECK, lambda: trace_json(raised())),
    "trace_of_a_short": (SHORTED, text(shorted, 80)),
    "trace_of_a_finding": (SHORTED, text(lambda: finding_trace(FILE, (), "supply-short"), 80)),
}
