"""From a plan to its build book."""

from pathlib import Path
from typing import NamedTuple

from circuitcheck.analysis.doing import Tell, nobody
from circuitcheck.analysis.facts import analyse
from circuitcheck.circuit.building import build_circuit
from circuitcheck.examination import exactly, read_input
from circuitcheck.paper.book import Book, build_book
from circuitcheck.plan.source import PlanError
from circuitcheck.reports.bench_asking import BenchReport, sheet_of


class BookReport(NamedTuple):
    """What the pages lay out. name: the plan's, its file's where it has none; title: with what it does.

    bench: None where the bench sheet has no exact answer, and why not in `no_bench`."""

    file: str
    name: str
    title: str
    book: Book
    bench: BenchReport | None
    no_bench: str = ""


def asked_book(path: Path, roots: tuple[Path, ...], tell: Tell = nobody) -> BookReport:
    """The build book of a plan. Raises PlanError where it can't be understood or has no exact answer."""
    plan = read_input(path, roots)
    circuit = build_circuit(plan)

    book = exactly(plan, circuit, lambda: build_book(analyse(circuit)))
    name = circuit.name or Path(plan.file).stem
    report = BookReport(plan.file, name, f"{name}: {circuit.label}" if circuit.label else name, book, None)
    try:
        return report._replace(bench=sheet_of(plan, circuit, tell))
    except PlanError as error:
        return report._replace(no_bench=error.problems[0].what)
