"""Whatever is put before the verifier, it says in a line why it refuses it, and soon."""

from pathlib import Path
from typing import Any

import pytest

from circuitcheck.certificates import verifier
from circuitcheck.certificates.verifier import Refused, main, seal_of, verify
from circuitcheck.certificates.writing import certificate_of
from tests.certificates.test_certificates import EXAMPLES, as_read, example

PLAN = EXAMPLES / "right" / "dragon_wing.plan"
WRONG_VALUES: tuple[Any, ...] = (
    None,
    True,
    -1,
    1.5,
    10**30,
    "x",
    "",
    [],
    {},
    [[]],
    [{}],
    {"a": 1},
    [1],
    ["x"],
    "\ud800",
)


def certificate() -> dict[str, Any]:
    """A certificate of the dragon's wing."""
    found: dict[str, Any] = as_read(certificate_of(example(PLAN)))
    return found


@pytest.mark.parametrize(
    ("written", "said"),
    [
        ("", "is no JSON"),
        ("\0", "is no JSON"),
        ('{"version": ' + "9" * 5000 + "}", "is no JSON"),
        ("[" * 100_000, "it goes too deep"),
        ("{}", "an object should have just the fields"),
        ("[" + " " * (1 << 24) + "]", "is too large"),
    ],
    ids=["empty", "zeros", "huge number", "deep", "object", "long"],
)
def test_a_file_that_is_no_certificate_is_refused_in_a_line(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], written: str, said: str
) -> None:
    """Exit status 1."""
    file = tmp_path / "a.certificate"
    file.write_text(written, encoding="utf-8")
    assert main([str(PLAN), str(file)]) == 1
    told = capsys.readouterr().out
    assert told.startswith("refused: ")
    assert said in told
    assert told.count("\n") == 1


def test_files_that_cannot_be_read_are_named(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Of a plan that is not understood the first problem is told."""
    plan, nothing = tmp_path / "a.plan", str(tmp_path / "nothing")
    plan.write_text("relay K1 spdt\n", encoding="utf-8")
    for arguments, said in (
        ([str(PLAN), nothing], f"refused: {nothing} can't be read: No such file or directory\n"),
        ([str(PLAN), str(tmp_path)], f"refused: {tmp_path} can't be read: Is a directory\n"),
        ([str(tmp_path), nothing], f"refused: {tmp_path} is not understood: {tmp_path} is a folder\n"),
        ([str(plan), nothing], f"refused: {plan} is not understood: relay K1 has no `coil`\n"),
    ):
        assert main(arguments) == 1
        assert capsys.readouterr().out == said


def test_a_call_without_a_certificate_tells_what_to_name(capsys: pytest.CaptureFixture[str]) -> None:
    """Exit status 2, as for every wrong call."""
    for arguments in ([], [str(PLAN)]):
        assert main(arguments) == 2
        assert capsys.readouterr().err.startswith("name a plan, its certificate")


def test_anything_else_in_the_place_of_a_field_is_refused() -> None:
    """Sealed anew."""
    circuit, right = example(PLAN), certificate()
    entry = right["operation"][0]
    changed = [{**right, field: value} for field in right for value in WRONG_VALUES]
    changed += [
        {**right, "operation": [{**entry, field: value}, *right["operation"][1:]]}
        for field in entry
        for value in WRONG_VALUES
    ]
    for one in (one for one in changed if one not in (right, {**right, "operation": right["operation"]})):
        with pytest.raises(Refused):
            verify(circuit, {**one, "seal": seal_of(one)} if one["seal"] == right["seal"] else one)


def test_an_entry_that_stands_there_again_and_again_is_confirmed_but_twice() -> None:
    """Else a short file would take hours."""
    right = certificate()
    again = {**right, "operation": right["operation"] * 2000}
    with pytest.raises(Refused, match="claimed twice"):
        verify(example(PLAN), {**again, "seal": seal_of(again)})


def test_an_entry_that_takes_too_many_steps_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    """Here with few steps allowed, since those that are allowed take some seconds. None such is written."""
    right = certificate()
    for steps in (20, 300):
        monkeypatch.setattr(verifier, "MOST_STEPS", steps)
        with pytest.raises(Refused, match="too many steps"):
            verify(example(PLAN), right)
        assert len(certificate_of(example(PLAN))["without certificate"]) > len(right["without certificate"])
