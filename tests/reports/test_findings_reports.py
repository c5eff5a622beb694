"""The reports of findings: widths, plan text that a screen would act upon, the JSON's promises."""

import json
import re
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from circuitcheck.checks.check import Finding
from circuitcheck.checks.ways import compressed, stretches
from circuitcheck.examination import examine
from circuitcheck.library.asking import Asked
from circuitcheck.library.verdict import Outcome, Verdict, verdict_of
from circuitcheck.library.workers import examine_one
from circuitcheck.plan.source import Place, PlanError, Source
from circuitcheck.reports.findings_json import findings_json
from circuitcheck.reports.findings_text import counted, finding_lines, findings_lines
from circuitcheck.reports.styled import plain_text
from circuitcheck.reports.table_asking import Unanswerable, asked_table
from circuitcheck.reports.table_formats import table_csv, table_json, table_markdown
from tests.analysis.plans import circuit_of
from tests.reports.goldens import CURTAIN, RIGHT, WRONG

SCHEMAS = Path(__file__).parent.parent.parent / "circuitcheck" / "reports"
CAUTION = "does not replace local electrical codes"


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The folder that we are in, with three plans: wrong, right, unreadable."""
    monkeypatch.chdir(tmp_path)
    for name, text in (("wrong", WRONG), ("right", RIGHT), ("slip", "relay K1 spdt coil 12\n"), ("curtain", CURTAIN)):
        Path(f"{name}.plan").write_text(text, encoding="utf-8")
    return tmp_path


def outcomes(*names: str) -> list[Outcome]:
    """These plans of the folder, examined."""
    return [examine_one(Asked(f"{name}.plan")) for name in names]


def schema(name: str) -> Draft202012Validator:
    """A schema as it is shipped."""
    content: dict[str, Any] = json.loads((SCHEMAS / f"{name}.schema.json").read_text(encoding="utf-8"))
    Draft202012Validator.check_schema(content)
    return Draft202012Validator(content)


@pytest.mark.usefixtures("folder")
@pytest.mark.parametrize("width", [40, 50, 60, 80, 140])
def test_no_line_is_wider_than_the_screen(width: int) -> None:
    """Lines are wrapped, and a plan's lines cut, at any width from 40 columns on."""
    text = plain_text(findings_lines(outcomes("wrong", "right", "curtain"), width))
    assert [line for line in text.splitlines() if len(line) > width] == []


@pytest.mark.usefixtures("folder")
def test_every_report_for_reading_has_the_caution_and_none_says_that_anything_is_safe() -> None:
    """Text and Markdown carry it themselves; what programs read has it in its schema."""
    table = asked_table(Path("curtain.plan"), (), (), ())
    for text in (plain_text(findings_lines(outcomes("wrong", "right"), 200)), table_markdown(table)):
        assert CAUTION in text
        assert not re.search(r"\bsafe", text)
    assert all(CAUTION in str(schema(name).schema) for name in ("findings", "table"))


@pytest.mark.usefixtures("folder")
def test_a_clean_plan_is_told_what_was_proved_and_what_nobody_asked() -> None:
    """Every check that ran is named with what it looks for."""
    text = plain_text(findings_lines(outcomes("right"), 200))
    (right,) = outcomes("right")
    assert isinstance(right, Verdict)
    assert all(check.name in text for check in right.checks)
    assert "4 combinations covered, 4 reachable, 4 of them settled" in text
    assert "Not looked at: welded contacts" in text


@pytest.mark.usefixtures("folder")
def test_a_file_of_types_alone_is_not_called_clean() -> None:
    """Nothing was examined, so nothing was proved."""
    Path("parts.plan").write_text("type cube relay spdt coil 12 V 90 ohm\n", encoding="utf-8")
    text = plain_text(findings_lines(outcomes("parts"), 80))
    assert "nothing to examine" in text
    assert "roved" not in text


def shown(where: tuple[Place, ...], lines: tuple[str, ...], what: str = "M1 hums") -> str:
    """A made-up finding at these places of a made-up plan."""
    finding = Finding("a-check", "error", "operation", what, (), where, {}, (), (), 0, 0, "Why.", "Remedy.")
    whole = verdict_of(examine(Path("right.plan")))
    whole = whole._replace(sources=(Source("a.plan", lines), Source("b.plan", lines)))
    return plain_text(finding_lines(finding, whole, 80))


@pytest.mark.usefixtures("folder")
def test_two_places_of_one_line_share_it() -> None:
    """The line is shown once, with both places under it."""
    text = shown((Place("a.plan", 1, 1, 1, 5), Place("a.plan", 1, 6, 1, 8)), ("wire M1.+",))
    assert "    1 | wire M1.+\n      | ^^^^ ^^\n" in text
    assert text.count("wire M1.+") == 1


@pytest.mark.usefixtures("folder")
def test_a_place_in_another_file_names_that_file() -> None:
    """A line number alone would be taken for one of the first file."""
    text = shown((Place("a.plan", 1, 1, 1, 5), Place("b.plan", 1, 6, 1, 8)), ("wire M1.+",))
    assert "b.plan:1:6\n    1 | wire M1.+\n      |      ^^\n" in text


@pytest.mark.usefixtures("folder")
def test_what_a_screen_would_act_upon_is_replaced() -> None:
    """Neither a plan's line nor a finding's words can clear the screen or change its colours."""
    text = shown((Place("a.plan", 1, 1, 1, 5),), ("wire \x1b[2J M1.+",), "M\x9b1m hums")
    assert "\x1b" not in text
    assert "\x9b" not in text


def test_a_path_tells_each_part_that_it_passes_once() -> None:
    """F1.1 and F1.2 are F1.1-2; but K1.11 and K1.A1 that a wire joins stay two."""
    circuit = circuit_of("supply PS 12 V\nfuse F1 5 A\nrelay K1 spdt coil 12 V\nwire K1.14 K1.A1\nwire PS.+ F1.1\n")
    path = ("PS.+", "F1.1", "F1.2", "K1.11", "K1.14", "K1.A1", "K1.A2", "PS.-")
    assert compressed(path, stretches(circuit, path)) == ["PS.+", "F1.1-2", "K1.11-14", "K1.A1-A2", "PS.-"]
    wire = ("K1.14", "K1.A1")
    assert compressed(wire, stretches(circuit, wire)) == ["K1.14", "K1.A1"]


@pytest.mark.usefixtures("folder")
def test_findings_are_counted_by_severity() -> None:
    """In words, the worst first."""
    (wrong,) = outcomes("wrong")
    assert isinstance(wrong, Verdict)
    (first, *_) = wrong.findings
    note = first._replace(severity="note")
    assert counted([note, first, first]) == "2 errors, 1 note"
    assert counted([]) == "nothing wrong found"


@pytest.mark.usefixtures("folder")
def test_very_many_combinations_are_told_by_their_size() -> None:
    """Nobody reads three hundred digits."""
    Path("many.plan").write_text("\n".join(f"button PB{number} no" for number in range(1_000)), encoding="utf-8")
    text = plain_text(findings_lines(outcomes("many"), 80))
    assert "about 1.07 × 10^301 combinations covered" in text


def test_json_keeps_what_its_schema_promises() -> None:
    """With findings, without, and with a plan that can't be read."""
    for names in (("wrong",), ("right",), ("wrong", "slip", "right")):
        schema("findings").validate(json.loads(findings_json(outcomes(*names))))


@pytest.mark.usefixtures("folder")
def test_a_bad_plan_hides_nothing_of_the_others() -> None:
    """The others' findings are there, and beside them what is wrong with its text."""
    report = json.loads(findings_json(outcomes("slip", "wrong")))
    assert [plan["file"] for plan in report["plans"]] == ["wrong.plan"]
    assert [problem["file"] for problem in report["problems"]] == ["slip.plan"]
    assert "problems" not in json.loads(findings_json(outcomes("wrong")))


@pytest.mark.usefixtures("folder")
def test_the_same_plan_gives_the_same_bytes_but_for_the_seconds() -> None:
    """Twice the same call, twice the same report."""
    first, second = (re.sub(r'"seconds": .*', "", findings_json(outcomes("wrong", "curtain"))) for _ in range(2))
    assert first == second


@pytest.mark.usefixtures("folder")
def test_the_table_keeps_what_its_schema_promises() -> None:
    """JSON is as the schema says; CSV has a line a row; a dash in it stands for whatever position."""
    table = asked_table(Path("curtain.plan"), (), (), ())
    schema("table").validate(json.loads(table_json(table)))
    lines = table_csv(table).splitlines()
    assert lines[0] == "relays before,PS,PB1,PB2,K1,M1"
    assert lines[1] == "–,off,–,–,released,braked"
    assert len(lines) == 1 + len(table.rows)


@pytest.mark.usefixtures("folder")
def test_words_of_a_plan_are_no_markdown() -> None:
    """A title with signs of Markdown's own is shown as it is written."""
    Path("odd.plan").write_text(CURTAIN.replace("Starts by", "| <b> *Starts* by"), encoding="utf-8")
    text = table_markdown(asked_table(Path("odd.plan"), (), (), ()))
    assert text.startswith("**Curtain: \\| \\<b\\> \\*Starts\\* by one button")


@pytest.mark.usefixtures("folder")
@pytest.mark.parametrize(
    ("given", "motors", "told"),
    [
        (["PB=pressed"], [], "no input PB in curtain.plan. Nearest: PS, PB1, PB2."),
        (["PB1=presed"], [], 'PB1 has no position "presed". Nearest: pressed.'),
        (["PB1"], [], '"PB1" gives no position. Write it like S1=raise.'),
        (["K1=operated"], [], "no input K1 in curtain.plan."),
        ([], ["M2"], "no motor M2 in curtain.plan. Nearest: M1."),
    ],
)
def test_a_table_of_what_is_not_there_is_refused(given: list[str], motors: list[str], told: str) -> None:
    """The answer names what is near."""
    with pytest.raises(Unanswerable, match=re.escape(told)):
        asked_table(Path("curtain.plan"), (), given, motors)


@pytest.mark.usefixtures("folder")
def test_a_table_too_long_to_read_is_refused_with_advice() -> None:
    """Thirteen motors that have nothing to do with each other have more rows than anybody reads; one has few."""
    names = [str(number) for number in range(13)]
    parts = "".join(f"button PB{n} no\nmotor M{n} 12 V stall 1 A\nrung PS.+, PB{n}, M{n}, PS.-\n" for n in names)
    Path("many.plan").write_text(f"supply PS 12 V 100 A\n{parts}", encoding="utf-8")
    with pytest.raises(Unanswerable, match=r"more than 5,000 rows. Ask for a part of it, like --motor M0"):
        asked_table(Path("many.plan"), (), (), ())
    assert len(asked_table(Path("many.plan"), (), (), ("M3",)).rows) == 3


@pytest.mark.usefixtures("folder")
def test_a_plan_too_wide_to_be_judged_gets_no_verdict_and_says_which_parts_that_lies_in() -> None:
    """Thirty buttons in one mesh, and a relay whose times have to be told apart: that is said, not called clean."""
    buttons = " ".join(f"PB{number}" for number in range(30))
    names = [f"PB{number}" for number in range(30)]
    mesh = "".join(f"wire {one}.13 {other}.14\n" for one, other in pairwise(names))
    closing = "wire PS.+ PB0.14\nrung PB29.13, K1.A1-A2, PS.-\n"
    relay = "relay K1 no coil 12 V 160 ohm operate 5..10 ms release 2..5 ms\n"
    text = f"supply PS 12 V 10 A\nbutton {buttons} no\n{relay}{mesh}{closing}"
    Path("wide.plan").write_text(text, encoding="utf-8")
    with pytest.raises(PlanError) as caught:
        examine(Path("wide.plan"))
    (problem,) = caught.value.problems
    assert "PB0, PB1" in problem.what
    assert "have to be looked at together" in problem.what
    assert problem.help.startswith("No verdict is given")
    assert problem.place.line == 1
