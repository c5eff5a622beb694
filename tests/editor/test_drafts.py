"""Drafts: what is known of a plan while it is being written, however little of it can be read."""

from functools import cache
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from circuitcheck.editor.colouring import coloured
from circuitcheck.editor.completing import completion
from circuitcheck.editor.drafts import Desk, Draft
from circuitcheck.editor.hovering import hovered
from circuitcheck.editor.outline import outline
from circuitcheck.editor.renaming import CannotRename, everywhere, renamed
from circuitcheck.editor.symbols import occurrence_at
from tests.plan.test_robustness import mutated
from tests.profiles import examples

PLAN = """\
type cube relay dpdt coil 12 V 90 ohm with diode
module Reverser
port feed minus
relay K1 as cube
rung feed, K1.A1-A2, minus
end
supply PS 12 V 10 A
fuse F1 5 A
switch S1 dpdt positions raise off lower
relay K1 as cube "run"
axis deck from bottom to top
limit LS1 nc on deck at top
motor M1 12 V stall 5 A drives deck toward top
fit R1 Reverser : feed F1.2, minus PS.-
rung PS.+, F1, S1.com1-raise1, LS1, ( K1.11-14 | R1.K1.11-14 ), K1.A1
expect M1 driven when S1 raise and not deck at top
"""


def draft(text: str) -> Draft:
    """A file of that text, alone on its desk."""
    return shared_desk().put("/plans/jaw.plan", text)


@cache
def shared_desk() -> Desk:
    """One desk for all: a new one would load the grammar anew."""
    return Desk(())


def offered(line: str, above: str = PLAN) -> list[str]:
    """What could stand at the end of a line, below a plan."""
    text = above + line
    found = completion(draft(text), text.count("\n") + 1, len(line.rsplit("\n", 1)[-1]) + 1)
    return [one.text for one in found.suggestions]


def named_like(word: str, line: int) -> list[str]:
    """Every line of PLAN in which the thing is named that `word` names on that line, as LINE:COLUMN."""
    desk = Desk(())
    one = desk.put("/plans/jaw.plan", PLAN)
    column = PLAN.splitlines()[line - 1].index(word) + 1
    found = occurrence_at(one.occurrences, line, column)
    assert found is not None
    return [f"{other.place.line}:{other.place.column}" for other in everywhere(desk, found.symbol, ())]


@pytest.mark.parametrize(
    ("line", "first"),
    [
        ("", ["plan", "use", "type"]),
        ("rung K1.", ["K1.A1-A2", "K1.11-12", "K1.11-14"]),
        ("rung PS.+, ( K1.11-14 |\n  K1.", ["K1.A1-A2", "K1.11-12", "K1.11-14"]),
        ("wire R1.", ["R1.feed", "R1.minus", "R1.K1"]),
        ("wire R1.K1.", ["R1.K1.A1", "R1.K1.A2", "R1.K1.11"]),
        ("relay K2 as ", ["cube"]),
        ("relay K2 dpdt with ", ["diode", "resistor"]),
        ("limit LS2 nc on ", ["deck"]),
        ("limit LS2 nc on deck at ", ["bottom", "top"]),
        ("motor M2 12 V drives deck toward ", ["bottom", "top"]),
        ("never M1 ", ["forward", "reverse", "driven"]),
        ("never S1 ", ["raise", "off", "lower"]),
        ("fit R2 ", ["Reverser"]),
        ("fit R2 Reverser : ", ["feed", "minus"]),
        ("fit R2 Reverser : feed F1.2, ", ["minus"]),
        ("wire PS.+ F1.1 : ", ["black", "brown", "red"]),
        ("rung PS.+, F1 F1, ", []),
        ("rung PS.+ # K1.", []),
    ],
)
def test_completion_offers_what_the_language_and_the_plan_have_there(line: str, first: list[str]) -> None:
    """Nothing where the line can't be read on, and nothing in a comment."""
    assert offered(line)[:3] == first


def test_completion_offers_the_attributes_that_the_part_takes() -> None:
    """A relay has a coil; a lamp has none."""
    assert {"coil", "latching", "on-delay"} <= set(offered("relay K2 "))
    assert "coil" not in offered("lamp L1 ")
    assert "V" in offered("lamp L1 12 ")


def test_completion_offers_files_that_can_be_used(tmp_path: Path) -> None:
    """Those with types or modules, as the way there from the plan's folder, open or on the disk."""
    (tmp_path / "parts").mkdir()
    (tmp_path / "parts" / "relays.plan").write_text("type cube relay spdt coil 12 V\n")
    (tmp_path / "other.plan").write_text("supply PS 12 V\n")
    desk = Desk(())
    desk.put(str(tmp_path / "motors.plan"), "type wiper motor 12 V\n")
    found = completion(desk.put(str(tmp_path / "jaw.plan"), 'use "pa'), 1, 8)
    assert found.column == 6
    assert {one.text for one in found.suggestions} == {"motors.plan", "parts/relays.plan"}


def test_completion_inside_a_module_knows_its_inside() -> None:
    """Its own ports and parts, and nothing of the plan around it."""
    above, below = PLAN.split("end\n")
    text = f"{above}rung \nend\n{below}"
    found = completion(draft(text), 6, 6)
    assert [one.text for one in found.suggestions] == ["feed", "minus", "K1"]


@pytest.mark.parametrize(
    ("word", "line", "places"),
    [
        ("cube", 1, ["1:6", "4:13", "10:13"]),
        ("K1", 4, ["4:7", "5:12", "15:53"]),
        ("K1", 10, ["10:7", "15:39", "15:65"]),
        ("feed", 3, ["3:6", "5:6", "14:19"]),
        ("Reverser", 2, ["2:8", "14:8"]),
        ("R1", 14, ["14:5", "15:50"]),
        ("raise", 9, ["9:26", "15:24", "16:26"]),
        ("top", 11, ["11:26", "12:25", "13:44", "16:48"]),
        ("deck", 12, ["11:6", "12:17", "13:32", "16:40"]),
    ],
)
def test_a_name_is_found_wherever_it_is_part_of_a_word(word: str, line: int, places: list[str]) -> None:
    """K1 inside the module is another than K1 outside; a position also where it marks a terminal."""
    assert named_like(word, line) == places


@pytest.mark.parametrize(("line", "column", "name"), [(10, 7, "F1"), (10, 7, "2"), (9, 26, "off"), (2, 8, "a-b")])
def test_a_name_that_would_break_the_plan_is_refused(line: int, column: int, name: str) -> None:
    """One that is taken, or that is none."""
    desk = Desk(())
    found = occurrence_at(desk.put("/plans/jaw.plan", PLAN).occurrences, line, column)
    assert found is not None
    with pytest.raises(CannotRename, match=name):
        renamed(desk, found.symbol, name, ())


def test_what_the_editor_has_of_a_file_counts_and_not_what_is_on_the_disk(tmp_path: Path) -> None:
    """Also of a file that a plan uses."""
    parts, plan = tmp_path / "parts.plan", tmp_path / "jaw.plan"
    parts.write_text("type old relay spdt coil 12 V\n")
    desk = Desk(())
    text = 'use "parts.plan"\nrelay K1 as new\n'
    desk.put(str(plan), text)
    assert "new" not in desk.draft(str(plan)).plan.types
    desk.put(str(parts), "type new relay spdt coil 12 V\n")
    assert "new" in desk.draft(str(plan)).plan.types
    desk.close(str(parts))
    desk.put(str(plan), text)
    assert "old" in desk.draft(str(plan)).plan.types


def test_words_are_coloured_by_what_they_are() -> None:
    """A terminal's mark apart from its part; a comment; nothing beyond where a line can't be read on."""
    text = 'relay K1 as cube "run" # x\nrung K1.11-14, F1 F2\n'
    lines = text.splitlines()
    found = [(lines[one.line - 1][one.column - 1 : one.end_column - 1], one.type) for one in coloured(draft(text))]
    assert found == [
        ("relay", "keyword"), ("K1", "variable"), ("as", "keyword"), ("cube", "type"), ('"run"', "string"),
        ("# x", "comment"), ("rung", "keyword"), ("K1", "variable"), (".11-14", "property"), (",", "operator"),
        ("F1", "variable"),
    ]  # fmt: skip


@settings(max_examples=examples(50))
@given(st.one_of(mutated(), st.text(max_size=60)), st.integers(1, 12), st.integers(1, 40))
def test_nothing_that_is_written_breaks_an_answer(text: str, line: int, column: int) -> None:
    """Whatever stands there: completion, hover, outline, colours and names have an answer."""
    one = draft(text)
    line = min(line, len(one.source.lines))
    column = min(column, len(one.source.lines[line - 1]) + 1)
    assert completion(one, line, column).column <= column
    assert all(found.column < found.end_column for found in coloured(one))
    assert all(len(found.name) > 0 for found in outline(one))
    found = hovered(one, line, column)
    assert found is None or found.texts
    assert all(name.place.line <= len(one.source.lines) for name in one.occurrences)
