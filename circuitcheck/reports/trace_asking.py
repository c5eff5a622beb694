"""From what somebody asks of a trace, in words, to the trace."""

from collections.abc import Sequence
from pathlib import Path
from typing import NamedTuple

from circuitcheck.analysis.at_work import AtWork, at_work
from circuitcheck.analysis.facts import Facts, analyse
from circuitcheck.analysis.tracing import Trace, trace_moves, trace_plot
from circuitcheck.checks.narration import FAULT
from circuitcheck.checks.reading_back import read_back
from circuitcheck.checks.registry import Registered, all_checks, run_checks
from circuitcheck.circuit.building import build_circuit
from circuitcheck.circuit.stories import understand_story
from circuitcheck.circuit.wording import name_and_title, suggestion
from circuitcheck.examination import exactly, read_input
from circuitcheck.plan.story_lines import read_story
from circuitcheck.reports.table_asking import Unanswerable


class Told(NamedTuple):
    """What the outputs lay out. name: the plan's, its file's where it has none; title: with what it does.

    shown: what is at work after each step of the trace.
    """

    file: str
    name: str
    title: str
    trace: Trace
    shown: tuple[AtWork, ...]


def asked_trace(
    path: Path, roots: tuple[Path, ...], story: Path | None, beginnings: Sequence[str], actions: Sequence[str]
) -> Told:
    """The trace of a story in a plan. Raises PlanError where either can't be understood."""
    plan = read_input(path, roots)
    circuit = build_circuit(plan)
    plot = understand_story(circuit, read_story(story, beginnings, actions))
    facts = exactly(plan, circuit, lambda: analyse(circuit))
    return exactly(plan, circuit, lambda: told(facts, trace_plot(facts, plot)))


def finding_trace(path: Path, roots: tuple[Path, ...], check: str) -> Told:
    """The steps of the first finding of a check that has any. Raises Unanswerable where there is none; PlanError as for
    any plan."""
    checks = {one.check.name: one for one in all_checks()}
    if check not in checks:
        raise Unanswerable(f"no check {check}. {suggestion(check, checks)}")
    plan = read_input(path, roots)
    circuit = build_circuit(plan)
    facts = exactly(plan, circuit, lambda: analyse(circuit))
    return exactly(plan, circuit, lambda: _told_of_finding(facts, checks[check]))


def _told_of_finding(facts: Facts, check: Registered) -> Told:
    findings = run_checks(facts, (check,))
    if not findings:
        raise Unanswerable(f"{check.check.name} finds nothing in {facts.circuit.file}.")
    finding = next((one for one in findings if one.steps), None)
    if finding is None:
        raise Unanswerable(f"{check.check.name} finds something that has no steps: {findings[0].what}.")
    if any(step.startswith(FAULT) for step in finding.steps):
        raise Unanswerable(f"the steps of {check.check.name} go through a fault, and a trace follows the sound box.")
    beginning, changes = read_back(facts.circuit, finding.steps)
    moves = [one for one in changes if one]
    return told(facts, trace_moves(facts.circuit, facts.shorted, beginning, moves))._replace(title=f"{finding.what}.")


def told(facts: Facts, trace: Trace) -> Told:
    """A trace with what is at work at each of its steps."""
    circuit = facts.circuit
    name, title = name_and_title(circuit)
    return Told(circuit.file, name, title, trace, tuple(at_work(facts, step.state) for step in trace.steps))
