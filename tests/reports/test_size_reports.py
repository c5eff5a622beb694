"""Sizes as they are told: schema, width, cautions, and what is asked of one wire."""

import json
from pathlib import Path

import pytest

from circuitcheck.reports.problems import columns
from circuitcheck.reports.size_asking import Sizes, asked_sizes, wire_asked
from circuitcheck.reports.size_explaining import explained_lines
from circuitcheck.reports.size_json import size_json
from circuitcheck.reports.size_text import size_lines
from circuitcheck.reports.size_words import some
from circuitcheck.reports.styled import plain_text
from circuitcheck.reports.table_asking import Unanswerable
from tests.reports.sized import LANTERN
from tests.reports.test_findings_reports import schema

EXAMPLES = Path(__file__).parent.parent.parent / "examples"
RIGHT = sorted((EXAMPLES / "right").glob("*.plan"))


def example(path: Path) -> Sizes:
    """The sizes of an example, with the folder of shared parts declared."""
    return asked_sizes(path, (EXAMPLES / "parts",))


@pytest.fixture
def lantern(tmp_path: Path) -> Sizes:
    """The sizes of the golden files' plan."""
    (tmp_path / "prop.plan").write_text(LANTERN, encoding="utf-8")
    return asked_sizes(tmp_path / "prop.plan", ())


@pytest.mark.parametrize("path", RIGHT, ids=lambda path: path.stem)
def test_everything_in_a_right_example_fits(path: Path) -> None:
    """And is told within its schema, within 80 columns, with its tables, conditions and cautions."""
    sizes = example(path)
    assert sizes.sizing.fits
    schema("size").validate(json.loads(size_json(sizes)))
    text = plain_text(size_lines(sizes, 80))
    assert [line for line in text.splitlines() if columns(line) > 80] == []
    assert "Local electrical code" in text
    assert "qualified person decide" in " ".join(text.split())


def test_the_moon_s_plan_says_enough_for_every_verdict() -> None:
    """No default stands in for anything but a filament's cold resistance, and all of it fits."""
    sizes = example(EXAMPLES / "right" / "moon_over_the_stage.plan")
    assert sizes.sizing.fits
    assert "Not declared" not in plain_text(size_lines(sizes, 80))
    assert [assumed.part for assumed in sizes.sizing.assumptions] == ["L1"]


def test_what_is_from_memory_is_marked_where_it_decides(lantern: Sizes) -> None:
    """The gates of small blade fuses beyond 200 %, and the heat that a wire takes."""
    text = " ".join(plain_text(size_lines(lantern, 80)).split())
    assert "ISO 8820-3 type C, partly from memory" in text
    assert "IEC 60364-4-43, from memory" in text


@pytest.mark.parametrize("asked", ["w3", "K1.11-M1.+", "M1.+-K1.11", "M1.+ K1.11"])
def test_a_wire_is_found_by_its_number_or_by_its_ends(lantern: Sizes, asked: str) -> None:
    """Either way round."""
    assert wire_asked(lantern, asked).sized.name == "w3 K1.11-M1.+"


def test_a_wire_that_is_not_there_is_told_with_the_nearest(lantern: Sizes) -> None:
    """In the plan's own names."""
    with pytest.raises(Unanswerable, match=r"no wire w33 .* Nearest: w3"):
        wire_asked(lantern, "w33")


def test_two_wires_of_one_number_are_told_apart_by_their_ends(tmp_path: Path) -> None:
    """Nothing is guessed."""
    (tmp_path / "prop.plan").write_text(LANTERN.replace(" w4", " w3"), encoding="utf-8")
    with pytest.raises(Unanswerable, match=r"w3 is 2 wires .*K1.11-M1.\+, M1.--PS.-"):
        wire_asked(asked_sizes(tmp_path / "prop.plan", ()), "w3")


def test_an_explanation_adds_up(lantern: Sizes) -> None:
    """8.5 A of the table times 0.6 for four wires are the 5.1 A of the verdict, and every step names its source."""
    lines = plain_text(explained_lines(lantern, wire_asked(lantern, "w3"), 100))
    assert "8.5 A: IEC 60204-1 Table 6" in lines
    assert "× 0.6: 4 wires in the bundle (33 CFR 183.425 and ABYC E-11)" in lines
    assert "= 5.1 A" in lines


def test_no_wire_goes_by_no_name(lantern: Sizes) -> None:
    """Wires without a number are not all called ""."""
    with pytest.raises(Unanswerable, match="no wire"):
        wire_asked(lantern, "")


def test_a_short_is_told_before_any_size(tmp_path: Path) -> None:
    """Above the tables, with the command that shows it."""
    (tmp_path / "prop.plan").write_text(LANTERN + "wire F1.2 PS.-\n", encoding="utf-8")
    sizes = asked_sizes(tmp_path / "prop.plan", ())
    text = " ".join(plain_text(size_lines(sizes, 80)).split())
    assert "Operation shorts a supply, which no size helps: `circuitcheck check` tells how." in text
    schema("size").validate(json.loads(size_json(sizes)))


def test_a_wire_that_says_nothing_is_explained_as_far_as_it_goes(tmp_path: Path) -> None:
    """No gauge, no length, a supply that limits what starts, and a wire that nothing ever runs through."""
    plan = LANTERN.replace("10 A internal 50 mohm", "4 A limit 5 A").replace("0.75 mm2 blue 2 m w3", "w3")
    (tmp_path / "prop.plan").write_text(f"{plan}splice N1\nwire F1.2 N1 : w9\n", encoding="utf-8")
    sizes = asked_sizes(tmp_path / "prop.plan", ())
    bare, dead = (
        " ".join(plain_text(explained_lines(sizes, wire_asked(sizes, name), 100)).split()) for name in ("w3", "w9")
    )
    assert "no gauge, no length" in bare
    assert "may carry not known" in bare
    assert "not known without gauge and length" in bare
    assert "where the supply limits, from:" in bare
    assert "nothing, in any state that operation reaches" in dead


def test_long_lists_of_names_are_counted_from_the_seventh_on() -> None:
    """Nobody reads more."""
    assert some([f"w{number}" for number in range(6)]) == "w0, w1, w2, w3, w4, w5"
    assert some([f"w{number}" for number in range(9)]) == "w0, w1, w2, w3, w4, w5 and 3 more"
