"""Which faults are supposed of which part, how they are called, and the circuit with each of them."""

from pathlib import Path
from textwrap import dedent

import pytest

from circuitcheck.analysis.faults.fault import Fault, both_changes, with_fault
from circuitcheck.analysis.faults.listing import single_faults
from circuitcheck.analysis.faults.published import SUPPOSED
from circuitcheck.analysis.supposed import Change
from circuitcheck.circuit.building import build_circuit
from circuitcheck.circuit.model import Circuit, Closed
from circuitcheck.plan.reading import read_plan, read_text

EXAMPLES = Path(__file__).parents[3] / "examples"


def circuit_of(text: str) -> Circuit:
    """The circuit of a plan that is written here."""
    return build_circuit(read_text("a.plan", dedent(text)))


def example(name: str) -> Circuit:
    """The circuit of an example for people."""
    return build_circuit(read_plan(EXAMPLES / f"{name}.plan", (EXAMPLES,)))


def called(circuit: Circuit) -> dict[str, Fault]:
    """Every fault by how it is called."""
    return {fault.called: fault for fault in single_faults(circuit)}


def words_of(circuit: Circuit, name: str) -> set[str]:
    """How the faults of one part are called."""
    return {fault.called for fault in single_faults(circuit) if fault.part == name}


def test_a_relay_sticks_welds_and_loses_its_coil_and_diode() -> None:
    """Armature, each wired contact, both throws at once, coil and diode: ISO 13849-2 annex D, from memory."""
    assert words_of(example("right/lighthouse_two_supplies"), "K1") == {
        "K1 stuck released",
        "K1 stuck operated",
        *(f"K1.{contact} {state}" for contact in ("11-12", "11-14", "21-22", "21-24") for state in ("welded", "open")),
        "K1.11-12-14 all joined",
        "K1.21-22-24 all joined",
        "the coil K1.A1-A2 open",
        "the coil K1.A1-A2 shorted",
        "the diode across K1.A1-A2 open",
        "the diode across K1.A1-A2 shorted",
    }


def test_an_emergency_stop_parts_its_contacts_and_does_not_stick_released() -> None:
    """Direct opening (IEC 60947-5-1 annex K.2.2) leaves a contact that does not close, and one that stays pressed."""
    assert words_of(example("right/curtain"), "ES1") == {"ES1 stuck pressed", "ES1.11-12 open"}


def test_a_limit_sticks_moves_and_comes_off() -> None:
    """At an end of its axis it moves inward or beyond."""
    assert words_of(example("right/touring_drawbridge"), "LS1") == {
        "LS1 stuck pressed",
        "LS1 stuck free",
        "LS1 torn off",
        "LS1 moved toward top",
        "LS1 moved toward bottom",
        "LS1.com-nc welded",
        "LS1.com-nc open",
    }


def test_a_timing_relay_may_lose_its_input() -> None:
    """Beside its coil."""
    text = "supply PS 12 V 5 A\nrelay K1 spdt off-delay 3 s controlled coil 12 V 160 ohm\nrung PS.+, K1.A1-A2, PS.-\n"
    told = {one.called: one.kind for one in single_faults(circuit_of(text)) if "stuck" not in one.state}
    assert told["the input K1.B1 open"] == told["the coil K1.A1-A2 open"] == "coil open"
    assert told["the input K1.B1 shorted"] == "coil shorted"


def test_a_limit_that_moved_past_its_end_is_pressed_beyond_it_only() -> None:
    """A limit at the top that moved outward lets the deck go past top first."""
    circuit = example("right/touring_drawbridge")
    zones = {
        state: with_fault(circuit, called(circuit)[f"LS1 {state}"]).limits[0].zones
        for state in ("moved toward top", "moved toward bottom", "stuck pressed", "stuck free")
    }
    assert circuit.limits[0].zones == {3, 4}
    assert zones == {
        "moved toward top": {4},
        "moved toward bottom": {2, 3, 4},
        "stuck pressed": {0, 1, 2, 3, 4},
        "stuck free": set(),
    }


@pytest.mark.parametrize(
    ("place", "toward_high", "toward_low"), [("half", {4}, {2}), ("low", {0, 1, 2}, {0}), ("high", {6}, {4, 5, 6})]
)
def test_a_limit_moves_toward_either_end_of_its_axis(place: str, toward_high: set[int], toward_low: set[int]) -> None:
    """By one zone, whatever places there are between; one that is pressed beyond an end stays so."""
    circuit = circuit_of(f"supply PS 12 V 5 A\naxis deck from low via half to high\nlimit LS1 no on deck at {place}\n")
    moved = {one.state: with_fault(circuit, one).limits[0].zones for one in single_faults(circuit)}
    assert moved["moved toward high"] == toward_high
    assert moved["moved toward low"] == toward_low


def test_neighbours_touch_in_a_connector_and_on_a_strip() -> None:
    """Side by side only, and only where both have a wire."""
    circuit = example("right/touring_drawbridge")
    assert {fault.called for fault in single_faults(circuit) if fault.kind == "pins touching"} == {
        f"J1.p{number} touches J1.p{number + 1}" for number in range(1, 6)
    }
    assert {fault.called for fault in single_faults(circuit) if fault.kind == "terminals touching"} == {
        f"X1.{number} touches X1.{number + 1}" for number in range(1, 6)
    }


def test_wires_touch_the_frame_where_the_plan_says_what_that_is() -> None:
    """The beam's case lies on minus, so each wire that doesn't may touch it; elsewhere nothing is known of a frame."""
    beam = called(example("right/storm_beam"))
    assert "the wire PS.+ to F1.1 touches the frame" in beam
    assert "the wire M1.case to PS.- touches the frame" not in beam
    assert "M1.low touches its case" in beam
    assert not any("frame" in words for words in called(example("right/drawbridge")))


def test_a_welded_changeover_leaves_its_other_throw_open() -> None:
    """The tongue sticks to one side."""
    circuit = example("right/lighthouse_two_supplies")
    welded = with_fault(circuit, called(circuit)["K1.11-14 welded"])
    poles = [one for one in welded.conductors if one.tail == "K1.11" and one.part == "K1"]
    assert [(one.head, one.closed) for one in poles] == [("K1.14", None)]


def test_a_broken_motor_neither_runs_nor_brakes() -> None:
    """Its winding ends on a terminal that nothing else touches."""
    circuit = example("right/lighthouse_two_supplies")
    broken = with_fault(circuit, called(circuit)["M1 open"])
    end = broken.motors[0].windings[0].plus
    assert end == broken.loads[broken.motors[0].windings[0].load].a
    assert not any(end in (one.tail, one.head) for one in broken.conductors)
    assert end in broken.parts["M1"].terminals


def test_an_unwired_throw_has_no_faults() -> None:
    """It carries nothing, so it neither welds nor is missed."""
    assert not any("LS1.com-no" in words for words in called(example("right/touring_drawbridge")))


@pytest.mark.parametrize("path", sorted(EXAMPLES.glob("[rw]*/*.plan")), ids=lambda path: path.stem)
def test_every_fault_has_a_name_of_its_own_and_a_row_in_the_published_lists(path: Path) -> None:
    """No two faults are called the same, and each can be put in."""
    circuit = build_circuit(read_plan(path, (EXAMPLES,)))
    faults = single_faults(circuit)
    assert len({fault.called for fault in faults}) == len(faults)
    assert {fault.kind for fault in faults} <= {row.kind for row in SUPPOSED}
    for fault in faults:
        with_fault(circuit, fault)


def test_a_supply_is_connected_the_wrong_way_round_while_it_is_unplugged() -> None:
    """Nobody swaps its leads with the power on; each supply has its own fault."""
    circuit = circuit_of("supply P1 12 V 5 A\nsupply P2 24 V 5 A\nlamp L1 24 V 2 W\nrung P2.+, L1, P2.-\n")
    reversed_one = called(circuit)["P2 reversed"]
    digit = circuit.supplies[1].digit
    assert reversed_one.change.reversed == {1}
    assert [(one.digit, one.values) for one in reversed_one.change.begins] == [(digit, frozenset({0}))]
    assert called(circuit)["P1 lost"].change.lost == {0}


def test_a_brush_that_is_joined_to_the_case_anyway_cannot_come_to_touch_it() -> None:
    """The others can; of a motor that the plan says nothing of its case of, none is supposed to."""
    box = "supply PS 12 V 5 A\nmotor M1 two-speed 12 V stall 5 A {}\nwire PS.- M1.-\n"
    box += "wire PS.+ M1.low\nwire PS.+ M1.high\n"
    touching = {one for one in words_of(circuit_of(box.format("case on -")), "M1") if "case" in one}
    assert touching == {"M1.low touches its case", "M1.high touches its case"}
    assert not {one for one in words_of(circuit_of(box.format("")), "M1") if "case" in one}


def test_of_two_changes_where_the_first_began_counts_only_while_it_stays_there() -> None:
    """What sticks still stands where it stuck; a weld or a swap of leads may have come long before."""
    first, second = Closed(0, frozenset({1})), Closed(1, frozenset({0}))
    later = Change(begins=(second,))
    assert both_changes(Change(stuck=((0, 1),), begins=(first,)), later).begins == (first, second)
    assert both_changes(Change(always=frozenset({3}), begins=(first,)), later).begins == (second,)


def test_leads_that_were_swapped_twice_are_as_they_were() -> None:
    """All else adds up."""
    one, other = Change(reversed=frozenset({0}), opened=frozenset({2})), Change(reversed=frozenset({0, 1}))
    both = both_changes(one, other._replace(opened=frozenset({4}), lost=frozenset({1})))
    assert (set(both.reversed), set(both.opened), set(both.lost)) == ({1}, {2, 4}, {1})
    first, second = (
        Change(
            opened=frozenset({n}),
            always=frozenset({n}),
            joined=(("A", f"{n}"),),
            broken=frozenset({n}),
            stuck=((n, 1),),
            pressed=((n, frozenset({n})),),
        )
        for n in (1, 2)
    )
    added = both_changes(first, second)
    assert added.opened == added.always == added.broken == {1, 2}
    assert (added.joined, added.stuck) == ((("A", "1"), ("A", "2")), ((1, 1), (2, 1)))
    assert added.pressed == ((1, frozenset({1})), (2, frozenset({2})))
