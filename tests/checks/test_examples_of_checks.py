"""Every example on every check's page is a plan that gives what the page says, and nothing else."""

import re
from functools import cache
from textwrap import dedent

import pytest

from circuitcheck.analysis.facts import analyse
from circuitcheck.checks.check import Example, Finding
from circuitcheck.checks.registry import all_checks, run_checks
from circuitcheck.circuit.building import build_circuit
from circuitcheck.plan.reading import read_text

WRONG = [(one.check.name, example) for one in all_checks() for example in one.check.wrong]
RIGHT = [(one.check.name, example) for one in all_checks() for example in one.check.right]

Mark = tuple[int, str]
"""A line of the example, and the check that finds something there."""


@cache
def findings_of(example: Example) -> tuple[Finding, ...]:
    """What all checks together find in an example."""
    return run_checks(analyse(build_circuit(read_text("example.plan", dedent(example.plan)))), all_checks())


def marks_of(example: Example) -> list[Mark]:
    """The (line, check) pairs that the example's `#!` comments promise, in order."""
    lines = enumerate(dedent(example.plan).splitlines(), 1)
    return sorted((number, name) for number, line in lines for name in line.partition("#!")[2].split())


def shown(example: Example) -> list[Mark]:
    """Where findings above a note, and notes that the example marks, are."""
    marked = set(marks_of(example))
    found = [((finding.where[0].line, finding.check), finding.severity) for finding in findings_of(example)]
    return sorted(mark for mark, severity in found if severity != "note" or mark in marked)


def name_of(case: object) -> str:
    """An example's title, short enough for a test's name."""
    text = case.title if isinstance(case, Example) else str(case)
    return re.sub(r"\W+", "-", text)[:60]


@pytest.mark.parametrize(("check", "example"), WRONG, ids=name_of)
def test_a_wrong_example_gives_exactly_the_marked_findings(check: str, example: Example) -> None:
    """Each mark is a finding at that line, and there is no other above a note."""
    assert check in {name for _, name in marks_of(example)}
    assert shown(example) == marks_of(example), [finding.what for finding in findings_of(example)]


@pytest.mark.parametrize(("check", "example"), RIGHT, ids=name_of)
def test_a_right_example_gives_no_finding_above_a_note(check: str, example: Example) -> None:
    """And none at all of the check on whose page it stands."""
    assert marks_of(example) == []
    assert shown(example) == [], [finding.what for finding in findings_of(example)]
    assert check not in {finding.check for finding in findings_of(example)}


def test_every_example_of_every_check_is_among_those_that_run() -> None:
    """Counted by check, so that no page is left out unnoticed; no two examples of a page share a title."""
    for one in all_checks():
        titles = [example.title for example in (*one.check.wrong, *one.check.right)]
        assert len(set(titles)) == len(titles)
        assert titles == [example.title for name, example in (*WRONG, *RIGHT) if name == one.check.name]
