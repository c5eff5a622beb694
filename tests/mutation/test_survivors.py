"""The list of what no test notices names code that is there."""

import re
from pathlib import Path

import pytest

from tests.mutation.coming import TOP

LISTED = re.findall(
    r"^- `(.+?)` `(.+?)` (.+?): .+\.$",
    (Path(__file__).parent / "SURVIVORS.md").read_text(encoding="utf-8"),
    re.MULTILINE,
)


def test_every_survivor_is_told_with_its_file_its_code_its_change_and_why() -> None:
    """No line of the list is left out by the test below."""
    lines = (Path(__file__).parent / "SURVIVORS.md").read_text(encoding="utf-8").splitlines()
    assert len(LISTED) == sum(line.startswith("- ") for line in lines) > 0


@pytest.mark.parametrize(("file", "code"), sorted({(file, code) for file, code, _ in LISTED}))
def test_a_survivor_stands_in_its_file_as_it_is_listed(file: str, code: str) -> None:
    """Whoever changes that code looks again whether the tests now notice."""
    assert code in (TOP / "circuitcheck" / file).read_text(encoding="utf-8")
