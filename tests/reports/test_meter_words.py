"""Readings of a meter, and lines of a bench sheet, as people type them."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from circuitcheck.analysis.bench.readings import Point
from circuitcheck.reports.bench_asking import SheetLine, asked_sheet
from circuitcheck.reports.bench_words import point_words
from circuitcheck.reports.diagnose_asking import begun
from circuitcheck.reports.diagnose_words import answer_words, answers
from circuitcheck.reports.table_asking import Unanswerable
from tests.reports.diagnosed import FILE, case
from tests.reports.faulty import HOIST
from tests.reports.goldens import elsewhere

DEAD = {"0 V", "nothing: the supply is in its current limit"}
"""Nobody tells these apart by a voltmeter."""
STUCK = ("K1.11-14 welded", "K1 stuck operated")
STUCK_BUTTON = ("UP.13-14 welded", "UP stuck pressed")
SHORTED_COIL = ("the diode across K1.A1-A2 shorted", "the coil K1.A1-A2 shorted")
"""Seen from the far side of the limit and the button, with somebody's finger on that, which may stand anyhow."""
EXAMPLES = Path(__file__).parents[2] / "examples" / "right"


@pytest.fixture(autouse=True)
def hoist() -> Iterator[Path]:
    """The hoist in a file of an empty folder, which is where it happens."""
    with elsewhere():
        FILE.write_text(HOIST, encoding="utf-8")
        yield FILE


def typed(line: SheetLine, reads: str, rest: str) -> str:
    """A line of a sheet, with another reading than it expects, as somebody types it in."""
    return f"{line.measure}: {reads} when {', '.join(line.set)}, everything else at rest{rest}"


@pytest.mark.parametrize("name", ["lighthouse_shutter", pytest.param("drawbridge", marks=pytest.mark.slow)])
def test_each_line_of_a_bench_sheet_and_its_reading_can_be_typed_in(name: str) -> None:
    """Then exactly the faults that the sheet names for it explain it, and some that it can't tell from these."""
    path = EXAMPLES / f"{name}.plan"
    for part in asked_sheet(path, (EXAMPLES.parent,)).parts:
        rest = ", motors disconnected" if "motors disconnected" in part.name else ""
        for line in part.lines:
            for proof in line.rules_out:
                found = begun(path, (EXAMPLES.parent,), [typed(line, proof.reads, rest)]).diagnosis
                named = {one.called for one in found.faults}
                assert not found.pairs
                assert set(proof.faults) <= named
                others = [one for one in line.rules_out if one != proof and {one.reads, proof.reads} != DEAD]
                assert not {name for one in others for name in one.faults} & named


@pytest.mark.parametrize(
    ("seen", "explained"),
    [
        ("no continuity from F1.1 to F1.2", ["F1 blown"]),
        ("1.2 MΩ from F1.1 to F1.2", ["F1 blown"]),
        ("160 ohm from K1.A1 to K1.A2", []),
        ("0 ohm at K1.A1-A2", ["K1.11-12-14 all joined", *SHORTED_COIL]),
        ("0.2 kohm from M1.+ M1.- when push K1", ["M1 open"]),
        ("beeps from K1.11 to K1.14 when push K1", []),
        ("beeps from K1.11 to K1.14", ["K1.11-12-14 all joined", *STUCK, *SHORTED_COIL]),
        ("12 V from K1.11 to PS.- when UP released", [*STUCK, *STUCK_BUTTON]),
        ("12 V at M1 when UP released, motor disconnected", [*STUCK, *STUCK_BUTTON]),
    ],
)
def test_a_reading_of_a_meter_is_explained_as_what_is_seen_is(seen: str, explained: list[str]) -> None:
    """Without power by ohms, under power by volts; relays are pushed only where that is said."""
    found = case(seen).diagnosis
    names = [] if found.pairs else [one.called for one in found.faults]
    assert set(explained) == set(names)


@pytest.mark.parametrize(
    ("seen", "says"),
    [
        ("12 V from K9.A1 to PS.-", "no wired terminal K9.A1"),
        ("12 V at PS.+", 'say both, like "12 V from PS.\\+ to PS.-"'),
        ("160 ohm from K1.A1 to K1.A1", "both leads are on K1.A1"),
        ("160 ohm from K1.A1 to K1.A2, M1 dead", "both off and on"),
        ("160 ohm from K1.A1 to K1.A2 when PS on", "with PS on.* the meter may be damaged.* with the power off"),
        ("12 V at M1 when LS1 pressed, lantern at floor", "lantern can't stand in two ways at once"),
    ],
)
def test_a_reading_that_is_not_understood_is_said_with_what_would_be(seen: str, says: str) -> None:
    """Terminals that a probe can't touch, one probe only, both at one place, ohms and volts at once."""
    with pytest.raises(Unanswerable, match=says):
        case(seen)


def test_what_a_dialogue_asks_for_is_answered_in_the_words_of_the_sheet() -> None:
    """The whole sentence, or the figure with its unit."""
    motor, ohms, volts = Point("motor", "M1"), Point("ohms", "", "F1.1", "F1.2"), Point("volts", "M1", "M1.+", "M1.-")
    assert answers(motor, "stands, stiff to turn by hand (braked)") == {"braked"}
    assert answers(ohms, "no continuity") == {float("inf")}
    assert answers(ohms, "1.2 kohm") == {1200.0}
    assert answers(volts, "+12.0 V") == {12.0}
    assert 0.5 in answers(volts, "500 mV")
    assert "current limit" in answers(volts, "0 V")


@pytest.mark.parametrize(
    ("said", "figure"), [("1.2 Mohm", 1.2e6), ("1.2 MΩ", 1.2e6), ("50 mohm", 0.05), ("1.2 KΩ", 1200.0)]
)
def test_the_case_of_a_prefix_counts(said: str, figure: float) -> None:
    """A meter shows Mohm for what is open but for some damp, which is nine powers of ten from mohm."""
    assert answers(Point("ohms", "", "F1.1", "F1.2"), said) - {float("inf")} == {figure}


@pytest.mark.parametrize(
    ("kind", "words"),
    [
        ("ohms", "beeps, open, or ohms"),
        ("diode", "diode, beeps, open, or ohms"),
        ("volts", "volts, or limit"),
        ("relay", "operated, on, released, off or clicks"),
    ],
)
def test_a_question_tells_what_can_be_answered(kind: str, words: str) -> None:
    """What a meter shows, or what people say of a relay."""
    assert answer_words(Point(kind, "K1")) == words


def test_a_point_is_told_with_the_leads_where_it_makes_a_difference() -> None:
    """An ohmmeter's may be exchanged; a diode's and a voltmeter's may not."""
    ends = "F1.1", "F1.2"
    assert point_words(Point("ohms", "", *ends)) == "ohms, F1.1 to F1.2"
    assert point_words(Point("diode", "", *ends)) == "diode range, red on F1.1, black on F1.2"
    assert point_words(Point("volts", "", *ends)) == "volts, red on F1.1, black on F1.2"
