"""What bench sheets say, and in what form."""

import json
import re
from html.parser import HTMLParser
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from circuitcheck.cli import main
from circuitcheck.reports.bench_asking import BenchReport, coverage
from circuitcheck.reports.bench_formats import bench_json, bench_markdown
from circuitcheck.reports.bench_page import bench_page
from circuitcheck.reports.bench_text import bench_lines
from circuitcheck.reports.bench_words import FIRST
from circuitcheck.reports.problems import columns
from circuitcheck.reports.styled import plain_text
from tests.reports.benched import FILE, sheet
from tests.reports.faulty import HOIST, UNFUSED
from tests.reports.goldens import elsewhere

SCHEMA = Path(__file__).parents[2] / "circuitcheck" / "reports" / "benchtest.schema.json"


@pytest.fixture(scope="module")
def hoist() -> BenchReport:
    """The sheet of the hoist."""
    with elsewhere():
        FILE.write_text(HOIST, encoding="utf-8")
        return sheet()


@pytest.fixture(scope="module")
def bell() -> BenchReport:
    """The sheet of a box without motors."""
    with elsewhere():
        FILE.write_text(UNFUSED, encoding="utf-8")
        return sheet()


def test_the_json_follows_its_schema(hoist: BenchReport, bell: BenchReport) -> None:
    """With motors and without; nothing that the schema doesn't name."""
    schema: dict[str, Any] = json.loads(SCHEMA.read_text(encoding="utf-8"))
    Draft202012Validator.check_schema(schema)
    for one in (hoist, bell):
        Draft202012Validator(schema).validate(json.loads(bench_json(one)))


@pytest.mark.parametrize("width", [40, 80, 140])
def test_no_line_is_wider_than_the_screen(hoist: BenchReport, width: int) -> None:
    """Where words allow: a reading in a few words is never broken."""
    lines = plain_text(bench_lines(hoist, width)).splitlines()
    assert [one for one in lines if columns(one) > width and width > 40] == []


def test_power_comes_after_the_meter_and_motors_come_last(hoist: BenchReport, bell: BenchReport) -> None:
    """What shows without power is looked for without power; a box without motors has no third part."""
    assert [part.name for part in hoist.parts] == [
        "power off",
        "powered, motors disconnected",
        "powered, motors connected",
    ]
    assert [part.name for part in bell.parts] == ["power off", "powered"]


def test_the_coverage_names_what_cannot_be_seen(hoist: BenchReport, bell: BenchReport) -> None:
    """A diode beside a coil carries no meter's current; a bell has nothing that hides."""
    assert hoist.coverage == (
        "These readings show 38 of 39 single faults apart from a sound box; this one cannot be seen from outside: "
        "the diode across K1.A1-A2 open."
    )
    assert bell.coverage == "These readings show all 14 single faults apart from a sound box."


def test_a_supply_the_wrong_way_round_shows_on_a_meter_alone(bell: BenchReport) -> None:
    """A buzzer sounds either way."""
    line = next(
        one for part in bell.parts for one in part.lines if any("PS reversed" in it.faults for it in one.rules_out)
    )
    assert (line.measure, line.expect) == ("volts, red on PS.+, black on PS.-", "+12.0 V")


def test_every_format_has_every_line_and_begins_with_the_cautions(hoist: BenchReport) -> None:
    """The same numbers, the same places to look."""
    for text in (plain_text(bench_lines(hoist, 400)), bench_markdown(hoist), bench_page(hoist)):
        plain = text.replace("\\", "")
        assert plain.index("unplug every supply") < plain.index("Part 1")
        assert all(one.measure in plain for part in hoist.parts for one in part.lines)
        assert FIRST[1][:40] in plain


class Page(HTMLParser):
    """Counts what a page is made of."""

    def __init__(self) -> None:
        super().__init__()
        self.count: dict[str, int] = {}
        self.open: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.count[tag] = self.count.get(tag, 0) + 1
        assert not any(name in ("src", "href") or name.startswith("on") for name, _ in attrs)
        if tag not in ("meta", "input"):
            self.open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop() == tag


def test_the_page_stands_alone_and_has_a_box_to_tick_on_every_line(hoist: BenchReport) -> None:
    """No script, nothing that is loaded, every tag closed, names escaped."""
    page = Page()
    page.feed(bench_page(hoist))
    assert page.open == []
    assert page.count["input"] == sum(len(part.lines) for part in hoist.parts)
    assert page.count.keys() & {"script", "link", "img", "iframe"} == set()
    assert "&lt;slowly&gt;" in bench_page(hoist)
    assert not re.search(r"url\(|@import|http", bench_page(hoist))


def test_the_command_writes_every_format(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Text to the screen, the others to files; the exit status is that of a report."""
    plan = tmp_path / "bell.plan"
    plan.write_text(UNFUSED, encoding="utf-8")
    formats = [f"{name}={plan.with_suffix(f'.{name}')}" for name in ("markdown", "html", "json")]
    options = [part for one in (*formats, "text") for part in ("--format", one)]
    assert main(["benchtest", str(plan), *options]) == 0
    assert "Part 2: powered" in capsys.readouterr().out
    assert plan.with_suffix(".markdown").read_text(encoding="utf-8").startswith("# Bell")
    assert plan.with_suffix(".html").read_text(encoding="utf-8").startswith("<!DOCTYPE html>")
    assert json.loads(plan.with_suffix(".json").read_text(encoding="utf-8"))["total"] == 14


def test_no_sheet_calls_anything_safe(hoist: BenchReport) -> None:
    """Whether a prop is safe is for people to judge."""
    for text in (plain_text(bench_lines(hoist, 100)), bench_markdown(hoist), bench_page(hoist), bench_json(hoist)):
        assert "safe" not in text.lower()


def test_a_part_of_the_sheet_that_has_nothing_left_to_show_has_no_table(bell: BenchReport) -> None:
    """Nor is it said what is at rest there."""
    nothing = "Nothing is left that would show here and not before."
    empty = bell._replace(parts=tuple(part._replace(lines=(), chosen=nothing) for part in bell.parts))
    texts = (bench_markdown(empty), bench_page(empty), plain_text(bench_lines(empty, 80)))
    for text in texts:
        assert nothing in text
        assert "at rest:" not in text.lower()
    assert "| ---" not in texts[0]
    assert "<table>" not in texts[1]
    assert "[ ]" not in texts[2]


def test_what_could_not_be_worked_out_is_told_with_what_is_shown(bell: BenchReport) -> None:
    """One fault less is shown apart, and it is named."""
    fault = bell.sheet.faults[0]
    told = coverage(bell.sheet._replace(undecided=(fault,)))
    assert told.endswith(f"; what the box does under power could not be worked out with {fault.called}.")
    assert f"{len(bell.sheet.faults) - len(bell.sheet.unseen) - 1} of {len(bell.sheet.faults)} single faults" in told
