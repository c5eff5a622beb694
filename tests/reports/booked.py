"""Build books that are kept word by word."""

from pathlib import Path

from circuitcheck.reports.book_asking import BookReport, asked_book, with_bench
from circuitcheck.reports.book_csv import book_lists
from circuitcheck.reports.book_pages import book_pages

FILE = Path("prop.plan")

TOUR = """\
plan Tour "A <small> drawbridge & its lantern"

supply PS 12 V 10 A internal 50 mohm
fuse   F1 5 A blade "feed"
estop  ES1 nc 16 A 30 V
switch S1 spdt momentary positions raise off lower
relay  K1 K2 spdt coil 12 V 160 ohm with diode contacts 10 A 30 V
connector J1 4 ways 10 A "box to deck"
strip  X1 3 ways 16 A "in the deck"
axis   deck from bottom to top, 60 deg
limit  LS1 nc 5 A 30 V on deck at top
motor  M1 12 V stall 4 A free 0.5 A 30 rpm drives deck toward top
lamp   L1 12 V 2 W "=deck moving"
wire   PS.+ F1.1 : 1 mm2 red 0.3 m w7
wire   F1.2 ES1.11 : 1 mm2 red 0.2 m
wire   ES1.12 K1.14 : 1 mm2 red
wire   ES1.12 K2.14 : 1 mm2 red 0.2 m
wire   ES1.12 S1.com
rung   S1.raise, J1.p1
rung   S1.lower, K2.A1-A2, PS.-
rung   K1.A1, J1.p2
rung   K1.A2, PS.-
wire   K1.12 PS.- : 1 mm2 black 0.2 m
wire   K2.12 PS.- : 1 mm2 black 0.2 m
wire   K1.11 J1.p3 : 1 mm2 blue 0.2 m
wire   K2.11 J1.p4 : 1 mm2 white 0.2 m
rung   J1.s1, LS1.com-nc, J1.s2
wire   J1.s3 X1.1 : 1 mm2 blue 2 m
wire   J1.s4 X1.2 : 1 mm2 white 2 m
rung   X1.1, M1, X1.2
rung   X1.1, L1, X1.2
"""
"""Something of everything: a plug, a strip, unknown lengths, a crowd, names that pages and spreadsheets mistake."""


def book() -> BookReport:
    """Of the plan in FILE."""
    return with_bench(asked_book(FILE, ()))


def lists() -> str:
    """Every list under the name of its file."""
    return "\n".join(f"{name}\n{text}" for name, text in book_lists(book().book).items())


BOOKS = {
    "buildbook": (TOUR, lambda: book_pages(book())["book.html"]),
    "buildbook_operating_card": (TOUR, lambda: book_pages(book())["operating-card.html"]),
    "buildbook_lists": (TOUR, lists),
}
