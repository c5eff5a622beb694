"""From a plan to its build book."""

from pathlib import Path
from typing import NamedTuple

from circuitcheck.analysis.doing import Tell, nobody
from circuitcheck.analysis.facts import analyse
from circuitcheck.circuit.building import build_circuit
from circuitcheck.circuit.wording import name_and_title
from circuitcheck.examination import exactly, read_input
from circuitcheck.paper.book import Book, build_book
from circuitcheck.plan.source import PlanError
from circuitcheck.plan.syntax import Plan
from circuitcheck.reports.bench_asking import BenchReport, sheet_of
from circuitcheck.reports.book_pictures import Pictures, book_pictures

NOT_YET = "it was not worked out yet when this page was written"


class BookReport(NamedTuple):
    """What the pages lay out. name: the plan's, its file's where it has none; title: with what it does.

    bench: None where there is no bench sheet, and why not in `no_bench`."""

    plan: Plan
    name: str
    title: str
    book: Book
    pictures: Pictures
    bench: BenchReport | None = None
    no_bench: str = NOT_YET


def asked_book(path: Path, roots: tuple[Path, ...]) -> BookReport:
    """The build book of a plan, still without its bench sheet, which may take minutes for a large box.

    Raises PlanError where the plan can't be understood or has no exact answer."""
    plan = read_input(path, roots)
    circuit = build_circuit(plan)
    facts = exactly(plan, circuit, lambda: analyse(circuit))
    book = exactly(plan, circuit, lambda: build_book(facts))
    pictures = exactly(plan, circuit, lambda: book_pictures(facts))
    return BookReport(plan, *name_and_title(circuit), book, pictures)


def with_bench(report: BookReport, tell: Tell = nobody) -> BookReport:
    """The same with its bench sheet, or why there is none."""
    try:
        return report._replace(bench=sheet_of(report.plan, report.book.circuit, tell), no_bench="")
    except PlanError as error:
        return report._replace(no_bench=error.problems[0].what)
