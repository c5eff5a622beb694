"""How problems are laid out."""

import pytest

from circuitcheck.plan.reading import read_text
from circuitcheck.plan.source import Place, PlanError, Problem, Source
from circuitcheck.reports.problems import problem_text, problems_text


def laid_out(line: str, start: int, end: int, width: int = 100) -> list[str]:
    """The shown line and its carets, for a problem at columns `start` to `end` of one line."""
    problem = Problem(Place("jaw.plan", 1, start, 1, end), "what", "Help.")
    return problem_text(problem, (Source("jaw.plan", (line,)),), width).split("\n")[1:-1]


def test_a_problem_shows_its_line_with_carets_and_the_advice() -> None:
    """The layout that every report of problems has."""
    problem = Problem(Place("drawbridge.plan", 2, 6, 2, 11), "no terminal K1.15", "K1 is a relay. Nearest: K1.14.")
    error = PlanError((problem,), (Source("drawbridge.plan", ("fuse F1 5 A", "wire K1.15 M1.+ : 1.5 mm2")),))
    assert problems_text(error) == (
        "drawbridge.plan:2:6: no terminal K1.15\n"
        "    2 | wire K1.15 M1.+ : 1.5 mm2\n"
        "      |      ^^^^^\n"
        "K1 is a relay. Nearest: K1.14.\n"
    )


def test_other_places_are_shown_with_their_own_sentence() -> None:
    """Both of two equal names are seen at once."""
    with pytest.raises(PlanError) as raised:
        read_text("jaw.plan", "type a relay\ntype a lamp")
    assert problems_text(raised.value) == (
        "jaw.plan:2:6: a second type named a\n"
        "    2 | type a lamp\n"
        "      |      ^\n"
        "jaw.plan:1:6: The first is described here.\n"
        "    1 | type a relay\n"
        "      |      ^\n"
        "Give one of them another name.\n"
    )


def test_a_problem_of_a_file_that_was_not_read_shows_no_line() -> None:
    """There is no line to show."""
    problem = Problem(Place("jaw.plan", 1, 1, 1, 1), "no file jaw.plan", "There is no plan in that folder.")
    assert problem_text(problem, ()) == "jaw.plan:1:1: no file jaw.plan\nThere is no plan in that folder."


@pytest.mark.parametrize(
    ("line", "start", "end", "shown", "carets"),
    [
        ("\twire A", 2, 6, " wire A", " ^^^^"),
        ("wire\x1b[31m A", 5, 6, "wire\ufffd[31m A", "    ^"),
        ("lamp 日本 X", 9, 10, "lamp 日本 X", "          ^"),
        ("lamp 日本", 6, 8, "lamp 日本", "     ^^^^"),
        ("lamp e\u0301 X", 9, 10, "lamp e\u0301 X", "       ^"),
        ("wire A", 7, 7, "wire A", "      ^"),
        ("wire\u00a0A\u200b", 6, 7, "wire A\ufffd", "     ^"),
    ],
)
def test_carets_stand_under_what_they_mean(line: str, start: int, end: int, shown: str, carets: str) -> None:
    """Tabs and control signs take one column, wide signs two, combining ones none."""
    assert laid_out(line, start, end) == [f"    1 | {shown}", f"      | {carets}"]


@pytest.mark.parametrize("start", [1, 50, 500, 99_990])
@pytest.mark.parametrize("length", [1, 30, 5_000])
@pytest.mark.parametrize("sign", ["x", "日"])
def test_a_long_line_is_cut_around_its_place(start: int, length: int, sign: str) -> None:
    """It keeps to the width, and the carets stay under the place's beginning."""
    line = "-" * (start - 1) + sign * length + "-" * (100_000 - start)
    shown, carets = laid_out(line, start, start + length, 60)
    columns = sum(2 if one == "日" else 1 for one in shown)
    assert columns <= 60
    assert len(carets) <= 60
    before = shown[: shown.index(sign)]
    assert carets.index("^") == len(before)


def test_a_place_over_several_lines_is_shown_by_its_first() -> None:
    """The carets run to that line's end."""
    problem = Problem(Place("jaw.plan", 1, 1, 2, 4), "the module Jaw has no end", "Put a line `end`.")
    text = problem_text(problem, (Source("jaw.plan", ("module Jaw  ", "port")),))
    assert "    1 | module Jaw\n      | ^^^^^^^^^^\n" in text
