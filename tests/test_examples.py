"""The plans of examples/: the right ones are clean, the wrong ones show what they name and nothing else."""

import re
from collections import Counter
from functools import cache
from pathlib import Path

import pytest

from circuitcheck.analysis.facts import Facts, analyse
from circuitcheck.analysis.resting import following
from circuitcheck.analysis.travel import back_and_forth, ends_of, is_ever_brought_to
from circuitcheck.checks.check import Finding
from circuitcheck.checks.registry import all_checks, run_checks
from circuitcheck.circuit.building import build_circuit
from circuitcheck.plan.reading import read_plan

EXAMPLES = Path(__file__).parent.parent / "examples"
RIGHT = sorted((EXAMPLES / "right").glob("*.plan"))
WRONG = sorted((EXAMPLES / "wrong").glob("*.plan"))
PARTS = sorted((EXAMPLES / "parts").glob("*.plan"))

SHOWS = re.compile(r"# Shows((?: [a-z]+(?:-[a-z]+)*)*): \S.*\.$")
"""The first line of every example: the checks that find something, none in a right one, and what is to be seen."""
MARK = re.compile(r"#! (.*)$")


@cache
def facts_of(path: Path) -> Facts:
    """The example analysed, as `check` with the folder of shared parts declared would."""
    return analyse(build_circuit(read_plan(path, (EXAMPLES / "parts",))))


@cache
def findings_of(path: Path) -> tuple[Finding, ...]:
    """What all checks together find, notes left out."""
    return tuple(one for one in run_checks(facts_of(path), all_checks()) if one.severity != "note")


def marked(path: Path) -> Counter[tuple[str, int]]:
    """Check and line of each finding that the plan's own marks announce."""
    lines = enumerate(path.read_text(encoding="utf-8").splitlines(), 1)
    return Counter((name, number) for number, line in lines if (mark := MARK.search(line)) for name in mark[1].split())


def named(path: Path) -> set[str]:
    """The checks that the plan's first line names."""
    shows = SHOWS.match(path.read_text(encoding="utf-8").splitlines()[0])
    assert shows, f"{path.name} doesn't say in its first line what it shows"
    return set(shows[1].split())


@pytest.mark.parametrize("path", RIGHT, ids=lambda path: path.stem)
def test_a_right_plan_gives_nothing_above_a_note(path: Path) -> None:
    """It says what it shows, promises something, and every check passes it."""
    assert named(path) == set()
    assert facts_of(path).circuit.promises
    assert [(one.check, one.where[0].line, one.what) for one in findings_of(path)] == []


@pytest.mark.parametrize("path", WRONG, ids=lambda path: path.stem)
def test_a_wrong_plan_gives_exactly_the_findings_it_marks(path: Path) -> None:
    """Each at its line, no other above a note; the first line names the same checks."""
    found = Counter((one.check, one.where[0].line) for one in findings_of(path))
    assert found == marked(path)
    assert {check for check, _ in found} == named(path) != set()


def test_there_are_enough_examples_of_both_kinds() -> None:
    """At least eight right ones and twelve wrong ones."""
    assert len(RIGHT) >= 8
    assert len(WRONG) >= 12


def test_every_plan_among_the_examples_is_tested() -> None:
    """None lies anywhere but in right, wrong or parts."""
    assert sorted(EXAMPLES.rglob("*.plan")) == sorted([*RIGHT, *WRONG, *PARTS])


def test_every_shared_file_is_used_by_a_right_plan() -> None:
    """A part type that nothing uses is tested by nothing."""
    used = {source.file for path in RIGHT for source in read_plan(path, (EXAMPLES / "parts",)).sources}
    assert {Path(file).resolve() for file in used} >= {path.resolve() for path in PARTS}


def test_every_check_is_shown_by_a_wrong_plan() -> None:
    """Whoever wants to see what a check is about finds an example of it."""
    assert {one.check.name for one in all_checks()} == set().union(*map(named, WRONG))


def deck_moves_when_raised_from_the_middle(path: Path) -> set[tuple[str, str]]:
    """Each (from, to) that the deck moves once S1 is told to raise, and no control is touched any more."""
    facts = facts_of(path)
    digits = facts.circuit.digits
    numbers = {digit.name: number for number, digit in enumerate(digits)}
    deck = numbers["deck"]
    behaviour = facts.behaviour({deck})
    told = behaviour.reached & behaviour.rest
    for name, value in (("PS", "on"), ("K3", "operated"), ("S1", "raise"), ("deck", "between bottom and top")):
        told &= behaviour.space.where(numbers[name], (digits[numbers[name]].values.index(value),))
    assert told
    by_itself = [step for step in behaviour.steps if digits[step.digit].kind in ("relay", "axis")]
    after = following(behaviour.space, by_itself, told)
    places = digits[deck].values
    return {(places[step.start], places[step.end]) for step in by_itself if step.digit == deck and after & step.allowed}


def test_a_shared_coil_wire_lowers_the_deck_that_is_told_to_raise() -> None:
    """From the middle it goes down, hunts at the bottom, and nothing ever brings it to the top."""
    wrong = EXAMPLES / "wrong" / "drawbridge_feeds_back.plan"
    middle = "between bottom and top"
    assert deck_moves_when_raised_from_the_middle(wrong) == {(middle, "bottom"), ("bottom", middle)}
    top = next(end for end in ends_of(facts_of(wrong)) if end.place == "top")
    assert not is_ever_brought_to(facts_of(wrong), top)
    assert back_and_forth(facts_of(wrong), top.axis)


def test_steering_diodes_let_the_deck_rise_to_the_top_and_stay_there() -> None:
    """The same plan with D1 and D2: from the middle it goes up, and no further."""
    right = EXAMPLES / "right" / "drawbridge.plan"
    assert deck_moves_when_raised_from_the_middle(right) == {("between bottom and top", "top")}
    assert not back_and_forth(facts_of(right), 0)
