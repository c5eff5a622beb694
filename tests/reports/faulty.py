"""Reports on faults that are kept word by word."""

from collections.abc import Callable
from pathlib import Path

from circuitcheck.reports.faults_asking import FaultReport, asked_faults
from circuitcheck.reports.faults_formats import faults_json, faults_markdown
from circuitcheck.reports.faults_text import faults_lines
from circuitcheck.reports.styled import plain_text

FILE = Path("prop.plan")

HOIST = """\
plan Hoist "Lifts the lantern <slowly>"

supply PS 12 V 10 A
fuse   F1 5 A
estop  ES1 nc
button UP no
relay  K1 spdt coil 12 V 160 ohm with diode
axis   lantern from floor to beam
limit  LS1 nc on lantern at beam
motor  M1 12 V stall 5 A drives lantern toward beam
rung   PS.+, F1, ES1, UP, LS1, K1.A1-A2, PS.-
rung   ES1.12, K1.14-11, M1, PS.-
rung   K1.12, PS.-
"""
UNFUSED = """\
plan Bell

supply PS 12 V 10 A
button PB1 no
strip  X1 2 ways
buzzer BZ1 12 V 0.02 A
rung   PS.+, PB1, X1.1, BZ1, X1.2, PS.-
"""


def report(pairs: bool = False) -> FaultReport:
    """On the plan in FILE."""
    return asked_faults(FILE, (), pairs)


def text(width: int) -> Callable[[], str]:
    """The report of so many columns."""
    return lambda: plain_text(faults_lines(report(), width))


FAULT_REPORTS: dict[str, tuple[str, Callable[[], str]]] = {
    "faults": (HOIST, text(80)),
    "faults_wide": (HOIST, text(140)),
    "faults_narrow": (HOIST, text(40)),
    "faults_markdown": (HOIST, lambda: faults_markdown(report(pairs=True))),
    "faults_json": (UNFUSED, lambda: faults_json(report())),
}
