"""Findings as lines, as annotations of GitHub, as GitLab's report and as Markdown."""

import json
import re
from pathlib import Path

import pytest

from circuitcheck.cli import main
from circuitcheck.reports.findings_github import MOST, findings_github
from circuitcheck.reports.findings_gitlab import findings_gitlab
from circuitcheck.reports.findings_lines import findings_lines
from circuitcheck.reports.findings_markdown import findings_markdown
from circuitcheck.reports.notices import in_repository
from tests.reports.goldens import RIGHT, WRONG
from tests.reports.made_up import HOSTILE, finding, outcome, unreadable

FORMATS = ("sarif", "junit", "github", "gitlab", "markdown", "lines")
HOSTILE_FILE = "a:1,b%\n::error::c.plan"


@pytest.fixture(autouse=True)
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The folder that we are in, with a plan that is wrong, one that is right, and one that can't be read."""
    monkeypatch.chdir(tmp_path)
    for name, text in (("wrong", WRONG), ("right", RIGHT), ("slip", "relay K1 spdt coil 12\n")):
        Path(f"{name}.plan").write_text(text, encoding="utf-8")
    return tmp_path


@pytest.mark.parametrize("name", FORMATS)
@pytest.mark.parametrize(("plan", "status"), [("right", 0), ("wrong", 1), ("slip", 2)])
def test_the_exit_status_is_the_same_in_every_format(name: str, plan: str, status: int) -> None:
    """0: nothing; 1: findings; 2: no verdict."""
    assert main(["check", f"{plan}.plan", "--format", name]) == status


def test_several_formats_go_to_their_files_in_one_run(capsys: pytest.CaptureFixture[str]) -> None:
    """Each is what it is by itself; the one without a file goes to stdout."""
    files = [f"{name}={name}.out" for name in FORMATS]
    options = [word for name in ("lines", *files) for word in ("--format", name)]
    assert main(["check", "wrong.plan", *options]) == 1
    assert capsys.readouterr().out == Path("lines.out").read_text(encoding="utf-8")
    assert all(Path(f"{name}.out").stat().st_size for name in FORMATS)


def test_what_jobs_found_side_by_side_is_joined_into_the_same_reports() -> None:
    """Letter for letter what one run of the whole gives, but for how long each took."""
    plans = ["right.plan", "slip.plan", "wrong.plan"]
    for number in ("1", "2"):
        main(["check", *plans, "--shard", f"{number}/2", "--format", f"json={number}.json"])
    main(["check", *plans, *(word for name in FORMATS for word in ("--format", f"{name}=whole.{name}"))])
    main(["join", "1.json", "2.json", *(word for name in FORMATS for word in ("--format", f"{name}=joined.{name}"))])
    for name in FORMATS:
        joined, whole = (Path(f"{which}.{name}").read_text(encoding="utf-8") for which in ("joined", "whole"))
        assert re.sub(r' time="[^"]*"', "", joined) == re.sub(r' time="[^"]*"', "", whole)


@pytest.mark.parametrize("name", FORMATS)
def test_every_format_tells_a_plan_that_cannot_be_read_beside_the_others(
    name: str, capsys: pytest.CaptureFixture[str]
) -> None:
    """A bad plan is not taken for a right one, and hides no finding."""
    assert main(["check", "slip.plan", "wrong.plan", "--format", name]) == 2
    told = capsys.readouterr().out
    assert "no-verdict" in told
    assert "supply-short" in told


@pytest.mark.parametrize("what", HOSTILE)
def test_a_line_holds_one_finding_whatever_the_plan_says(what: str) -> None:
    """No text of a plan begins a line, or brings signs that a screen would act upon."""
    told = findings_lines([outcome(finding(what)), unreadable(what)])
    assert len(told.splitlines()) == 2
    assert all(
        re.match(r"(right|slip)\.plan:\d+:\d+: error: (supply-short|no-verdict): .", one)
        for one in told.split("\n")[:-1]
    )
    assert all(sign.isprintable() or sign == "\n" for sign in told)


@pytest.mark.parametrize("what", HOSTILE)
def test_no_plan_gives_a_workflow_orders(what: str) -> None:
    """Each line is a command of ours, with nothing in its text that ends it or begins another."""
    told = findings_github([outcome(finding(what, file=HOSTILE_FILE)), unreadable(what, HOSTILE_FILE)])
    lines = told.split("\n")[:-1]
    assert len(lines) == len(told.splitlines()) == 2
    for line in lines:
        command, properties, text = re.fullmatch(r"::(\w+) ([^:]*)::(.*)", line).groups()  # type: ignore[union-attr]
        assert command == "error"
        named = dict(one.split("=", 1) for one in properties.split(","))
        assert list(named) == ["file", "line", "endLine", "col", "endColumn", "title"]
        assert named["file"] == "a%3A1%2Cb%25\ufffd%3A%3Aerror%3A%3Ac.plan"
        assert re.fullmatch(r"([^%\r\n]|%25|%0A)*", text)


def test_a_log_that_takes_commands_has_no_lines_of_a_plan_in_it(capsys: pytest.CaptureFixture[str]) -> None:
    """An older form of a command may stand anywhere in a line; the annotation tells what is wrong."""
    Path("slip.plan").write_text('lamp L1 12 V 2 "##[stop-commands]x"\n', encoding="utf-8")
    assert main(["check", "slip.plan"]) == 2
    assert "##[" in capsys.readouterr().err
    assert main(["check", "slip.plan", "--format", "github"]) == 2
    told = capsys.readouterr()
    assert "##[" not in told.err
    assert told.out.startswith("::error file=slip.plan,line=1,")


def test_a_place_of_several_lines_has_no_columns() -> None:
    """GitHub takes columns only for a stretch of one line (GitHub Docs, "REST API endpoints for check runs")."""
    one = finding("M1 hums")
    told = findings_github([outcome(one._replace(where=one.where[1:]))])
    assert told.startswith("::error file=right.plan,line=3,endLine=4,title=supply-short::M1 hums.%0A")


def test_more_annotations_than_are_shown_end_with_how_many_more_there_are() -> None:
    """Ten of each kind, the worst first; the tenth stands for all that are left."""
    many = [finding(f"M{number} hums", "warning") for number in range(MOST + 5)]
    few = [finding(f"M{number} smokes", "error") for number in range(MOST)]
    told = findings_github([outcome(*many, finding("M1 is old", "note")), outcome(*few)]).splitlines()
    commands = [line.split(" ")[0] for line in told]
    assert commands == ["::error"] * MOST + ["::warning"] * MOST + ["::notice"]
    assert told[2 * MOST - 1] == "::warning title=circuitcheck::6 more warnings, told by every other format"


@pytest.mark.parametrize("what", HOSTILE)
def test_the_gitlab_report_has_the_keys_that_are_documented(what: str) -> None:
    """GitLab Docs, "Code Quality", "Code Quality report format": these keys, these severities, one line, no byte order
    mark."""
    findings = [finding(what, severity, HOSTILE_FILE) for severity in ("error", "warning", "note")]
    told = findings_gitlab([outcome(*findings), unreadable(what)])
    entries = json.loads(told)
    assert told.startswith("[")
    assert told.isascii()
    for entry in entries:
        assert set(entry) == {"description", "check_name", "fingerprint", "severity", "location"}
        assert set(entry["location"]) == {"path", "lines"}
        assert isinstance(entry["location"]["lines"]["begin"], int)
        assert entry["description"].isprintable()
        assert not entry["location"]["path"].startswith(("/", "./"))
    assert [entry["severity"] for entry in entries] == ["critical", "major", "info", "critical"]
    assert len({entry["fingerprint"] for entry in entries}) == 4


def test_a_right_plan_gives_an_empty_report_of_gitlab() -> None:
    """An empty list, which takes back what an earlier run had found."""
    assert json.loads(findings_gitlab([outcome()])) == []


@pytest.mark.parametrize("what", HOSTILE)
def test_words_of_a_plan_are_shown_in_markdown_as_they_are(what: str) -> None:
    """They end no cell, open no tag and make nothing bold."""
    told = findings_markdown([outcome(finding(what)), unreadable(what)])
    assert all(sign.isprintable() or sign == "\n" for sign in told)
    rows = [line for line in told.split("\n") if line.startswith("| error ")]
    assert [len(re.findall(r"(?<!\\)\|", row)) for row in rows] == [5, 5]
    tags = re.sub(r"</?(details|summary)>", "", told)
    assert not re.search(r"(?<!\\)[<`*\[]", tags.replace("| --- |", ""))


def test_the_summary_counts_plans_without_a_verdict_apart() -> None:
    """A plan that can't be read is neither right nor wrong."""
    both = findings_markdown([outcome(finding("M1 hums")), outcome(), unreadable("no such part")])
    assert both.startswith("### circuitcheck: 1 error in 2 plans, 1 plan without a verdict\n")
    assert findings_markdown([unreadable("no such part")]).startswith("### circuitcheck: 1 plan without a verdict\n")
    right = findings_markdown([outcome()])
    assert right.startswith("### circuitcheck: nothing wrong found in 1 plan\n\nThis does not replace local electrical")


def test_a_summary_fits_into_a_comment_and_says_what_is_left_out() -> None:
    """The worst are kept; a comment takes 65,536 signs (GitHub), a job's summary a mebibyte."""
    many = [finding(f"M{number} hums " + "and hums " * 30, "warning") for number in range(200)]
    told = findings_markdown([outcome(*many), outcome(finding("M1 smokes"))])
    assert len(told) < 65_536
    rows = told.count("\n| error ") + told.count("\n| warning ")
    assert f"{201 - rows} more findings have no room here." in told
    assert told.index("M1 smokes") < told.index("M0 hums")
    assert told.count("<details>") == told.count("</details>") == rows


def test_what_is_accepted_or_known_is_not_told_as_something_to_do() -> None:
    """Neither has a line, an annotation or an entry; the summary counts both, and gives the reason of the first."""
    accepted = finding("M1 hums", "warning")._replace(accepted="it *always* did")
    known = finding("M2 hums", "warning", part="M2")._replace(known=True)
    told = [outcome(accepted, known)]
    assert findings_lines(told) == findings_github(told) == ""
    assert json.loads(findings_gitlab(told)) == []
    summary = findings_markdown(told)
    assert summary.startswith("### circuitcheck: 1 accepted, 1 known from the baseline in 1 plan\n")
    assert "- right.plan:2:3: supply-short on M1: it \\*always\\* did\n" in summary
    assert "M2" not in summary


def test_a_finding_keeps_its_fingerprint_when_one_beside_it_is_accepted() -> None:
    """Findings that are alike are counted with those that their plan accepts, as in every other output."""
    two = [finding("M1 hums"), finding("M1 hums")]
    (_, second) = json.loads(findings_gitlab([outcome(*two)]))
    (only,) = json.loads(findings_gitlab([outcome(two[0]._replace(accepted="it always did"), two[1])]))
    assert only == second


def test_paths_begin_at_the_top_of_the_repository(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Wherever in it one is; outside of one they begin where one is, and those further up at the root."""
    plans = folder / "stage" / "plans"
    plans.mkdir(parents=True)
    monkeypatch.chdir(plans)
    assert in_repository("./jaw.plan") == "jaw.plan"
    assert in_repository("../jaw.plan") == f"{folder.as_posix()}/stage/jaw.plan"
    (folder / ".git").mkdir()
    assert in_repository("./jaw.plan") == "stage/plans/jaw.plan"
    assert in_repository("../jaw.plan") == "stage/jaw.plan"
    assert in_repository(str(plans / "jaw.plan")) == "stage/plans/jaw.plan"
