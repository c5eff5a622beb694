"""Findings for other programs; `findings.schema.json` beside this file says what they can rely on.

Plans that have no verdict stand in "problems", which is there only when there are any, so that a bad plan never hides
what is known of the others. The same plans give the same bytes, but for "seconds".
"""

import json
from collections.abc import Sequence
from typing import Any

from circuitcheck.checks.check import Finding
from circuitcheck.examination import Examination, Unexamined
from circuitcheck.plan.source import Place, Problem

SCHEMA = "circuitcheck/1"


def findings_json(outcomes: Sequence[Examination | Unexamined]) -> str:
    """The whole report, ending in a line end. Signs outside ASCII are escaped, so that any encoding carries it."""
    report: dict[str, Any] = {
        "schema": SCHEMA,
        "plans": [_plan(one) for one in outcomes if isinstance(one, Examination)],
    }
    problems = [_problem(problem) for one in outcomes if isinstance(one, Unexamined) for problem in one.error.problems]
    if problems:
        report["problems"] = problems
    return json.dumps(report, indent=2) + "\n"


def _plan(examination: Examination) -> dict[str, Any]:
    return {
        "file": examination.plan.file,
        "name": examination.circuit.name,
        "combinations": examination.counts.combinations,
        "reachable": examination.counts.reachable,
        "settled": examination.counts.settled,
        "seconds": round(examination.seconds, 3),
        "findings": [_finding(finding) for finding in examination.findings],
    }


def _finding(finding: Finding) -> dict[str, Any]:
    return {
        "check": finding.check,
        "severity": finding.severity,
        "reached": finding.reached,
        "what": finding.what,
        "parts": list(finding.parts),
        "where": [_place(place) for place in finding.where],
        "example": finding.example,
        "path": list(finding.path),
        "steps": list(finding.steps),
        "orders": [{"quicker": one.quicker, "steps": list(one.steps), "ends": one.ends} for one in finding.orders],
        "count": finding.seen,
        "of": finding.of,
        "why": finding.why,
        "remedy": finding.remedy,
    }


def _place(place: Place) -> dict[str, Any]:
    return dict(zip(("file", "line", "column", "end_line", "end_column"), place, strict=True))


def _problem(problem: Problem) -> dict[str, Any]:
    also = [_place(place) | {"what": sentence} for place, sentence in problem.also]
    return _place(problem.place) | {"what": problem.what, "help": problem.help, "also": also}
