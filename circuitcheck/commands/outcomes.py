"""What `check` and `join` tell: the outcomes of plans in every format that is asked for, and the exit status."""

import sys
from argparse import ArgumentParser, Namespace
from collections.abc import Sequence
from importlib import import_module
from typing import TYPE_CHECKING

from circuitcheck.commands.command import CLEAN, FOUND, WRONG
from circuitcheck.commands.output import Output, Writer, add_outputs, in_lines, plainly, remark, write_all
from circuitcheck.reports.terminal import width_of

if TYPE_CHECKING:
    from circuitcheck.library.baseline import Met
    from circuitcheck.library.shards import Shard
    from circuitcheck.library.verdict import Outcome

FORMATS = ("text", "json", "sarif", "junit", "github", "gitlab", "markdown", "lines")
MOST_GONE = 10


def add_telling(parser: ArgumentParser) -> None:
    """What can be asked of the telling: a baseline, formats, colour."""
    help = "findings that stand in this file are known: they are told, but don't fail"
    parser.add_argument("--baseline", metavar="FILE", help=help)
    help = "write all findings into a baseline; from then on they are known"
    parser.add_argument("--write-baseline", metavar="FILE", help=help)
    add_outputs(parser, FORMATS)


def tell_outcomes(
    options: Namespace, outputs: list[Output], outcomes: "Sequence[Outcome]", shard: "Shard | None" = None
) -> int:
    """Tells them, and gives the exit status. shard: which part of a library they are."""
    outcomes = _against_baseline(options, outcomes)
    if "github" not in {output.format for output in outputs}:
        # That service takes commands from its log, where no line of a plan may stand then; annotations tell problems.
        _tell_problems(outcomes)
    write_all(options, outputs, lambda name: _writer(name, outcomes, shard))
    return _status(outcomes)


def _against_baseline(options: Namespace, outcomes: "Sequence[Outcome]") -> "Sequence[Outcome]":
    if options.baseline is None and options.write_baseline is None:
        return outcomes
    from circuitcheck.library.baseline import baseline_text, meet, read_baseline

    if options.baseline is not None:
        met = meet(outcomes, read_baseline(options.baseline))
        _tell_met(options.baseline, met)
        outcomes = met.outcomes
    if options.write_baseline is not None:
        with open(options.write_baseline, "w", encoding="utf-8", newline="\n") as file:
            file.write(baseline_text(outcomes))
        met = meet(outcomes, read_baseline(options.write_baseline))
        remark(f"Findings written to {options.write_baseline}: {met.known}.")
        outcomes = met.outcomes
    return outcomes


def _tell_met(file: str, met: "Met") -> None:
    remark(f"Findings known from {file}: {met.known}.")
    if met.gone:
        remark(f"Findings in it that are gone: {len(met.gone)}. --write-baseline {file} takes them out:")
        for entry in met.gone[:MOST_GONE]:
            remark(f"  {entry.check} in {entry.plan or 'a plan without a name'}: {entry.what}.")
        if len(met.gone) > MOST_GONE:
            remark(f"  and {len(met.gone) - MOST_GONE} more")


def _tell_problems(outcomes: "Sequence[Outcome]") -> None:
    from circuitcheck.library.verdict import Unexamined
    from circuitcheck.reports.problems import problems_text

    for outcome in outcomes:
        if isinstance(outcome, Unexamined):
            sys.stderr.write(problems_text(outcome.error, width_of(sys.stderr)) + "\n")


def _status(outcomes: "Sequence[Outcome]") -> int:
    """One plan without a verdict is enough for the whole call to have none."""
    from circuitcheck.library.verdict import Verdict

    verdicts = [one for one in outcomes if isinstance(one, Verdict)]
    if len(verdicts) < len(outcomes):
        return WRONG
    return FOUND if any(verdict.fails for verdict in verdicts) else CLEAN


def _writer(name: str, outcomes: "Sequence[Outcome]", shard: "Shard | None") -> Writer:
    if name == "json":
        from circuitcheck.reports.findings_json import findings_json

        return plainly(findings_json(outcomes, shard))
    if name == "text":
        from circuitcheck.reports.findings_text import findings_lines

        return in_lines(lambda width: findings_lines(outcomes, width))
    report = f"findings_{name}"
    return plainly(getattr(import_module(f"circuitcheck.reports.{report}"), report)(outcomes))
