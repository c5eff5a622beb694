"""Names that are written from right to left, among words that aren't (Unicode Standard Annex 9)."""

import io
from pathlib import Path

import pytest

from circuitcheck.reports.styled import Span, line
from circuitcheck.reports.table_asking import asked_table
from circuitcheck.reports.table_text import write_table
from circuitcheck.reports.terminal import in_reading_order, write_lines

BEGIN, END = "\u2068", "\u2069"
GATE = "שער"


class Screen(io.StringIO):
    """A stream that says it is a terminal."""

    def isatty(self) -> bool:
        return True


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        (f"{GATE}1.A1 and K2", f"{BEGIN}{GATE}1{END}.A1 and K2"),
        (f"{GATE}1, {GATE}2", f"{BEGIN}{GATE}1{END}, {BEGIN}{GATE}2{END}"),
        (f'"{GATE} {GATE}"', f'"{BEGIN}{GATE} {GATE}{END}"'),
        ("مصباح_L1 lit", f"{BEGIN}مصباح_L1{END} lit"),
        ("Über-Тор 門.A1", "Über-Тор 門.A1"),
    ],
    ids=["before its mark", "in a list", "words of one label", "Arabic, with other letters", "no such letters"],
)
def test_a_name_written_from_right_to_left_is_isolated(text: str, shown: str) -> None:
    """So its mark stands behind it, and names of a list keep their order; a label is one run."""
    assert in_reading_order(text, Screen()) == shown


@pytest.mark.parametrize("colour", [False, True], ids=["plain", "coloured"])
def test_lines_are_isolated_on_a_screen_and_left_alone_in_a_file(colour: bool) -> None:
    """Whoever searches a file looks for the plan's own words."""
    lines = [(Span(f"{GATE}.A1", "name"), *line(" carries current"))]
    screen, file = Screen(), io.StringIO()
    write_lines(lines, screen, colour)
    write_lines(lines, file, colour)
    assert f"{BEGIN}{GATE}{END}.A1" in screen.getvalue()
    assert BEGIN not in file.getvalue()


def test_the_columns_of_a_table_stay_side_by_side(tmp_path: Path) -> None:
    """Isolated or not, a name takes as many columns."""
    file = tmp_path / "gate.plan"
    file.write_text(
        f"supply PS 12 V 10 A\nbutton {GATE} no\nmotor M1 12 V stall 5 A\nrung PS.+, {GATE}, M1, PS.-\n",
        encoding="utf-8",
    )
    table = asked_table(file, (), (), ())
    screen, plain = Screen(), io.StringIO()
    write_table(table, screen, 80, False)
    write_table(table, plain, 80, False)
    assert f"{BEGIN}{GATE}{END}" in screen.getvalue()
    assert screen.getvalue().replace(BEGIN, "").replace(END, "") == plain.getvalue()
