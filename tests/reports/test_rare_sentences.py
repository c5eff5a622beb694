"""Sentences that reports seldom have need of, each for the case that it is for."""

import pytest

from circuitcheck.analysis.faults.fault import Fault
from circuitcheck.analysis.supposed import Change
from circuitcheck.checks.check import Finding, Telling
from circuitcheck.checks.fault_words import UNDECIDED
from circuitcheck.library.verdict import Looked, Verdict
from circuitcheck.plan.source import Place
from circuitcheck.reports.faults_asking import UNJUDGED, FaultReport, FaultTold
from circuitcheck.reports.faults_formats import faults_markdown
from circuitcheck.reports.faults_fuses import fuse_lines, named, short_words, summary_of_shorts
from circuitcheck.reports.faults_rows import is_hidden, noticed_words
from circuitcheck.reports.faults_text import faults_lines
from circuitcheck.reports.findings_text import findings_lines, order_words
from circuitcheck.reports.styled import plain_text
from circuitcheck.sizing.clearing import Exposed

SHORTED = Fault("lamp shorted", "L1", "L1", "shorted", Change())
THIN = Exposed("F1.2-L1.1", "at a dead short it may glow before F1 opens", surely=True)
UNKNOWN = Exposed("L1.2-PS.-", "its gauge isn't given", write="`: 1.5 mm2`")
FOUND = Finding(
    "unbraked-stop", "warning", "operation", "M1 runs on freely", ("M1",), (Place("gate.plan", 3, 1, 3, 3),),
    {}, (), (), 2, 4, "An open motor runs on.", "Brake it.",
)  # fmt: skip
CLEAN = Verdict(
    "gate.plan", "Gate", 3, 32, 16, 8, "integers", 0.1, (Looked("supply-short", "No supply is shorted."),), (), ()
)


def report(*faults: FaultTold) -> FaultReport:
    """A report on these faults of a lamp."""
    return FaultReport("lamp.plan", "Lamp", "Lamp", faults, None, 0, ("Wires lie in air of 40 °C.",), False)


@pytest.mark.parametrize(
    ("told", "words"),
    [
        (FaultTold(SHORTED, "supply short", "", unfused=True), "supply short, no fuse on its way"),
        (FaultTold(SHORTED, "supply short", ""), "supply short, cleared by a fuse"),
        (FaultTold(SHORTED, "supply short", "", fuses=("F1", "F2")), "supply short, cleared by F1 and F2"),
        (
            FaultTold(SHORTED, "supply short", "", fuses=("F1",), burnt=(THIN,)),
            "supply short, and F1 doesn't save F1.2-L1.1",
        ),
        (
            FaultTold(SHORTED, "supply short", "", fuses=("F1", "F2"), burnt=(THIN,)),
            "supply short, and F1 and F2 don't save F1.2-L1.1",
        ),
    ],
)
def test_a_short_is_told_with_what_clears_it(told: FaultTold, words: str) -> None:
    """Or that nothing does, or that a wire burns first."""
    assert short_words(told) == words


def test_wires_that_no_fuse_saves_are_summed_up_and_told_one_by_one() -> None:
    """Those that surely burn apart from those of which it can't be told, with what to write."""
    burning = FaultTold(SHORTED, "supply short", "L1 is shorted", fuses=("F1",), burnt=(THIN,))
    untold = FaultTold(SHORTED, "supply short", "L1 is shorted", fuses=("F1",), untold=(UNKNOWN,))
    both = report(burning, untold)
    burn, unknown = summary_of_shorts(both)
    assert burn == "Of those that short a supply, 1 burn a wire: F1 doesn't save F1.2-L1.1."
    assert "it can't be told for 1 whether it saves every wire" in unknown
    lines = fuse_lines(both)
    assert lines[0] == "Not saved: F1.2-L1.1: at a dead short it may glow before F1 opens."
    assert lines[1] == "Can't be told: L1.2-PS.-: its gauge isn't given. Write `: 1.5 mm2`."
    assert "Fuses and wires" in faults_markdown(both)
    assert "Fuses and wires" in plain_text(faults_lines(both, 80))


def test_where_all_wires_are_saved_nothing_is_said_of_them() -> None:
    """Neither in the summary nor below."""
    saved = report(FaultTold(SHORTED, "supply short", "L1 is shorted", fuses=("F1",)))
    assert summary_of_shorts(saved) == []
    assert "Fuses and wires" not in faults_markdown(saved)
    assert "Fuses and wires" not in plain_text(faults_lines(saved, 80))


def test_of_many_wires_the_first_are_named_and_the_others_counted() -> None:
    """Each once."""
    wires = [f"w{number}" for number in range(20)]
    assert named([*wires, *wires]).startswith("w0, w1, ")
    assert named(wires).endswith(" more")


def test_a_fault_that_nobody_would_notice_is_told_to_be_hidden() -> None:
    """One that could not be judged is not."""
    hidden = FaultTold(SHORTED, "holds", "it still stops")
    assert noticed_words(hidden) == "hidden: nobody would notice before a second fault"
    assert not is_hidden(FaultTold(SHORTED, UNJUDGED, UNDECIDED))


def told(*verdicts: Verdict, width: int = 100) -> str:
    """The report on these plans, its blanks and line ends as one blank each."""
    return " ".join(plain_text(findings_lines(verdicts, width)).split())


def test_orders_of_relays_are_told_after_the_steps() -> None:
    """Who is quicker, what then happens, and how it ends."""
    orders = (Telling("K1", ("K1 operates",), "M1 forward"), Telling("", ("K2 operates",), "and so on for ever"))
    assert order_words(orders[0]) == "if K1 is quicker: K1 operates; ends with M1 forward"
    assert order_words(orders[1]) == "K2 operates, and so on for ever"
    assert "and then if K1 is quicker" in told(CLEAN._replace(findings=(FOUND._replace(orders=orders),)))


def test_a_heading_that_has_no_room_beside_its_place_has_lines_of_its_own() -> None:
    """Two on a narrow screen, three where even the heading is too wide."""
    place = Place("the_drawbridge_of_the_travelling_theatre.plan", 3, 1, 3, 3)
    found = FOUND._replace(where=(place,), reached="combination")
    lines = plain_text(findings_lines([CLEAN._replace(findings=(found,))], 80)).splitlines()
    narrow = plain_text(findings_lines([CLEAN._replace(findings=(found,))], 40)).splitlines()
    assert lines[0].startswith("warning  unbraked-stop  in a combination")
    assert lines[1] == f"{place.file}:3:1"
    assert narrow[:3] == [
        "warning  unbraked-stop",
        "in a combination that operation does not reach",
        f"{place.file}:3:1",
    ]


def test_what_was_covered_is_told_with_the_engine_and_as_far_as_it_was_counted() -> None:
    """A plan too wide to count all at once says so."""
    wide = CLEAN._replace(engine="decision diagrams", reachable=None, findings=(FOUND,), defaulted=("wires of 1 mm²",))
    assert "32 combinations covered, 16 reachable, 8 of them settled" in told(CLEAN)
    assert "covered by decision diagrams, each finding and proof over the part of them that it depends on" in told(wide)
    assert "by default wires of 1 mm²" in told(wide)


def test_plans_that_were_not_looked_at_for_the_same_share_no_proof() -> None:
    """What was proved of one is told where it is checked alone; a file of types alone has nothing to examine."""
    other = CLEAN._replace(file="jaw.plan", checks=())
    assert "Of plans in which nothing was found is proved" in told(CLEAN, CLEAN._replace(file="jaw.plan"))
    assert "Not every plan was looked at for the same" in told(CLEAN, other)
    assert "parts.plan: nothing to examine" in told(CLEAN, CLEAN._replace(file="parts.plan", parts=0))
