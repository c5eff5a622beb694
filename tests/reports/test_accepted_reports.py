"""What commands tell of the examples, as it was accepted."""

import pytest

from tests.reports.acceptance import ACCEPTED, texts
from tests.test_examples import EXAMPLES

TEXTS = texts()


@pytest.mark.parametrize("name", TEXTS)
def test_a_command_tells_of_an_example_what_was_accepted(name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """`python -m tests.reports.acceptance` writes it anew."""
    monkeypatch.chdir(EXAMPLES)
    assert TEXTS[name]() == (ACCEPTED / f"{name}.txt").read_text(encoding="utf-8")


def test_no_accepted_report_is_left_over() -> None:
    """What is no longer told takes its file along."""
    assert {file.stem for file in ACCEPTED.iterdir()} == set(TEXTS)
