"""What every text is put through: it is read, built and examined, and its findings are told; some have more asked."""

import time
from contextlib import redirect_stderr, redirect_stdout
from io import StringIO
from pathlib import Path
from random import Random

from circuitcheck.arguments import read_arguments
from circuitcheck.commands.command import WrongCall
from circuitcheck.examination import Examination, examine_plan
from circuitcheck.library.verdict import Unexamined, verdict_of
from circuitcheck.plan.parsing import StatementParser
from circuitcheck.plan.reading import read_partly
from circuitcheck.plan.source import PlanError, Problem
from circuitcheck.plan.text import source_of_bytes
from circuitcheck.reports.findings_text import findings_lines
from circuitcheck.reports.problems import problems_text
from circuitcheck.reports.table_asking import Unanswerable
from circuitcheck.settings.amiss import LibraryAmiss
from tests.fuzzing.texts import FOLDER

MORE_ASKED = 0.01
ASKED = (
    *("table PLAN", "table --format json PLAN", "size PLAN", "motion PLAN", "ladder PLAN", "ladder --format svg PLAN"),
    *("page PLAN -o FOLDER/page.html", "tidy PLAN", "trace --do run PLAN", "check --no-cache --format sarif PLAN"),
    *("compare PLAN FOLDER/before.plan", "check --certificate FOLDER/c PLAN"),
)
"""Commands that take no longer than `check` does. `compare` has the plan asked before to compare with."""


def put_through(text: str, parser: StatementParser) -> str:
    """ "examined" or "refused"; anything else is raised."""
    examination = examined(text, parser)
    return "examined" if examination else "refused"


def examined(text: str, parser: StatementParser) -> Examination | None:
    """None where the text is refused; anything else is raised."""
    try:
        source = source_of_bytes("fuzzed.plan", text.encode("utf-8", "surrogatepass"))
        if isinstance(source, Problem):
            raise PlanError((source,), ())
        read = read_partly(
            source._replace(file=str(FOLDER / "right" / "fuzzed.plan")), (FOLDER,), parser, lambda _: None
        )
        if read.problems:
            raise PlanError(read.problems, read.plan.sources)
        examination = examine_plan(read.plan, time.perf_counter())
    except PlanError as error:
        if any("fits into memory" in problem.what for problem in error.problems):
            raise MemoryError from error
        problems_text(error, 80)
        findings_lines([Unexamined("fuzzed.plan", error)], 80)
        return None
    findings_lines([verdict_of(examination)], 80)
    return examination


def ask_more(text: str, chance: Random, folder: Path) -> None:
    """One more command, as if it were called with the text as a file in `folder`; what it must not raise is raised."""
    plan, before = folder / "fuzzed.plan", folder / "before.plan"
    if plan.exists():
        plan.replace(before)
    plan.write_text(text, encoding="utf-8")
    if not before.exists():
        before.write_text(text, encoding="utf-8")
    call = chance.choice(ASKED).replace("PLAN", str(plan)).replace("FOLDER", str(folder))
    command, options = read_arguments(call.split())
    with redirect_stdout(StringIO()), redirect_stderr(StringIO()):
        try:
            command.run(options)
        except (PlanError, WrongCall, LibraryAmiss, Unanswerable):
            return
