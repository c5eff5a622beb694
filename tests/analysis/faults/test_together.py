"""What of a box hangs together, of two drives on one rail."""

import re

import pytest

from circuitcheck.analysis.facts import Facts, analyse
from circuitcheck.analysis.faults import verdicts
from circuitcheck.analysis.faults.beside import roomy_spaces
from circuitcheck.analysis.faults.listing import single_faults
from circuitcheck.analysis.faults.together import Together
from circuitcheck.analysis.faults.verdicts import Judge, Verdict
from circuitcheck.analysis.states import Spaces, TooWide
from circuitcheck.analysis.supposed import Change
from circuitcheck.analysis.surroundings import TooManyCases
from circuitcheck.circuit.model import Circuit
from tests.analysis.plans import circuit_of
from tests.benchmarks.faults import boxes

ONE, TWO = boxes(1, behind_stop=False), boxes(2, behind_stop=False)
APART = Together(TWO, roomy_spaces(TWO))
RAILS = """
supply P1 12 V 10 A
supply P2 24 V 10 A
strip  X1 3 ways
strip  X2 2 ways
lamp   L1 L2 L3 12 V 2 W
lamp   L4 24 V 2 W
wire   P1.+ X1.1
wire   X1.1 X1.2
wire   X1.1 X1.3
wire   X1.2 L1.1
wire   X1.2 L2.1
wire   X1.3 L3.1
wire   P1.+ X2.1
wire   P1.+ X2.1
wire   X2.1 X2.2
wire   L1.2 P1.-
wire   L2.2 P1.-
wire   L3.2 P1.-
wire   P1.- P2.-
wire   P2.+ L4.1
wire   L4.2 P2.-
"""


def parts_of(together: Together, change: Change) -> set[str]:
    """The parts of the small boxes that a change touches."""
    return set(together.within(together.circuit, together.concerned(change)).parts)


def test_a_fault_of_one_drive_touches_all_of_it_and_nothing_of_the_other() -> None:
    """Their names bear its drive's number; what befalls the supply befalls both. Fuses lie on the rail that is held."""
    drives = {1: {"PS", "F1", "S1", "K11", "K12", "deck1", "TOP1", "LOW1", "J1", "M1"}}
    drives[2] = {re.sub(r"1(\d?)$", r"2\1", name) for name in drives[1]}
    for fault in single_faults(TWO):
        if fault.kind.startswith("supply"):
            assert APART.concerned(fault.change) == APART.all
        else:
            touched = {int(one) for one in re.findall(r"\b(?:F|S|K|TOP|LOW|J|M)(\d)", fault.called)}
            expected = set[str]().union(*(drives[number] for number in touched)) - {"deck1", "deck2"}
            assert parts_of(APART, fault.change) == expected | {"F1", "F2"}, fault.called


def test_the_part_of_one_drive_is_the_box_with_that_drive_alone() -> None:
    """With all that is in it, and the rail's other wires; digits are those of the whole box."""
    found = APART.within(TWO, APART.concerned(Change(stuck=((ONE.relays[0].digit, 1),))))
    for field in ("loads", "relays", "motors", "limits", "supplies"):
        assert getattr(found, field) == getattr(ONE, field), field
    assert set(ONE.conductors) < set(found.conductors)
    for one in set(found.conductors) - set(ONE.conductors):
        assert (one.part, one.closed) in (("", None), ("F2", None))
    assert found.digits == TWO.digits
    assert not found.promises


def test_in_the_part_of_the_other_drive_relays_and_motors_find_their_own_loads() -> None:
    """Loads have other numbers there, and wires other conductors."""
    found = APART.within(TWO, APART.concerned(Change(broken=frozenset({len(TWO.loads) - 1}))))
    assert {load.part for load in found.loads} == {"K21", "K22", "M2"}
    assert [found.loads[relay.coil.load].part for relay in found.relays] == ["K21", "K22"]
    assert [found.loads[one.load].part for motor in found.motors for one in motor.windings] == ["M2"]
    assert [limit.name for limit in found.limits] == ["TOP2", "LOW2"]
    assert all(found.conductors[wire.conductor].kind == "wire" for wire in found.wires)
    assert len(found.wires) == sum(one.kind == "wire" for one in found.conductors)


def rails(*wires: str) -> set[str]:
    """The lamps that lose their rail with some wires of it, by their ends."""
    circuit = circuit_of(RAILS)
    gone = frozenset(number for number, one in enumerate(circuit.conductors) if f"{one.tail} {one.head}" in wires)
    assert gone
    return lamps(circuit, Change(opened=gone))


def lamps(circuit: Circuit, change: Change) -> set[str]:
    """Those that a change touches."""
    return {name for name in parts_of(Together(circuit, roomy_spaces(circuit)), change) if name.startswith("L")}


@pytest.mark.parametrize(
    ("wire", "touched"),
    [
        ("P1.+ X1.1", {"L1", "L2", "L3"}),
        ("X1.1 X1.2", {"L1", "L2"}),
        ("X1.1 X1.3", {"L3"}),
        ("X1.2 L1.1", {"L1"}),
        ("X2.1 X2.2", set()),
        ("P1.- P2.-", {"L1", "L2", "L3", "L4"}),
        ("L4.2 P2.-", {"L4"}),
    ],
)
def test_a_wire_of_a_rail_touches_what_it_cuts_off(wire: str, touched: set[str]) -> None:
    """All there is where it parts two supplies."""
    assert rails(wire) == touched


def test_of_two_wires_side_by_side_both_have_to_break() -> None:
    """One is as good as the other."""
    circuit = circuit_of(RAILS)
    pair = [number for number, one in enumerate(circuit.conductors) if (one.tail, one.head) == ("P1.+", "X2.1")]
    together = Together(circuit, roomy_spaces(circuit))
    assert [together.concerned(Change(opened=frozenset({number}))) for number in pair] == [frozenset(), frozenset()]


def test_what_touches_a_rail_touches_its_own_box_and_two_rails_touch_all() -> None:
    """A rail that its supply holds parts what it feeds."""
    circuit = circuit_of(RAILS + "button PB1 no\nlamp L5 12 V 2 W\nrung P1.+, PB1, L5, P1.-\n")
    assert lamps(circuit, Change(joined=(("L5.1", "P1.-"),))) == {"L5"}
    assert lamps(circuit, Change(joined=(("P1.+", "P1.-"),))) == {"L1", "L2", "L3", "L4", "L5"}
    assert lamps(circuit, Change(joined=(("P1.+", "X1.3"),))) == set()


TIED = """
supply PS 12 V 10 A
switch S1 S2 S3 S4 S5 spst positions off on
relay  K1 no coil 12 V 160 ohm
relay  K2 no latching coil 12 V 160 ohm
axis   deck from low to high
limit  LS1 no on deck at high
motor  M1 two-speed 12 V stall 5 A drives deck toward high
lamp   L1 L2 L3 L4 12 V 2 W
wire   M1.- PS.-
rung   PS.+, S1.com-on, K1.A1-A2, PS.-
rung   PS.+, K1.13-14, L1, PS.-
rung   PS.+, S2.com-on, M1.low
rung   PS.+, S3.com-on, M1.high
rung   PS.+, LS1, L2, PS.-
rung   PS.+, S4.com-on, K2.A1-A2, PS.-
rung   PS.+, S5.com-on, K2.B1-B2, PS.-
rung   PS.+, K2.13-14, L3, PS.-
rung   PS.+, L4, PS.-
"""
BOXES = ({"S1", "K1", "L1"}, {"S2", "S3", "M1", "LS1", "L2"}, {"S4", "S5", "K2", "L3"})


@pytest.mark.parametrize("box", BOXES)
def test_a_relay_ties_coils_to_contacts_and_an_axis_its_motor_to_its_limits(box: set[str]) -> None:
    """Whichever control of it sticks: all of it is looked at, with its own loads, and nothing else."""
    circuit = circuit_of(TIED)
    together = Together(circuit, roomy_spaces(circuit))
    for number, digit in enumerate(circuit.digits):
        if digit.kind == "control" and digit.name in box:
            found = together.within(circuit, together.concerned(Change(stuck=((number, 1),))))
            assert set(found.parts) == box | {"PS"}
            for relay in found.relays:
                coils = [one for one in (relay.coil, relay.reset) if one]
                assert [found.loads[one.load].part for one in coils] == [relay.name] * len(coils)
                assert len({one.load for one in coils}) == len(coils) == (2 if relay.name == "K2" else 1)
            for motor in found.motors:
                assert [found.loads[one.load].name for one in motor.windings] == ["M1 low", "M1 high"]


def test_a_fault_that_concerns_nothing_leads_to_nothing() -> None:
    """A wire of a strip's far way, where nothing hangs; two ways of one rail that touch."""
    circuit = circuit_of(RAILS)
    faults = {one.called: one for one in single_faults(circuit)}
    assert Judge(circuit).verdict(faults["the wire X2.1 to X2.2 open"]) == Verdict()
    touching = faults["the wire X1.1 to X1.2 open"]._replace(change=Change(joined=(("P1.+", "X1.3"),)))
    assert Judge(circuit).verdict(touching).outcomes == ()


def test_faults_of_one_drive_concern_the_same_and_those_of_two_drives_do_not() -> None:
    """What befalls the supply befalls each small box by itself."""
    judge = Judge(TWO)
    faults = {one.called: one for one in single_faults(TWO)}
    first, beside, other = (faults[name] for name in ("K11.11-14 welded", "LOW1 stuck free", "K21.11-14 welded"))
    assert judge.concern_the_same(first, beside)
    assert not judge.concern_the_same(first, other)
    assert len(judge.verdict(first).besides) == 1
    for name in ("PS lost", "PS reversed"):
        found = judge.verdict(faults[name])
        drives = [{motor.name for motor in one.faulty.circuit.motors} for one in found.besides]
        assert sorted(map(sorted, drives)) == [["M1"], ["M2"]]
    both = boxes(1, behind_stop=False)
    welded_and_lost = faults["PS lost"]._replace(change=Change(lost=frozenset({0}), opened=frozenset({0})))
    assert len(Judge(both).verdict(welded_and_lost).besides) == 1


@pytest.mark.parametrize(
    ("errors", "undecided"),
    [([], False), ([TooWide((0,), 1)], False), ([TooWide((0,), 1)] * 2, True), ([TooManyCases(0)], True)],
)
def test_what_grows_too_wide_is_looked_at_again_with_diagrams(
    errors: list[Exception], undecided: bool, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Too wide for both, or with too many cases, it is undecided."""
    left = list(errors)

    def analysed(circuit: Circuit, spaces: Spaces) -> Facts:
        if left:
            raise left.pop()
        return analyse(circuit, spaces)

    monkeypatch.setattr(verdicts, "analyse", analysed)
    fault = next(one for one in single_faults(ONE) if one.called == "TOP1 stuck free")
    found = Judge(ONE).verdict(fault)
    assert found.undecided == undecided
    assert ["overtravel" in one.consequence for one in found.outcomes] == ([] if undecided else [True])
    assert not left
