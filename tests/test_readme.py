"""What the README says is so: its table of checks, its plan, its commands."""

import re
from pathlib import Path

from circuitcheck.analysis.facts import analyse
from circuitcheck.checks.registry import all_checks, run_checks
from circuitcheck.circuit.building import build_circuit
from circuitcheck.cli import main
from circuitcheck.plan.reading import read_text

README = Path(__file__).parent.parent / "README.md"


def table_of_checks() -> str:
    """The table as it must stand in the README."""
    rows = [f"| `{one.check.name}` | {one.check.finds} |" for one in all_checks()]
    return "\n".join(["| check | finds |", "| --- | --- |", *rows])


def test_the_table_of_checks_is_that_of_the_checks_themselves() -> None:
    """Whoever reads the README sees every check, in the check's own words."""
    assert table_of_checks() in README.read_text(encoding="utf-8"), f"put this into README.md:\n{table_of_checks()}"


def test_the_plan_in_the_readme_is_wrong_in_the_way_that_it_says() -> None:
    """Told to raise, the deck goes down, and never gets to the top."""
    plan = re.findall(r"^```\n(plan .*?)^```", README.read_text(encoding="utf-8"), re.S | re.M)[0]
    findings = run_checks(analyse(build_circuit(read_text("drawbridge.plan", plan))), all_checks())
    assert [finding.what for finding in findings if finding.check == "hunting-axis"] == [
        "No setting of the controls ever brings deck to top",
        "deck turns back and forth by itself with PS on, S1 raise, K1 operated, K2 released, deck at bottom",
    ]


def test_the_examples_named_in_the_readme_exist() -> None:
    """A path that a reader is sent to leads somewhere."""
    named = re.findall(r"examples/[\w/]+\.plan", README.read_text(encoding="utf-8"))
    assert named
    assert [name for name in named if not (README.parent / name).is_file()] == []


def test_the_first_command_of_the_readme_finds_nothing_wrong() -> None:
    """The quick start ends well."""
    named = re.findall(r"circuitcheck check (examples\S+)", README.read_text(encoding="utf-8"))
    assert [main(["check", str(README.parent / name)]) for name in named] == [0]
