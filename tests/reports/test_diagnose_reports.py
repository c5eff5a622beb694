"""What diagnoses say, what they understand, and how a dialogue goes."""

import io
import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from circuitcheck.analysis.bench.likely import ORDER
from circuitcheck.analysis.faults.published import SUPPOSED
from circuitcheck.cli import main
from circuitcheck.reports.diagnose_asking import answered
from circuitcheck.reports.diagnose_text import diagnosis_json, diagnosis_lines
from circuitcheck.reports.problems import columns
from circuitcheck.reports.styled import plain_text
from circuitcheck.reports.table_asking import Unanswerable
from tests.reports.diagnosed import FILE, SEEN, case
from tests.reports.faulty import HOIST
from tests.reports.goldens import elsewhere

SCHEMA = Path(__file__).parents[2] / "circuitcheck" / "reports" / "diagnose.schema.json"


@pytest.fixture(autouse=True)
def hoist() -> Iterator[Path]:
    """The hoist in a file of an empty folder, which is where it happens."""
    with elsewhere():
        FILE.write_text(HOIST, encoding="utf-8")
        yield FILE


def causes(*seen: str) -> list[str]:
    """The faults that explain what is seen."""
    return [one.called for one in case(*seen).diagnosis.faults]


def test_the_json_follows_its_schema() -> None:
    """With a next reading, with one fault left, and with none."""
    schema: dict[str, Any] = json.loads(SCHEMA.read_text(encoding="utf-8"))
    Draft202012Validator.check_schema(schema)
    for seen in (SEEN, "M1 reverse when hold UP"):
        Draft202012Validator(schema).validate(json.loads(diagnosis_json(case(seen).diagnosis)))


@pytest.mark.parametrize("width", [40, 80, 140])
def test_no_line_is_wider_than_the_screen(width: int) -> None:
    """Where words allow."""
    lines = plain_text(diagnosis_lines(case(SEEN).diagnosis, width)).splitlines()
    assert [one for one in lines if columns(one) > width and width > 40] == []


def test_open_circuits_stand_before_welded_contacts_and_shorts() -> None:
    """In the order in which things usually fail."""
    kinds = [one.kind for one in case(SEEN).diagnosis.faults]
    assert kinds[0] == "wire open"
    assert kinds == sorted(kinds, key=ORDER.index)


def test_every_kind_of_fault_has_its_place_in_the_order() -> None:
    """Once each."""
    assert sorted(ORDER) == sorted(row.kind for row in SUPPOSED)


def test_a_motor_that_runs_past_its_limit_is_explained_by_what_keeps_the_limit_from_cutting() -> None:
    """And by nothing that is only dead or open."""
    assert causes("M1 runs when hold UP, lantern at beam") == [
        "LS1 moved toward beam",
        "LS1 stuck free",
        "K1.11-14 welded",
        "LS1.com-nc welded",
        "K1 stuck operated",
    ]


def test_each_further_thing_that_is_seen_leaves_fewer_faults() -> None:
    """With nobody's hand on UP the relay is heard to be stuck, or one of its contacts is."""
    assert causes("M1 runs when hold UP, lantern at beam", "K1 operated when UP released") == ["K1 stuck operated"]


def test_a_limit_says_where_its_axis_is() -> None:
    """ "LS1 pressed" is as good as "lantern at beam" in this box."""
    assert causes("M1 runs when hold UP, LS1 pressed") == causes("M1 runs when hold UP, lantern at beam")


def test_what_a_sound_box_shows_too_is_said() -> None:
    """A motor that is dead may just not have been asked to turn."""
    text = plain_text(diagnosis_lines(case("M1 dead").diagnosis, 200))
    assert "A sound box shows this too, with PS on, ES1 released, UP released, lantern at floor." in text


def test_two_faults_are_named_where_no_single_one_explains_it() -> None:
    """A motor that brakes no more, and whose relay doesn't even operate."""
    found = case("M1 coasting when UP released", "K1 released when hold UP, LS1 free, ES1 released, PS on").diagnosis
    assert found.pairs
    both = [frozenset(one.called.split(" and ")) for one in found.faults]
    assert {"K1.11-12 open", "ES1.11-12 open"} in both
    assert "pairs of faults explain all that is seen" in plain_text(diagnosis_lines(found, 400))


@pytest.mark.parametrize(
    ("seen", "says"),
    [
        ("M1 sings", 'M1 is not seen "sings"'),
        ("M1 dead when UPP pressed", "no part UPP"),
        ("M1 dead when UP sideways", 'UP has no position "sideways"'),
        ("UP pressed", "tells of nothing that is seen"),
        ("lantern at roof, M1 dead", 'lantern has no position "roof"'),
    ],
)
def test_what_is_not_understood_is_said_with_what_would_be(seen: str, says: str) -> None:
    """In the plan's own words."""
    with pytest.raises(Unanswerable, match=says):
        case(seen)


def test_an_answer_leaves_the_faults_that_read_so() -> None:
    """And one that none of them gives is not taken."""
    first = case(SEEN)
    following = first.diagnosis.next
    assert following is not None
    for outcome in following.outcomes:
        reads = outcome.reads.rpartition(" to ")[2]
        then = answered(first, reads)
        assert then is not None
        assert set(outcome.faults) <= {one.called for one in then.diagnosis.faults}
    assert answered(first, "12345 ohm") is None
    assert answered(first, "green") is None


def test_a_dialogue_ends_with_one_fault(
    hoist: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """With answers that are piped in; what is asked for comes before each."""
    monkeypatch.setattr("sys.stdin", io.StringIO("M1 dead when hold UP, LS1 free\nnonsense\n" + "open\n" * 9))
    assert main(["diagnose", "--ask", str(hoist)]) == 0
    out = capsys.readouterr().out
    assert out.index("What is seen?") < out.index("unplug every supply") < out.index("What is read?")
    assert "None of these faults reads so." in out
    assert "explain all that is seen and read" in out.replace("explains", "explain")
    assert out.rindex("read        ohms") > out.rindex("What is read?")


def test_a_dialogue_that_is_left_ends_with_what_is_known(
    hoist: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """The pipe ends before anything is read."""
    monkeypatch.setattr("sys.stdin", io.StringIO(""))
    assert main(["diagnose", "--ask", "--seen", SEEN, str(hoist)]) == 0
    assert "single faults explain all that is seen." in capsys.readouterr().out


def test_nothing_seen_is_a_wrong_call(hoist: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """It says what to write."""
    assert main(["diagnose", str(hoist)]) == 2
    assert "--seen" in capsys.readouterr().err


def test_no_explanation_is_told_by_the_exit_status(hoist: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """So that scripts see it."""
    assert main(["diagnose", "--seen", "M1 reverse when hold UP", str(hoist)]) == 1
    assert "No single fault explains" in capsys.readouterr().out
