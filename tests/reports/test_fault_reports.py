"""What reports on faults say, and in what form."""

import json
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from circuitcheck.checks.fault_words import UNDECIDED
from circuitcheck.cli import main
from circuitcheck.reports.bench_asking import asked_sheet
from circuitcheck.reports.faults_asking import UNJUDGED, FaultReport, asked_faults
from circuitcheck.reports.faults_formats import faults_json, faults_markdown
from circuitcheck.reports.faults_rows import NOT_COVERED, counted, part_rows, summary, to_design_out
from circuitcheck.reports.faults_text import faults_lines
from circuitcheck.reports.problems import columns
from circuitcheck.reports.styled import plain_text
from tests.reports.faulty import FILE, HOIST, UNFUSED, report
from tests.reports.goldens import elsewhere

SCHEMA = Path(__file__).parents[2] / "circuitcheck" / "reports" / "faults.schema.json"


@pytest.fixture(scope="module")
def hoist() -> FaultReport:
    """What is told of the hoist, pairs of faults too."""
    with elsewhere():
        FILE.write_text(HOIST, encoding="utf-8")
        return report(pairs=True)


@pytest.fixture(scope="module")
def bell() -> FaultReport:
    """What is told of a bell without a fuse."""
    with elsewhere():
        FILE.write_text(UNFUSED, encoding="utf-8")
        return report()


def test_the_json_follows_its_schema(hoist: FaultReport, bell: FaultReport) -> None:
    """With pairs and without; nothing that the schema doesn't name."""
    schema: dict[str, Any] = json.loads(SCHEMA.read_text(encoding="utf-8"))
    Draft202012Validator.check_schema(schema)
    for one in (hoist, bell):
        Draft202012Validator(schema).validate(json.loads(faults_json(one)))


@pytest.mark.parametrize("width", [40, 80, 140])
def test_no_line_is_wider_than_the_screen(hoist: FaultReport, width: int) -> None:
    """Where words allow: a terminal's or a wire's name is never broken."""
    lines = plain_text(faults_lines(hoist, width)).splitlines()
    assert [one for one in lines if columns(one) > width and len(one.split()) > 4] == []


def test_every_fault_stands_in_the_table_by_parts_once(hoist: FaultReport) -> None:
    """No fault is left out of it or told twice."""
    assert sum(len(row.faults) for row in part_rows(hoist)) == len(hoist.faults)
    assert sum(count for _, count, _ in counted(hoist)) == len(hoist.faults)


def test_all_harm_is_to_be_designed_out_the_worst_first(hoist: FaultReport) -> None:
    """What stops nothing comes before what only brakes no more; each has a story and a change."""
    entries = to_design_out(hoist.faults)
    assert {one.fault.called for entry in entries for one in entry.faults} == {
        one.fault.called for one in hoist.faults if not one.harmless
    }
    assert [entry.first.consequence for entry in entries][:2] == ["does not stop", "does not stop"]
    assert all(entry.first.steps and entry.first.remedy for entry in entries)


def test_the_fault_itself_stands_in_its_story(hoist: FaultReport) -> None:
    """Sound operation before it, what follows behind it."""
    told = next(one for one in hoist.faults if one.fault.called == "K1.11-14 welded")
    assert told.steps == (
        "begin with PS on, ES1 released, UP pressed, lantern at floor",
        "K1 operates",
        "fault: K1.11-14 welded",
        "release UP",
        "K1 releases",
    )


def test_a_fuse_that_clears_a_short_is_named_and_its_lack_is_told(hoist: FaultReport, bell: FaultReport) -> None:
    """The hoist's short blows F1; the bell's burns."""
    cleared = next(one for one in hoist.faults if one.fault.called == "M1 shorted")
    assert (cleared.fuses, cleared.unfused, cleared.harmless) == (("F1",), False, True)
    burning = next(one for one in bell.faults if one.fault.called == "BZ1 shorted")
    assert (burning.fuses, burning.unfused, burning.harmless) == ((), True, False)


def test_what_is_not_covered_is_said_in_words(hoist: FaultReport) -> None:
    """In text and in Markdown alike."""
    text, markdown = plain_text(faults_lines(hoist, 100)), faults_markdown(hoist)
    for sentence in NOT_COVERED:
        assert sentence.split(":")[0][:40] in text
        assert sentence.split(":")[0][:40] in markdown


def test_the_share_of_faults_that_do_no_harm_leads(hoist: FaultReport) -> None:
    """In numbers, with what kind of harmless each is."""
    assert summary(hoist)[0].startswith("27 of 39 single faults (69 %) do no harm")


def test_what_could_not_be_judged_is_said_and_never_counts_as_harmless(hoist: FaultReport) -> None:
    """By its name, of single faults and of pairs; the share is that of faults known to do no harm."""
    (number, held), *_ = ((number, one) for number, one in enumerate(hoist.faults) if one.harmless)
    unjudged = held._replace(consequence=UNJUDGED, what=UNDECIDED, noticed_by=())
    report = hoist._replace(faults=(*hoist.faults[:number], unjudged, *hoist.faults[number + 1 :]), pairs=(unjudged,))
    sentences = summary(report)
    assert sentences[0].startswith("26 of 39 single faults (67 %) do no harm")
    assert [one for one in sentences if one.startswith("1 could not be judged")] == [sentences[-4], sentences[-1]]
    assert held.fault.called in sentences[-1]
    assert "0 keep a motor from stopping" in sentences[-2]
    assert all(held.fault.called not in one.first.fault.called for one in to_design_out(report.faults))


@pytest.fixture
def plan(tmp_path: Path) -> Path:
    """The hoist in a file."""
    path = tmp_path / "hoist.plan"
    path.write_text(HOIST, encoding="utf-8")
    return path


def test_the_command_writes_every_format(plan: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Text to the screen, the others to files; the exit status is that of a report."""
    files = [plan.with_suffix(suffix) for suffix in (".md", ".json")]
    formats = ["--format", f"markdown={files[0]}", "--format", f"json={files[1]}", "--format", "text"]
    assert main(["faults", str(plan), *formats]) == 0
    assert "To design out first" in capsys.readouterr().out
    assert files[0].read_text(encoding="utf-8").startswith("# Hoist")
    assert json.loads(files[1].read_text(encoding="utf-8"))["total"] == 39


def test_no_report_calls_anything_safe(hoist: FaultReport) -> None:
    """Whether a prop is safe is for people to judge."""
    for text in (plain_text(faults_lines(hoist, 100)), faults_markdown(hoist), faults_json(hoist)):
        assert "safe" not in text.lower().replace("unsafe", "")


def test_a_box_that_is_shorted_as_it_is_has_that_told_first(tmp_path: Path) -> None:
    """Faults that do no harm to it would sound as if all were well."""
    shorted = tmp_path / "gong.plan"
    shorted.write_text("supply PS 12 V 10 A\nfuse F1 5 A\nswitch S1 spst positions off on\nrung PS.+, F1, S1, PS.-\n")
    report = asked_faults(shorted, (), False)
    assert summary(report)[0].startswith("Operation shorts a supply even without a fault: `circuitcheck check`")
    assert json.loads(faults_json(report))["shorts"] is True


def test_a_plan_without_parts_is_told_as_such(tmp_path: Path) -> None:
    """No share of nothing does no harm, and nothing is there to measure."""
    empty = tmp_path / "gong.plan"
    empty.write_text("plan Gong\n")
    report = asked_faults(empty, (), False)
    assert summary(report) == ["This plan has no part that could fail."]
    assert "Supposed" not in plain_text(faults_lines(report, 80))
    assert asked_sheet(empty, ()).coverage.startswith("This plan has no part that could fail")
