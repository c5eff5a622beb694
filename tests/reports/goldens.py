"""Reports that are kept word by word, in golden/: the plan, and under it what is told of it.

`python -m tests.reports.goldens` writes them anew; read what it changed before you keep it.
"""

import os
import tempfile
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from io import StringIO
from pathlib import Path

from circuitcheck.checks.check import Check, Example
from circuitcheck.examination import examine
from circuitcheck.library.asking import Asked
from circuitcheck.library.verdict import Outcome, Verdict, verdict_of
from circuitcheck.library.workers import examine_one
from circuitcheck.reports import findings_lines as lines
from circuitcheck.reports.compare_asking import Compared, compared
from circuitcheck.reports.compare_formats import compare_json, compare_markdown
from circuitcheck.reports.compare_text import compare_lines
from circuitcheck.reports.explaining import page_lines
from circuitcheck.reports.findings_github import findings_github
from circuitcheck.reports.findings_gitlab import findings_gitlab
from circuitcheck.reports.findings_json import findings_json
from circuitcheck.reports.findings_junit import findings_junit
from circuitcheck.reports.findings_markdown import findings_markdown
from circuitcheck.reports.findings_sarif import sarif_log
from circuitcheck.reports.findings_text import findings_lines
from circuitcheck.reports.styled import plain_text
from circuitcheck.reports.table_asking import Table, asked_table
from circuitcheck.reports.table_formats import table_csv, table_json, table_markdown
from circuitcheck.reports.table_text import write_table
from tests.reports.benched import BENCH_SHEETS
from tests.reports.booked import BOOKS
from tests.reports.diagnosed import DIAGNOSES
from tests.reports.drawn import DRAWINGS
from tests.reports.faulty import FAULT_REPORTS
from tests.reports.laddered import LADDERS
from tests.reports.moved import MOTIONS
from tests.reports.paged import PAGE_DATA
from tests.reports.repaired import REPAIRS
from tests.reports.sized import SIZES
from tests.reports.traced import TRACES

GOLDEN = Path(__file__).parent / "golden"
FILE = Path("prop.plan")

WRONG = """\
plan Curtain "A switch that shorts, a motor that runs on"

supply PS 12 V 10 A
fuse   F1 5 A
switch S1 spst positions off on
switch S2 spdt positions open close
relay  K1 spdt coil 12 V 160 ohm
motor  M1 12 V stall 5 A
rung   PS.+, F1, S1, K1.A1-A2, PS.-
rung   F1.2, S2.com-open, K1.11-14, M1, PS.-
wire   S2.close PS.-
"""
RIGHT = """\
plan Lantern "A lamp in the trapdoor"

supply PS 12 V 10 A
fuse   F1 5 A
button PB1 no
lamp   L1 12 V 2 W
rung   PS.+, F1, PB1, L1, PS.-
"""
CURTAIN = """\
plan Curtain "Starts by one button, stops by the other"

supply PS 12 V 10 A
fuse   F1 5 A
button PB1 no
button PB2 nc
relay  K1 dpdt coil 12 V 160 ohm with diode
motor  M1 12 V stall 5 A
rung   PS.+, F1, PB2, ( PB1 | K1.11-14 ), K1.A1-A2, PS.-
rung   F1.2, K1.24
rung   K1.21, M1, PS.-
rung   K1.22, PS.-
"""
UNSEALED = (
    CURTAIN.replace("( PB1 | K1.11-14 )", "PB1")
    .replace("K1", "KA")
    .replace("motor  M1 12 V stall 5 A", "motor  M1 12 V stall 8 A\nlamp   L1 12 V 2 W")
    + "rung   KA.24, L1, PS.-\n"
)
"""The curtain without its seal-in, with a lamp, its relay under another name."""


CHECKS = tuple(
    Check(
        name=name,
        severity="error",
        finds=finds,
        proves="Nothing of the kind is there.",
        why="It burns, or it bites: neither is wanted on a stage.",
        how="Every combination is looked at, and every way through the closed contacts of each; none is left out.",
        remedy="Take away what joins the two, or put something between them that can stand the current.",
        limits="What a contact touches while it travels is not looked at.",
        wrong=(
            Example("a lantern shorted by its switch", "\n    lamp L1 12 V 2 W   #! supply-short\n    # so it is\n"),
        ),
        right=(Example("the same lantern without it", "\n    lamp L1 12 V 2 W\n"),),
    )
    for name, finds in (
        ("supply-short", "Conductors alone join + and − of a supply, or two supplies of different voltage."),
        (
            "missing-flyback",
            "A coil with nothing straight across it that takes its spike. It may also be there in vain.",
        ),
        ("unbraked-stop", "A motor that runs on."),
    )
)
"""Checks with words of their own, so that better words in a check's page change no report here."""


def findings(width: int) -> Callable[[], str]:
    """The text report of so many columns."""
    return lambda: plain_text(findings_lines([verdict()], width))


def several() -> str:
    """The text report of a wrong plan, one in which nothing was found, and one whose findings are accepted or known."""
    wrong = verdict()
    first, *others = wrong.findings
    told = (first._replace(accepted="it is only the rehearsal box"), *(one._replace(known=True) for one in others))
    outcomes = [wrong, wrong._replace(file="clean.plan", findings=()), wrong._replace(file="old.plan", findings=told)]
    return plain_text(findings_lines(outcomes, 80))


def table(width: int | None) -> Callable[[], str]:
    """The truth table as text."""

    def write() -> str:
        stream = StringIO()
        write_table(asked(), stream, width, False)
        return stream.getvalue()

    return write


def page(check: Check, width: int) -> str:
    """A check's page. It has no plan but its own."""
    return plain_text(page_lines(check, width))


def verdict() -> Verdict:
    """What CHECKS find in the plan in FILE, with their words; it always takes a hundredth of a second."""
    whole = examine(FILE)
    own = {check.name: check for check in CHECKS}
    findings = tuple(
        one._replace(why=own[one.check].why, remedy=own[one.check].remedy) for one in whole.findings if one.check in own
    )
    return verdict_of(whole._replace(checks=CHECKS, findings=findings, seconds=0.01))


def slip() -> Outcome:
    """A plan that can't be understood."""
    Path("slip.plan").write_text("supply PS 12 V\nrelay K1 spdt coil 12\n", encoding="utf-8")
    return examine_one(Asked("slip.plan"))


def asked() -> Table:
    """The whole table of the plan in FILE."""
    return asked_table(FILE, (), (), ())


def comparison(after: str) -> Compared:
    """What the plan in FILE became, with the findings of CHECKS only."""
    Path("changed.plan").write_text(after, encoding="utf-8")
    found = compared(str(FILE), "changed.plan", ())
    own = {check.name for check in CHECKS}
    came, went = (tuple(one for one in findings if one.check in own) for findings in (found.came, found.went))
    return found._replace(came=came, went=went)


def compare(after: str, width: int) -> Callable[[], str]:
    """The comparison of so many columns."""
    return lambda: plain_text(compare_lines(comparison(after), width))


REPORTS: dict[str, tuple[str, Callable[[], str]]] = {
    "findings": (WRONG, findings(80)),
    "findings_wide": (WRONG, findings(140)),
    "findings_narrow": (WRONG, findings(40)),
    "findings_of_a_right_plan": (RIGHT, findings(80)),
    "findings_of_a_right_plan_narrow": (RIGHT, findings(40)),
    "findings_of_several": (WRONG, several),
    "findings_json": (WRONG, lambda: findings_json([verdict()])),
    "findings_lines": (WRONG, lambda: lines.findings_lines([verdict(), slip()])),
    "findings_github": (WRONG, lambda: findings_github([verdict(), slip()])),
    "findings_gitlab": (WRONG, lambda: findings_gitlab([verdict(), slip()])),
    "findings_junit": (WRONG, lambda: findings_junit([verdict(), slip()])),
    "findings_markdown": (WRONG, lambda: findings_markdown([verdict(), slip()])),
    "findings_sarif": (WRONG, lambda: sarif_log([verdict(), slip()], CHECKS)),
    "table": (CURTAIN, table(None)),
    "table_narrow": (CURTAIN, table(40)),
    "table_csv": (CURTAIN, lambda: table_csv(asked())),
    "table_markdown": (CURTAIN, lambda: table_markdown(asked())),
    "table_json": (CURTAIN, lambda: table_json(asked())),
    **TRACES,
    **MOTIONS,
    **SIZES,
    **FAULT_REPORTS,
    **REPAIRS,
    **BENCH_SHEETS,
    **DIAGNOSES,
    **PAGE_DATA,
    **BOOKS,
    **LADDERS,
    **DRAWINGS,
    "compare": (CURTAIN, compare(UNSEALED, 100)),
    "compare_narrow": (CURTAIN, compare(UNSEALED, 40)),
    "compare_renamed": (CURTAIN, compare(CURTAIN.replace("K1", "KA"), 80)),
    "compare_markdown": (CURTAIN, lambda: compare_markdown(comparison(UNSEALED))),
    "compare_json": (CURTAIN, lambda: compare_json(comparison(UNSEALED))),
    "page_of_a_check": ("", lambda: page(CHECKS[0], 80)),
    "page_of_a_check_narrow": ("", lambda: page(CHECKS[0], 40)),
}
"""Each with the plan that it is about."""


def golden_text(name: str) -> str:
    """The plan and its report, as they stand in the golden file."""
    plan, report = REPORTS[name]
    with elsewhere():
        FILE.write_text(plan, encoding="utf-8")
        return f"{plan}{'=' * 40}\n{report()}" if plan else report()


@contextmanager
def elsewhere() -> Iterator[None]:
    """In an empty folder, so that reports name the plan and not the way to it."""
    before = os.getcwd()
    with tempfile.TemporaryDirectory() as folder:
        os.chdir(folder)
        try:
            yield
        finally:
            os.chdir(before)


if __name__ == "__main__":
    GOLDEN.mkdir(exist_ok=True)
    for report_name in REPORTS:
        (GOLDEN / f"{report_name}.txt").write_text(golden_text(report_name), encoding="utf-8")
