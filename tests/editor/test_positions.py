"""Places of a plan and positions of the protocol: from one to the other and back."""

import pytest

pytest.importorskip("pygls", reason="the editor extra is not installed")

from lsprotocol import types
from pygls.workspace import PositionCodec

from circuitcheck.editor.diagnosing import finding_diagnostics, problem_diagnostics
from circuitcheck.editor.positions import line_and_column, position, range_of, replacement, whole_line
from circuitcheck.examination import examine_plan
from circuitcheck.plan.reading import read_text
from circuitcheck.plan.source import Place, Problem
from tests.editor.test_drafts import draft

CODEC = PositionCodec()
LINES = ('lamp L1 "🏮 x"', "  wire", "")
LATCH = "supply PS 12 V 10 A\nfuse F1 3 A\nsolenoid Y1 12 V 12 ohm\nrung PS.+, F1, Y1, PS.-"


@pytest.mark.parametrize(
    ("place", "counted"), [((1, 10), (0, 9)), ((1, 11), (0, 11)), ((2, 3), (1, 2)), ((3, 1), (2, 0))]
)
def test_a_sign_beyond_the_basic_plane_counts_twice(place: tuple[int, int], counted: tuple[int, int]) -> None:
    """In UTF-16; and the way back leads to the same place."""
    assert position(*place, LINES, CODEC) == types.Position(*counted)
    assert line_and_column(types.Position(*counted), LINES, CODEC) == place


def test_beyond_the_end_lies_the_end() -> None:
    """Of the text and of a line, either way."""
    assert position(9, 9, LINES, CODEC) == types.Position(2, 0)
    assert line_and_column(types.Position(9, 9), LINES, CODEC) == (3, 1)
    assert line_and_column(types.Position(1, 99), LINES, CODEC) == (2, 7)


def test_a_whole_line_begins_at_its_first_sign() -> None:
    """Blanks before it are left out."""
    assert whole_line(2, LINES, CODEC) == types.Range(types.Position(1, 2), types.Position(1, 6))


def edited(old: str, edit: types.TextEdit) -> str:
    """The text once an editor has made the edit; for texts without wide signs."""
    lines = old.split("\n")
    begin, end = edit.range.start, edit.range.end
    before = "\n".join([*lines[: begin.line], lines[begin.line][: begin.character]])
    return before + edit.new_text + "\n".join([lines[end.line][end.character :], *lines[end.line + 1 :]])


@pytest.mark.parametrize(
    ("old", "new", "written"),
    [
        ("a\nb\nc", "a\nx\nc", "x\n"),
        ("a\nb", "a\nb\nc", "\nc"),
        ("a\nb\nc", "a", ""),
        ("a\nb", "x\nb", "x\n"),
        ("a\nb", "c\nd", "c\nd"),
        ("a\na\na", "a\na", ""),
    ],
    ids=["between", "at the end", "cut off", "at the beginning", "everything", "one of three that are alike"],
)
def test_a_replacement_writes_only_what_changes(old: str, new: str, written: str) -> None:
    """And what then stands there is the new text."""
    edit = replacement(tuple(old.split("\n")), tuple(new.split("\n")), CODEC)
    assert edit is not None
    assert edit.new_text == written
    assert edited(old, edit) == new


def test_what_stays_as_it_is_has_no_replacement() -> None:
    """Nothing is sent."""
    assert replacement(("a", "b"), ("a", "b"), CODEC) is None


def test_a_problem_is_underlined_where_it_stands_and_one_of_another_file_at_its_use() -> None:
    """With the file that it stands in, and a way there."""
    one = draft('use "parts.plan"\nlamp L1 12 V 2 W\n')
    here = Problem(Place(one.file, 2, 6, 2, 8), "no lamp", "Write one.")
    (shown,) = problem_diagnostics(one, (here,), CODEC)
    assert (shown.message, shown.range) == ("no lamp. Write one.", range_of(here.place, one.source.lines, CODEC))
    there = Problem(
        Place("/plans/parts.plan", 7, 1, 7, 4), "no relay", "Write one.", ((here.place, "It is used here."),)
    )
    (shown,) = problem_diagnostics(one, (there,), CODEC)
    assert shown.message == "/plans/parts.plan:7:1: no relay. Write one."
    assert shown.range.start == types.Position(0, 0)


def test_a_finding_of_a_text_that_is_past_stands_where_its_part_is_now() -> None:
    """One of this very text stands where it was found."""
    found = [
        one for one in examine_plan(read_text("/plans/jaw.plan", LATCH), 0.0).findings if one.check == "missing-flyback"
    ]
    later = draft(f"# the latch of the jaw\n{LATCH}\n")
    (moved,) = finding_diagnostics(later, found, False, CODEC)
    (kept,) = finding_diagnostics(draft(LATCH), found, True, CODEC)
    assert moved.range == types.Range(types.Position(3, 9), types.Position(3, 11))
    assert kept.range == types.Range(types.Position(2, 9), types.Position(2, 11))
