"""A build book as pages that stand alone and print on A4 or Letter.

`book.html` is the whole book, each list on a sheet of its own. What leaves the workshop by itself comes by itself too:
the card for the lid, the labels, the sheet for the bench, the card for whoever borrows the prop.
"""

from collections.abc import Iterable
from functools import partial
from pathlib import Path
from typing import Final, NamedTuple

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from markupsafe import Markup

from circuitcheck.paper.cut_list import SPARE_METRES, cut_metres
from circuitcheck.reports.bench_page import bench_body
from circuitcheck.reports.book_asking import BookReport
from circuitcheck.reports.book_csv import book_lists
from circuitcheck.reports.book_words import (
    UNKNOWN,
    crowd_words,
    end_words,
    feeds_words,
    fuse_verdict,
    item_names,
    item_remark,
    metres,
    replacement_words,
    strip_title,
    titled_steps,
    wire_words,
)
from circuitcheck.reports.card_asking import card_report
from circuitcheck.reports.cautions import CAUTION
from circuitcheck.reports.problems import printable

FOLDER: Final = Path(__file__).parent / "book"
FILTERS: Final = (
    crowd_words, cut_metres, end_words, fuse_verdict, item_names, item_remark, metres, replacement_words, strip_title,
    wire_words,
)  # fmt: skip
"""What templates call lists' words by; each by its own name."""


class Section(NamedTuple):
    """name: of its template and its anchor. about: a few words for the contents."""

    name: str
    title: str
    about: str


SECTIONS: Final = (
    Section("parts", "Parts list", "what to buy"),
    Section("ladder", "Ladder", "what makes what move"),
    Section("wiring", "Wiring drawing", "what is joined to what"),
    Section("cuts", "Cut list", "how long each wire is"),
    Section("wires", "Wire list", "what is soldered where, in order"),
    Section("strips", "Terminal strips and splices", "where wires meet"),
    Section("pins", "Connectors", "which wire at which pin"),
    Section("labels", "Labels", "two for each wire, one for each part"),
    Section("bench", "Bench test", "what to measure before it is used"),
    Section("fuses", "Fuse card", "for the lid"),
    Section("card", "Operating card", "for whoever works it"),
)
"""In the order in which they are needed."""
ALONE: Final = {"labels": "labels.html", "bench": "bench-test.html", "fuses": "fuse-card.html",
                "card": "operating-card.html"}  # fmt: skip


def book_pages(report: BookReport) -> dict[str, str]:
    """The text of each page by the name of its file. They load nothing and run nothing."""
    sections = [one for one in SECTIONS if _filled(report, one.name)]
    pages = {"book.html": _page(report, sections, contents=True)}
    for one in sections:
        if one.name in ALONE:
            pages[ALONE[one.name]] = _page(report, [one], contents=False)
    return pages


def _filled(report: BookReport, name: str) -> bool:
    """Is there anything to tell? A prop without connectors has no pin-outs."""
    book = report.book
    return {"strips": bool(book.strips), "pins": bool(book.pin_outs), "fuses": bool(book.fuses)}.get(name, True)


def _page(report: BookReport, sections: Iterable[Section], contents: bool) -> str:
    book, circuit = report.book, report.book.circuit
    return _environment().get_template("page.html.j2").render(
        sections=sections, contents=contents, report=report, book=book,
        style=Markup((FOLDER / "book.css").read_text(encoding="utf-8")),
        lists=book_lists(book), caution=CAUTION, unknown=UNKNOWN, spare=f"{100 * SPARE_METRES:g} cm",
        steps=titled_steps(circuit, book.wires), feeds=partial(feeds_words, circuit),
        bench=Markup(bench_body(report.bench)) if report.bench else "",
        card=card_report(circuit, book.card) if book.card else None,
    )  # fmt: skip


def _environment() -> Environment:
    """Everything that comes from a plan is escaped, and what would act upon a screen is replaced."""
    environment = Environment(
        loader=FileSystemLoader(FOLDER), autoescape=True, undefined=StrictUndefined, finalize=_shown,
        trim_blocks=True, lstrip_blocks=True, keep_trailing_newline=True,
    )  # fmt: skip
    environment.filters.update({one.__name__: one for one in FILTERS})
    environment.filters["markup"] = Markup
    return environment


def _shown(value: object) -> object:
    return printable(value) if isinstance(value, str) and not isinstance(value, Markup) else value
