"""Findings that a plan accepts, with a reason."""

import json
from pathlib import Path

import pytest

from circuitcheck.checks.check import Finding
from circuitcheck.cli import main
from circuitcheck.examination import examine
from circuitcheck.plan.source import PlanError
from tests.library.plans import WRONG, write

ACCEPT = 'accept unbraked-stop on M1 because "a gong swings out anyway"\n'


def findings(text: str, off: tuple[str, ...] = ()) -> list[Finding]:
    """What is found in the plan that this text is."""
    return list(examine(write("gong.plan", text), off=off).findings)


def problem(text: str) -> str:
    """What keeps the plan from being read."""
    with pytest.raises(PlanError) as told:
        findings(text)
    (only,) = told.value.problems
    return f"{only.place.line}:{only.place.column} {only.what}. {only.help}"


def test_an_accepted_finding_is_told_with_its_reason_and_does_not_fail(capsys: pytest.CaptureFixture[str]) -> None:
    """In the text in one line, in the JSON as a whole."""
    write("gong.plan", WRONG + ACCEPT)
    assert main(["check", "--fail-on", "note", "gong.plan"]) == 0
    text = capsys.readouterr().out
    assert "gong.plan: 1 accepted." in text
    assert "accepted    unbraked-stop on M1: a gong swings out anyway\n" in text
    main(["check", "--format", "json", "gong.plan"])
    (finding,) = json.loads(capsys.readouterr().out)["plans"][0]["findings"]
    assert finding["accepted"] == "a gong swings out anyway"


def test_an_acceptance_holds_for_its_check_and_its_part_only() -> None:
    """Another finding on that part, or the same on another part, still counts."""
    text = WRONG.replace("motor M1", "motor M2 12 V stall 3 A\nmotor M1") + "rung F1.2, PB1.14, M2, PS.-\n"
    counting = {(one.check, one.parts[0]) for one in findings(text + ACCEPT) if one.counts}
    assert ("unbraked-stop", "M2") in counting
    assert ("unbraked-stop", "M1") not in counting


def test_an_acceptance_that_nothing_needs_is_found_itself() -> None:
    """At its own line, as a warning."""
    found = findings(WRONG.replace("3 A", "3 A may coast") + ACCEPT)
    assert [(one.check, one.severity, one.where[0].line) for one in found] == [("unused-acceptance", "warning", 7)]


def test_an_acceptance_of_no_check_is_told_with_the_nearest() -> None:
    """Also one that would accept unused acceptances."""
    found = findings(WRONG + ACCEPT + 'accept unbraked-stops on M1 because "so"\n')
    unused = [one for one in found if one.check == "unused-acceptance"]
    assert [one.remedy for one in unused] == ["Nearest: unbraked-stop."]
    found = findings(WRONG + ACCEPT + 'accept unused-acceptance on M1 because "so"\n')
    assert [one.check for one in found if one.counts] == ["unused-acceptance"]


def test_an_acceptance_is_judged_only_where_its_check_ran() -> None:
    """Whoever turns a check off doesn't have to take its acceptances away."""
    assert findings(WRONG + ACCEPT, off=("unbraked-stop",)) == []


def test_an_acceptance_in_a_module_holds_for_every_fit() -> None:
    """One fit that needs it is enough."""
    module = "module Striker\nport plus minus\nmotor M1 12 V stall 3 A\nrung plus, M1, minus\n" + ACCEPT + "end\n"
    plan = WRONG.replace("motor M1 12 V stall 3 A", "").replace("M1, PS.-", "N1").replace("fuse", "splice N1\nfuse")
    fits = "".join(f"fit R{number} Striker : plus N1, minus PS.-\n" for number in (1, 2))
    found = findings(plan + module + fits)
    accepted = {one.parts[0] for one in found if one.accepted and one.check == "unbraked-stop"}
    assert accepted == {"R1.M1", "R2.M1"}
    assert "unused-acceptance" not in {one.check for one in found}


def test_an_unused_acceptance_in_a_shared_file_is_a_note() -> None:
    """Another plan may need it."""
    write("strikers.plan", "module Striker\nport plus minus\nmotor M1 12 V stall 3 A may coast\nrung plus, M1, minus\n"
          + ACCEPT + "end\n")  # fmt: skip
    plan = 'plan Gong "Strikes"\nuse "strikers.plan"\nsupply PS 12 V 10 A\nfuse F1 5 A\nbutton PB1 no\n'
    plan += "splice N1\nrung PS.+, F1, PB1, N1\nfit R1 Striker : plus N1, minus PS.-\n"
    found = [(one.check, one.severity, Path(one.where[0].file).name) for one in findings(plan)]
    assert found == [("unused-acceptance", "note", "strikers.plan")]


def test_the_reason_is_required() -> None:
    """Neither left out nor empty."""
    assert "the line ends where `because` is expected" in problem(WRONG + "accept unbraked-stop on M1\n")
    empty = problem(WRONG + 'accept unbraked-stop on M1 because " "\n')
    assert empty.startswith("7:36 an acceptance without a reason. Write why it may stay so")


def test_a_part_that_is_not_there_is_told_with_the_nearest() -> None:
    """A misspelt name would else accept nothing, and say so only as a finding."""
    assert problem(WRONG + ACCEPT.replace("M1", "M2")) == "7:25 no part M2. Nearest: M1."


def test_accept_and_because_are_no_reserved_words() -> None:
    """Parts may have these names."""
    text = WRONG.replace("M1", "because").replace("F1", "accept")
    assert {one.check for one in findings(text)} == {one.check for one in findings(WRONG)}
