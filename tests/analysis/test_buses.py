"""Wide pieces are cut at buses, and nothing else comes of it."""

from pathlib import Path

import pytest

from circuitcheck.analysis import facts
from circuitcheck.analysis.carrying import Carrying
from circuitcheck.analysis.facts import Facts, analyse
from circuitcheck.analysis.influence import digits_of
from circuitcheck.examination import examine
from tests.analysis.plans import circuit_of
from tests.benchmarks.panels import panel

EXAMPLES = Path(__file__).parents[2] / "examples"
BOX = """
supply PS 12 V 10 A
estop ES nc
splice BUS
rung PS.+, ES, BUS
switch S1 S2 S3 spst positions off on
lamp L1 L2 L3 12 V 2 W
rung BUS, S1.com-on, L1, PS.-
rung BUS, S2.com-on, L2, PS.-
rung BUS, S3.com-on, L3, PS.-
"""


@pytest.fixture
def finely(monkeypatch: pytest.MonkeyPatch) -> None:
    """Every piece is cut, which else only wide ones are."""
    monkeypatch.setattr(facts, "NARROW", 1)


@pytest.mark.parametrize("path", sorted(EXAMPLES.glob("right/*.plan")), ids=lambda path: path.stem)
def test_cutting_an_example_at_its_buses_changes_no_finding(path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Notes, examples, steps and counts included."""
    whole = examine(path, (EXAMPLES,))
    monkeypatch.setattr(facts, "NARROW", 1)
    assert examine(path, (EXAMPLES,)).findings == whole.findings


def names(found: Facts, load: int) -> set[str]:
    """The digits that a load's volts depend on."""
    sets = (states for fed in found.volts[load] for states in (fed.forward, fed.backward))
    return {found.circuit.digits[digit].name for digit in digits_of(*sets)}


@pytest.mark.usefixtures("finely")
def test_a_lamp_behind_a_bus_depends_on_what_feeds_the_bus_and_on_its_own_branch() -> None:
    """The other branches have no say."""
    found = analyse(circuit_of(BOX))
    assert len(found.regions.buses.nets) == 1
    assert names(found, 0) == {"PS", "ES", "S1"}


@pytest.mark.usefixtures("finely")
def test_a_bus_that_a_lamp_feeds_as_well_parts_nothing() -> None:
    """With the emergency stop pressed its volts hang on every branch."""
    found = analyse(circuit_of(BOX + "lamp L4 12 V 2 W\nrung PS.+, L4, BUS\n"))
    assert not found.regions.buses.nets
    assert names(found, 0) == {"PS", "ES", "S1", "S2", "S3"}


def test_a_run_relay_of_a_panel_depends_on_its_own_motor_and_its_neighbour() -> None:
    """However many motors hang on the same master relay."""
    found = analyse(circuit_of(panel(20)))
    coil = next(number for number, load in enumerate(found.circuit.loads) if load.part == "KR7")
    assert names(found, coil) == {"PS", "ES1", "K0", "S7", "deck7", "KR8"}


def test_a_way_over_a_bus_is_carried_as_if_nothing_were_cut(monkeypatch: pytest.MonkeyPatch) -> None:
    """Every conductor carries the same loads in the same states, before the bus and behind it."""
    circuit = circuit_of(BOX)
    whole = analyse(circuit)
    monkeypatch.setattr(facts, "NARROW", 1)
    finely = analyse(circuit)
    assert finely.conduction.network.buses
    uncut, cut = Carrying(whole), Carrying(finely)
    for number in range(len(circuit.conductors)):
        expected = [(one[:3], one.states.bits, one.states.space.digits) for one in uncut[number]]
        assert [(one[:3], one.states.bits, one.states.space.digits) for one in cut[number]] == expected
