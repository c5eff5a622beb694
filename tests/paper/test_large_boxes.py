"""A book of a box that is too large to be asked everything at once."""

import pytest

from circuitcheck.analysis.facts import analyse
from circuitcheck.circuit.building import build_circuit
from circuitcheck.paper.book import Book, build_book
from circuitcheck.plan.reading import read_text
from circuitcheck.reports.book_csv import book_lists
from tests.benchmarks.bench_sheets import reversers
from tests.benchmarks.panels import panel


def book_of(plan: str) -> Book:
    """The book of a plan's text."""
    return build_book(analyse(build_circuit(read_text("box.plan", plan))))


def test_each_motor_of_a_large_box_is_told_by_a_truth_table_of_its_own() -> None:
    """Six reversers have more combinations together than can be counted; each by itself has few."""
    card = book_of(reversers(6)).card
    assert card is not None
    assert len(card.handled) == 12


@pytest.mark.slow
def test_motors_behind_one_stop_are_told_one_by_one() -> None:
    """Five motors on one bus have no sizes, but a card, and each fuse tells what goes dead with it."""
    book = book_of(panel(5))
    assert book.card is not None
    assert [one.doing.word for one in book.card.handled].count("forward") == 5
    assert {still.words for stop in book.card.stops for still in stop.pressed} == {frozenset({"braked"})}
    feeds = {fuse.name: fuse.feeds for fuse in book.fuses}
    assert feeds["F3"] == ("KR3", "KD3", "M3")
    assert {"K0", "H0", "M1", "M5"} <= {*feeds["F0"]}


@pytest.mark.slow
def test_what_is_soldered_is_listed_whatever_else_is_out_of_reach() -> None:
    """Every wire, and every list."""
    book = book_of(panel(5))
    assert {"wires.csv", "parts.csv", "fuses.csv"} <= book_lists(book).keys()
    assert len(book.wires.lines) == len(book.circuit.wires)
