"""Bench sheets that are kept word by word."""

from collections.abc import Callable
from pathlib import Path

from circuitcheck.reports.bench_asking import BenchReport, asked_sheet
from circuitcheck.reports.bench_formats import bench_json, bench_markdown
from circuitcheck.reports.bench_page import bench_page
from circuitcheck.reports.bench_text import bench_lines
from circuitcheck.reports.styled import plain_text
from tests.reports.faulty import HOIST, UNFUSED

FILE = Path("prop.plan")


def sheet() -> BenchReport:
    """Of the plan in FILE."""
    return asked_sheet(FILE, ())


def text(width: int) -> Callable[[], str]:
    """The sheet of so many columns."""
    return lambda: plain_text(bench_lines(sheet(), width))


BENCH_SHEETS: dict[str, tuple[str, Callable[[], str]]] = {
    "benchtest": (HOIST, text(80)),
    "benchtest_wide": (HOIST, text(140)),
    "benchtest_narrow": (UNFUSED, text(40)),
    "benchtest_markdown": (HOIST, lambda: bench_markdown(sheet())),
    "benchtest_html": (HOIST, lambda: bench_page(sheet())),
    "benchtest_json": (UNFUSED, lambda: bench_json(sheet())),
}
