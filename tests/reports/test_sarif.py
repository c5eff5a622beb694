"""Findings as SARIF: the published schema, and what code scanning services want beyond it."""

import json
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft4Validator

from circuitcheck.checks.registry import all_checks
from circuitcheck.reports import findings_sarif as sarif
from circuitcheck.reports.explaining import page_lines
from circuitcheck.reports.findings_sarif import findings_sarif
from circuitcheck.reports.styled import plain_text
from tests.reports.goldens import WRONG
from tests.reports.made_up import HOSTILE, finding, outcome, outcomes, outcomes_of_wrong_examples, unreadable

ROOT = Path(__file__).parent.parent.parent
SCHEMA = Draft4Validator(
    json.loads((Path(__file__).parent / "schemas" / "sarif-2.1.0-rtm.5.json").read_text(encoding="utf-8"))
)


@pytest.fixture(autouse=True)
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The folder that we are in, with a plan that is wrong."""
    monkeypatch.chdir(tmp_path)
    Path("wrong.plan").write_text(WRONG, encoding="utf-8")
    return tmp_path


def run_of(log: str) -> dict[str, Any]:
    """The run in a log that keeps what the schema demands."""
    content = json.loads(log)
    SCHEMA.validate(content)
    (run,) = content["runs"]
    assert isinstance(run, dict)
    return run


def text_at(region: dict[str, int], text: str) -> str:
    """What stands at a region of one line, its end column exclusive."""
    assert region["startLine"] == region["endLine"]
    return text.split("\n")[region["startLine"] - 1][region["startColumn"] - 1 : region["endColumn"] - 1]


def test_all_examples_keep_the_published_schema(monkeypatch: pytest.MonkeyPatch) -> None:
    """With their paths relative to the repository, and no two with one fingerprint."""
    monkeypatch.chdir(ROOT / "examples")
    results = run_of(findings_sarif(outcomes_of_wrong_examples()))["results"]
    locations = [result["locations"][0]["physicalLocation"]["artifactLocation"] for result in results]
    assert all(one["uri"].startswith("examples/wrong/") and one["uriBaseId"] == "%SRCROOT%" for one in locations)
    marks = [result["partialFingerprints"] for result in results]
    assert len({mark["circuitcheck/v1"] for mark in marks}) == len(results) > 40
    assert all(mark["primaryLocationLineHash"] == mark["circuitcheck/v1"] for mark in marks)


@pytest.mark.parametrize("what", HOSTILE)
def test_whatever_a_plan_says_the_log_keeps_the_schema(what: str) -> None:
    """Also in the name of its file, where a colon would make a scheme of what is before it."""
    log = findings_sarif([outcome(finding(what, file=f"a:{what}.plan")), unreadable(what)])
    assert log.isascii()
    results = run_of(log)["results"]
    assert all(result["message"]["text"].isprintable() for result in results)
    uri = results[0]["locations"][0]["physicalLocation"]["artifactLocation"]["uri"]
    assert uri.startswith("a%3A")
    assert uri.isprintable()
    assert not set(uri) & set(' :"<>\\^`{|}')


def test_a_rule_s_help_is_the_page_that_explain_tells() -> None:
    """Every check is a rule, at the number that its results name."""
    run = run_of(findings_sarif(outcomes("wrong.plan")))
    rules = run["tool"]["driver"]["rules"]
    pages = {one.check.name: plain_text(page_lines(one.check, 80)) for one in all_checks()}
    assert {rule["id"]: rule["help"]["text"] for rule in rules if rule["id"] != "no-verdict"} == pages
    assert all(rules[result["ruleIndex"]]["id"] == result["ruleId"] for result in run["results"])
    assert all(len(rule["fullDescription"]["text"]) <= 1024 for rule in rules)
    assert all("security-severity" not in rule["properties"] for rule in rules)


def test_the_path_of_the_current_can_be_followed_through_the_text() -> None:
    """Its stretches are a code flow, and places that belong to the finding; each region is what its words say."""
    results = run_of(findings_sarif(outcomes("wrong.plan")))["results"]
    (short,) = (result for result in results if result["ruleId"] == "supply-short")
    (flow,) = short["codeFlows"]
    (thread,) = flow["threadFlows"]
    told = [
        (step["location"]["message"]["text"], text_at(step["location"]["physicalLocation"]["region"], WRONG))
        for step in thread["locations"]
    ]
    assert told == [
        ("the wire PS.+ to F1.1", "PS.+, F1"),
        ("F1.1-2", "F1"),
        ("the wire F1.2 to S2.com", "F1.2, S2.com-open"),
        ("S2.com-close", "S2"),
        ("the wire S2.close to PS.-", "wire   S2.close PS.-"),
    ]
    assert [place["message"]["text"] for place in short["relatedLocations"]] == [words for words, _ in told]
    assert text_at(short["locations"][0]["physicalLocation"]["region"], WRONG) == "PS"
    assert short["message"]["text"].startswith(
        "PS.+ and PS.- are joined with no load between them with PS on, S2 close. "
    )


def test_what_is_accepted_or_known_is_suppressed() -> None:
    """With the plan's reason; and each result says whether it is, as the standard wants it of a run."""
    accepted = finding("M1 hums")._replace(accepted="it always did")
    found = outcome(accepted, finding("M2 hums")._replace(known=True), finding("M3 hums"))
    results = run_of(findings_sarif([found]))["results"]
    assert [result["suppressions"] for result in results] == [
        [{"kind": "inSource", "justification": "it always did"}],
        [{"kind": "external", "justification": "It stands in the baseline."}],
        [],
    ]


def test_a_plan_without_a_verdict_is_a_result_and_the_run_is_not_called_successful() -> None:
    """Its other places are told with their own sentences."""
    run = run_of(findings_sarif([outcome(), unreadable("no part K7")]))
    (result,) = run["results"]
    assert result["ruleId"] == "no-verdict"
    assert result["relatedLocations"][0]["message"]["text"] == "no part K7"
    assert run["invocations"][0]["executionSuccessful"] is False
    assert run_of(findings_sarif([outcome()]))["invocations"][0]["executionSuccessful"] is True


def test_the_same_plans_give_the_same_bytes() -> None:
    """No times, no random numbers."""
    first, second = (findings_sarif(outcomes("wrong.plan")) for _ in range(2))
    assert first == second


def test_a_log_too_long_for_a_service_keeps_the_worst(monkeypatch: pytest.MonkeyPatch) -> None:
    """And says how many it leaves out."""
    monkeypatch.setattr(sarif, "MOST_RESULTS", 3)
    many = [finding(f"M{number} hums", "note") for number in range(3)]
    run = run_of(findings_sarif([outcome(*many), outcome(finding("M1 smokes"))]))
    assert [result["level"] for result in run["results"]] == ["error", "note", "note"]
    notes = run["invocations"][0]["toolExecutionNotifications"]
    assert notes[0]["message"]["text"].endswith("the 1 lightest are left out here.")
