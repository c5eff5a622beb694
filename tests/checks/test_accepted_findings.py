"""What is found in every example, to the last state."""

from pathlib import Path

import pytest

from circuitcheck.checks.registry import all_checks
from tests.checks.acceptance import ACCEPTED, page_text, plan_text
from tests.test_examples import WRONG

CHECKS = [one.check.name for one in all_checks()]


@pytest.mark.parametrize("check", CHECKS)
def test_the_examples_of_a_page_show_what_was_accepted(check: str) -> None:
    """Parts, states, ways, steps and orders; `python -m tests.checks.acceptance` writes them anew."""
    assert page_text(check) == (ACCEPTED / f"{check}.txt").read_text(encoding="utf-8")


@pytest.mark.parametrize("path", WRONG, ids=lambda path: path.stem)
def test_a_wrong_plan_shows_what_was_accepted(path: Path) -> None:
    """The same of the plans of examples/wrong."""
    assert plan_text(path) == (ACCEPTED / f"{path.stem}.txt").read_text(encoding="utf-8")


def test_nothing_accepted_is_left_over() -> None:
    """What is gone takes its file along."""
    assert {file.stem for file in ACCEPTED.iterdir()} == {*CHECKS, *(path.stem for path in WRONG)}
