"""A baseline for libraries that are old already: only new findings fail."""

import json

import pytest

from circuitcheck.cli import main
from tests.library.plans import RIGHT, WRONG, write

SECOND = WRONG.replace("motor M1", "motor M2 12 V stall 3 A\nmotor M1") + "rung F1.2, PB1.14, M2, PS.-\n"


def test_only_new_findings_fail(capsys: pytest.CaptureFixture[str]) -> None:
    """Known ones are counted, in lines that have moved and files that are renamed as well."""
    write("props/gong.plan", WRONG)
    assert main(["check", "props", "--write-baseline", "old.json"]) == 0
    assert "Findings written to old.json: 1." in capsys.readouterr().err
    assert main(["check", "props"]) == 1
    assert main(["check", "props", "--baseline", "old.json"]) == 0
    assert "props/gong.plan: 1 known from the baseline." in capsys.readouterr().out.replace("\\", "/")
    write("other/strike.plan", "\n\n" + WRONG)
    assert main(["check", "other", "--baseline", "old.json"]) == 0
    write("props/gong.plan", SECOND)
    assert main(["check", "props", "--baseline", "old.json"]) == 1


def test_known_findings_are_marked_for_programs(capsys: pytest.CaptureFixture[str]) -> None:
    """In the JSON."""
    write("gong.plan", WRONG)
    main(["check", "gong.plan", "--write-baseline", "old.json"])
    write("gong.plan", SECOND)
    capsys.readouterr()
    main(["check", "gong.plan", "--baseline", "old.json", "--format", "json"])
    found = json.loads(capsys.readouterr().out)["plans"][0]["findings"]
    assert {(one["parts"][0], one["known"]) for one in found if one["check"] == "unbraked-stop"} == {
        ("M1", True),
        ("M2", False),
    }


def test_findings_that_are_gone_are_told(capsys: pytest.CaptureFixture[str]) -> None:
    """Those of plans that were looked at; of others nothing is known."""
    write("gong.plan", WRONG)
    write("bell.plan", WRONG.replace("Gong", "Bell"))
    main(["check", "gong.plan", "bell.plan", "--write-baseline", "old.json"])
    write("gong.plan", WRONG.replace("3 A", "3 A may coast"))
    capsys.readouterr()
    assert main(["check", "gong.plan", "--baseline", "old.json"]) == 0
    told = capsys.readouterr().err.splitlines()
    assert told[0] == "Findings known from old.json: 0."
    assert told[1] == "Findings in it that are gone: 1. --write-baseline old.json takes them out:"
    assert told[2].startswith("  unbraked-stop in Gong: M1 is neither driven nor braked")
    assert len(told) == 3


def test_accepted_findings_are_not_written_into_a_baseline() -> None:
    """The plan itself says more of them than a baseline can."""
    write("gong.plan", WRONG + 'accept unbraked-stop on M1 because "it swings out"\n')
    main(["check", "gong.plan", "--write-baseline", "old.json"])
    with open("old.json", encoding="utf-8") as file:
        assert json.load(file)["findings"] == []


@pytest.mark.parametrize("text", ["", "[]", "{}", '{"schema": "circuitcheck-baseline/1"}', '{"schema": 1}', "\0"])
def test_what_is_no_baseline_ends_the_call(text: str, capsys: pytest.CaptureFixture[str]) -> None:
    """Else every old finding would fail, or none."""
    write("a.plan", RIGHT)
    write("old.json", text)
    assert main(["check", "a.plan", "--baseline", "old.json"]) == 2
    assert "circuitcheck: old.json is no baseline" in capsys.readouterr().err
    assert main(["check", "a.plan", "--baseline", "nowhere.json"]) == 2
    assert "nowhere.json can't be read" in capsys.readouterr().err
