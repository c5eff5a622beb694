"""Reads plans for the tests of this folder and gives back what is told about them."""

from pathlib import Path

from circuitcheck.plan.reading import read_plan, read_text
from circuitcheck.plan.source import PlanError, Problem
from circuitcheck.plan.syntax import Statement


def statement(text: str) -> Statement:
    """The one statement of a plan."""
    (only,) = read_text("drawbridge.plan", text).statements
    return only


def problems_of(text: str) -> tuple[Problem, ...]:
    """What is wrong with a plan, () if nothing is."""
    try:
        read_text("drawbridge.plan", text)
    except PlanError as error:
        return error.problems
    return ()


def problems_in(path: Path, roots: tuple[Path, ...] = ()) -> tuple[Problem, ...]:
    """What is wrong with the plan in a file, () if nothing is."""
    try:
        read_plan(path, roots)
    except PlanError as error:
        return error.problems
    return ()
