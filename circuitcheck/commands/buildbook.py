"""`circuitcheck buildbook`: everything that a box is soldered, tested and used from, on paper."""

from argparse import ArgumentParser, Namespace
from pathlib import Path
from typing import TYPE_CHECKING

from circuitcheck.commands.command import (
    CAUTIONS,
    CLEAN,
    Command,
    WrongCall,
    add_library,
    add_plan,
)
from circuitcheck.commands.output import progress, remark

if TYPE_CHECKING:
    from circuitcheck.reports.book_asking import BookReport

ABOUT = f"""\
Writes the build book of a plan into a folder. book.html is the whole of it, to
be printed on A4 or Letter: parts list, ladder, wiring drawing (where pygraphviz
is installed), cut list, wire list in soldering order with boxes to tick,
terminal strips, connectors pin by pin, labels, bench test, the fuse card for
the lid, and a card for whoever borrows the prop: what each control does, what
to do in trouble, what never to do. Cards, labels and bench test come as pages
of their own as well, and each list as CSV.

The bench test of a large box takes minutes; all else is written before it.

The wire list goes from the inside outward, so that no terminal gets buried,
and warns where three wires or more would end at one terminal.

examples:
  circuitcheck buildbook drawbridge.plan -o drawbridge-book
  circuitcheck buildbook --library parts curtain.plan -o book

exit status:
  0  the book was written
  2  the plan can't be read or has no exact answer, the folder can't be
     written, or the call is wrong

{CAUTIONS}"""


def _add(parser: ArgumentParser) -> None:
    add_plan(parser)
    help = "the folder for the book; made where it isn't there, pages of an earlier book are overwritten"
    parser.add_argument("-o", "--output", required=True, metavar="FOLDER", help=help)
    add_library(parser)


def _run(options: Namespace) -> int:
    from circuitcheck.reports.book_asking import asked_book, with_bench

    folder = Path(options.output)
    if not options.output:
        raise WrongCall("the book's folder has no name; name one like -o drawbridge-book")
    with progress() as doing:
        doing(options.plan)
        report = asked_book(Path(options.plan), tuple(options.library))
        # Whoever can't wait for the bench sheet of a large box has everything else already.
        _write(folder, report)
        report = with_bench(report, doing)
    _write(folder, report)
    for crowd in report.book.crowds:
        remark(f"{crowd.terminal}: {len(crowd.wires)} wires in one terminal")
    remark(f"The book is written: {folder / 'book.html'}")
    return CLEAN


def _write(folder: Path, report: "BookReport") -> None:
    from circuitcheck.reports.book_csv import book_lists
    from circuitcheck.reports.book_pages import book_pages

    pages, lists = book_pages(report), book_lists(report.book)
    if not (folder / "book.html").exists():
        # A list of such a name that belongs to no book is somebody's own.
        theirs = next((name for name in (*pages, *lists) if (folder / name).exists()), None)
        if theirs:
            raise WrongCall(f"{folder} holds {theirs}, and no book that it belongs to; name another folder")
    try:
        folder.mkdir(parents=True, exist_ok=True)
        for name, text in pages.items():
            (folder / name).write_text(text, encoding="utf-8", errors="replace", newline="\n")
        for name, text in lists.items():
            # With its mark at the head, spreadsheets read the list as UTF-8, mm² included.
            (folder / name).write_text(text, encoding="utf-8-sig", errors="replace", newline="\n")
    except OSError as error:
        raise WrongCall(f"{folder} can't be written: {(error.strerror or str(error)).lower()}") from None


COMMAND = Command("write the book that a box is soldered, tested and used from", ABOUT, _add, _run)
