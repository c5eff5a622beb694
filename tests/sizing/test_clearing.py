"""Whether the fuse that clears a short saves the wires on its way."""

from pathlib import Path

import pytest

from circuitcheck.analysis.faults.listing import single_faults
from circuitcheck.analysis.faults.verdicts import Judge
from circuitcheck.circuit.building import build_circuit
from circuitcheck.plan.reading import read_text
from circuitcheck.reports.faults_asking import FaultTold, asked_faults
from circuitcheck.sizing.clearing import Clearing, clear_short

AROUND = "conditions ambient 5..30 °C, insulation 70 °C, bundled 2 wires\n"
FED = """\
fuse   F1 {fuse}
button PB1 no
lamp   L1 12 V 5 W
wire   PS.+ F1.1 : 2.5 mm2 0.5 m
wire   F1.2 PB1.13 : 2.5 mm2 0.5 m
wire   PB1.14 L1.1 : {wire}
wire   L1.2 PS.- : 2.5 mm2 0.5 m
"""


def cleared(text: str, fault: str = "L1 shorted") -> Clearing:
    """What ends the short of a fault."""
    circuit = build_circuit(read_text("a.plan", AROUND + text))
    found = next(one for one in single_faults(circuit) if one.called == fault)
    (short,) = Judge(circuit).verdict(found).shorts
    return clear_short(short)


def fed(wire: str, supply: str, fuse: str = "10 A") -> Clearing:
    """The short of a lamp at the end of a wire."""
    return cleared(f"supply PS 12 V 10 A {supply}\n" + FED.format(fuse=fuse, wire=wire))


def test_a_fuse_as_small_as_the_wire_saves_it_whatever_the_supply_gives() -> None:
    """1.5 mm² may carry 13.1 A (IEC 60204-1 Table 6) and a 10 A blade lets no more than 10 A last: no figure of the
    supply is asked for."""
    assert fed("1.5 mm2", "") == Clearing(("F1",))


def test_a_thin_wire_is_saved_by_a_supply_that_gives_much() -> None:
    """0.5 mm² at some 90 A: a 10 A blade opens within 0.15 s at 600 % (ISO 8820-3), well within (115 · 0.5)² A²s."""
    assert fed("0.5 mm2 0.5 m", "internal 50 mohm") == Clearing(("F1",))


def test_a_thin_wire_burns_where_the_supply_limits_the_short_below_what_opens_the_fuse() -> None:
    """A supply that limits at 11 A never opens a 10 A fuse for sure, and 0.25 mm² carries 0.7 A."""
    found = fed("0.25 mm2 0.5 m", "limit 11 A")
    assert [(one.wire, one.surely) for one in found.burnt] == [("PB1.14-L1.1", True)]
    assert "a short of 11 A may never open F1" in found.burnt[0].why
    assert found.remedy.startswith("F1 doesn't save PB1.14-L1.1: take ")


def test_a_supply_that_limits_to_what_the_wire_carries_burns_nothing() -> None:
    """1.5 mm² behind 20 A of fuse and 12 A of supply."""
    assert fed("1.5 mm2 1 m", "limit 12 A", "20 A") == Clearing(("F1",))


@pytest.mark.parametrize(
    ("wire", "supply", "write"),
    [
        ("1 m", "internal 50 mohm", "its gauge, like `: 1.5 mm2`, or one for all in `conditions wire 1 mm2 0.5 m`"),
        ("0.25 mm2 1 m", "", "`internal 50 mohm` or `limit 12 A` at supply PS"),
        ("0.25 mm2", "internal 50 mohm", "gauge and length of the wires on the way, like `: 1.5 mm2 0.4 m`"),
        ("0.3 mm2 1 m", "internal 50 mohm", "a gauge that tables have"),
    ],
)
def test_a_figure_that_is_missing_makes_no_harm_but_is_asked_for(wire: str, supply: str, write: str) -> None:
    """Of the wire whose gauge, length, table or supply isn't known, with the words that would tell."""
    found = fed(wire, supply)
    assert found.burnt == ()
    assert [(one.wire, one.write) for one in found.untold] == [("PB1.14-L1.1", write)]


def test_wires_that_the_current_of_the_short_does_not_flow_through_are_not_looked_at() -> None:
    """A thin wire to another lamp, behind the same fuse."""
    text = "supply PS 12 V 10 A limit 11 A\n" + FED.format(fuse="10 A", wire="1.5 mm2")
    assert cleared(f"{text}lamp L2 12 V 2 W\nwire PB1.14 L2.1 : 0.25 mm2\nwire L2.2 PS.- : 0.25 mm2\n").burnt == ()


def test_what_two_fuses_side_by_side_let_last_adds_up() -> None:
    """Two blades of 10 A feed one wire: 1.5 mm² would stand one of them, not both; which blows first nobody can say."""
    text = """\
supply PS 12 V 10 A internal 50 mohm
fuse   F1 F2 10 A
lamp   L1 12 V 5 W
wire   PS.+ F1.1 : 2.5 mm2 1 m
wire   PS.+ F2.1 : 2.5 mm2 1 m
wire   F1.2 F2.2 : 2.5 mm2 1 m
wire   F1.2 L1.1 : {area} mm2 1 m
wire   L1.2 PS.- : 10 mm2 1 m
"""
    found = cleared(text.format(area="1.5"))
    assert [(one.wire, one.write) for one in found.untold] == [("F1.2-L1.1", "")]
    assert "several fuses" in found.untold[0].why
    assert cleared(text.format(area="10")) == Clearing(("F1", "F2"))


def told(tmp_path: Path, supply: str) -> FaultTold:
    """What the report tells of a lamp that is shorted at the end of a thin wire."""
    path = tmp_path / "a.plan"
    wire = FED.format(fuse="10 A", wire="0.25 mm2 0.5 m")
    path.write_text(f"{AROUND}supply PS 12 V 10 A {supply}\n{wire}", encoding="utf-8")
    return next(one for one in asked_faults(path, (), False).faults if one.fault.called == "L1 shorted")


def test_a_short_that_burns_a_wire_does_harm(tmp_path: Path) -> None:
    """Though a fuse stands on every way; what can't be told isn't counted as harm."""
    burning, untold = told(tmp_path, "limit 11 A"), told(tmp_path, "")
    assert (burning.harmless, burning.unfused, bool(burning.remedy)) == (False, False, True)
    assert (untold.harmless, bool(untold.untold)) == (True, True)
