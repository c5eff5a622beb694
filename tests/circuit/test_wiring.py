"""Wires: written, drawn by rungs, and what is said of them."""

from collections.abc import Callable

from circuitcheck.circuit.figures import WireInfo
from circuitcheck.circuit.model import Circuit

Build = Callable[[str], Circuit]
PARTS = """supply PS 12 V 10 A
fuse F1 7.5 A
button PB1 PB2 no
relay K1 spdt coil 12 V 160 ohm
lamp L1 L2 12 V 2 W
splice N1
"""


def wires(circuit: Circuit) -> list[str]:
    """ "PS.+ F1.1" for each wire, in order."""
    return [f"{one.tail} {one.head}" for one in circuit.conductors if one.kind == "wire"]


def test_a_wire_is_told_by_gauge_colour_length_and_number(build: Build) -> None:
    """In any order after the colon, in millimetres squared and metres."""
    circuit = build(PARTS + "wire PS.+ F1.1 : w12 red 40 cm 1.5 mm2\nwire F1.2 N1 : 18 AWG green/yellow 1 ft")
    told, gauged = circuit.wires
    assert told[1:5] == (1.5, 0.4, "red", "w12")
    assert (round(gauged.area_mm2, 3), round(gauged.metres, 4), gauged.colour) == (0.823, 0.3048, "green/yellow")
    assert isinstance(told, WireInfo)


def test_a_rung_wires_each_item_to_the_next(build: Build) -> None:
    """A bare name passes a two-terminal part from its first mark to its second."""
    assert wires(build(PARTS + "rung PS.+, F1, PB1.13-14, K1.A1-A2, PS.-")) == [
        "PS.+ F1.1",
        "F1.2 PB1.13",
        "PB1.14 K1.A1",
        "K1.A2 PS.-",
    ]


def test_branches_of_a_rung_meet_at_both_ends(build: Build) -> None:
    """Parallel branches share the neighbours on either side."""
    assert wires(build(PARTS + "rung F1.2, ( PB1 | K1.11-14 ), L1")) == [
        "F1.2 PB1.13",
        "F1.2 K1.11",
        "PB1.14 L1.1",
        "K1.14 L1.1",
    ]


def test_branches_at_the_end_of_a_rung_meet_though_nothing_follows(build: Build) -> None:
    """Parallel means joined at both ends, also where the rung has no neighbour to offer."""
    assert wires(build(PARTS + "rung F1.2, ( L1 | L2 )")) == ["F1.2 L1.1", "F1.2 L2.1", "L1.2 L2.2"]


def test_neighbouring_branches_meet_in_one_point(build: Build) -> None:
    """Two by two branches take three wires, not four."""
    circuit = build(PARTS + "rung N1, ( PB1 | PB2 ), ( L1 | L2 ), PS.-")
    assert wires(circuit)[2:5] == ["PB1.14 L1.1", "PB1.14 L2.1", "PB2.14 L1.1"]


def test_branches_may_nest_and_hold_several_items(build: Build) -> None:
    """A branch is a rung of its own."""
    circuit = build(PARTS + "rung PS.+, ( F1, PB1 | ( PB2 | K1.11-12 ) ), L1")
    assert set(wires(circuit)) == {
        "F1.2 PB1.13",
        "PS.+ F1.1",
        "PS.+ PB2.13",
        "PS.+ K1.11",
        "PB1.14 L1.1",
        "PB2.14 L1.1",
        "K1.12 L1.1",
    }


def test_rungs_that_share_a_stretch_draw_its_wire_once(build: Build) -> None:
    """A wire line may give the colour of one that rungs draw, wherever it stands."""
    circuit = build(PARTS + "rung F1.2, PB1, L1\nrung F1.2, PB1, L2\nwire PB1.13 F1.2 : red")
    assert wires(circuit) == ["PB1.13 F1.2", "PB1.14 L1.1", "PB1.14 L2.1"]
    assert circuit.wires[0].colour == "red"


def test_a_wire_of_a_rung_stands_where_the_rung_names_its_ends(build: Build) -> None:
    """From the one item to the other, so that a message can show both."""
    circuit = build(PARTS + "rung F1.2, PB1, L1")
    wire = next(one for one in circuit.conductors if one.kind == "wire")
    assert wire.place[1:] == (7, 6, 7, 15)
    assert wire.name == "the wire F1.2 to PB1.13"
