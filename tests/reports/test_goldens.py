"""Every report, word by word."""

import pytest

from tests.reports.goldens import GOLDEN, REPORTS, golden_text


@pytest.mark.parametrize("name", REPORTS)
def test_a_report_reads_as_it_was_accepted(name: str) -> None:
    """Plan and report are as in the golden file; `python -m tests.reports.goldens` writes them anew."""
    assert golden_text(name) == (GOLDEN / f"{name}.txt").read_text(encoding="utf-8")


def test_no_golden_file_is_left_over() -> None:
    """A report that is gone takes its golden file along."""
    assert {file.stem for file in GOLDEN.iterdir()} == set(REPORTS)
