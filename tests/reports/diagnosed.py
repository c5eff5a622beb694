"""Diagnoses that are kept word by word."""

from collections.abc import Callable
from pathlib import Path

from circuitcheck.reports.diagnose_asking import Case, begun
from circuitcheck.reports.diagnose_text import diagnosis_json, diagnosis_lines
from circuitcheck.reports.styled import plain_text
from tests.reports.faulty import HOIST

FILE = Path("prop.plan")
SEEN = "M1 dead when hold UP, lantern between floor and beam"


def case(*seen: str) -> Case:
    """Of the plan in FILE."""
    return begun(FILE, (), seen)


def text(width: int) -> Callable[[], str]:
    """The diagnosis of so many columns."""
    return lambda: plain_text(diagnosis_lines(case(SEEN).diagnosis, width))


DIAGNOSES: dict[str, tuple[str, Callable[[], str]]] = {
    "diagnose": (HOIST, text(80)),
    "diagnose_wide": (HOIST, text(140)),
    "diagnose_narrow": (HOIST, text(40)),
    "diagnose_json": (HOIST, lambda: diagnosis_json(case("F1 blows when hold UP, LS1 free").diagnosis)),
}
