"""The wire list: what order it is in, and what it tells of a terminal where several wires end."""

from collections import Counter
from pathlib import Path

import pytest

from circuitcheck.circuit.building import build_circuit
from circuitcheck.circuit.catalogue.kinds import KINDS
from circuitcheck.circuit.model import Circuit
from circuitcheck.paper.areas import areas_of
from circuitcheck.paper.cut_list import cut_list
from circuitcheck.paper.labels import labels_of
from circuitcheck.paper.pin_outs import pin_outs
from circuitcheck.paper.strips import strips_of
from circuitcheck.paper.wire_list import DEPTH, INSIDE, LINKS, OUTWARD, PANEL, SUPPLY, wire_list
from circuitcheck.plan.reading import read_plan, read_text

EXAMPLES = Path(__file__).parents[2] / "examples"
RIGHT = sorted((EXAMPLES / "right").glob("*.plan"))

BOX_AND_DECK = """
plan Bridge
supply PS 12 V 10 A
fuse   F1 5 A
button PB1 no
relay  K1 dpdt coil 12 V 160 ohm with diode
connector J1 2 ways
splice N1
motor  M1 12 V stall 5 A
wire   PS.+ F1.1 : 0.5 mm2 red 0.3 m
wire   F1.2 K1.14 : 0.5 mm2 red 0.2 m w7
wire   K1.A1 K1.24
rung   F1.2, PB1, K1.A1-A2, PS.-
wire   K1.11 J1.p1 : 0.5 mm2 blue
wire   K1.12 J1.p2 : 0.5 mm2 blue 0.4 m
wire   K1.12 PS.-
wire   J1.s1 N1 : 0.5 mm2 blue 2 m
wire   N1 M1.+
wire   J1.s2 M1.-
"""


def circuit_of(path: Path) -> Circuit:
    """An example's circuit."""
    return build_circuit(read_plan(path, (EXAMPLES / "parts",)))


def bridge() -> Circuit:
    """A box and a deck, joined by a plug."""
    return build_circuit(read_text("bridge.plan", BOX_AND_DECK))


@pytest.mark.parametrize("path", RIGHT, ids=lambda path: path.stem)
def test_every_wire_is_soldered_once_and_every_terminal_with_its_last_wire(path: Path) -> None:
    """Whatever else happens, the ends at a terminal count up to how many there are, and nothing is left out."""
    circuit = circuit_of(path)
    lines = wire_list(circuit).lines
    soldered = [frozenset((line.start.terminal, line.end.terminal)) for line in lines]
    conductors = [frozenset((one.tail, one.head)) for one in circuit.conductors if one.kind == "wire"]
    assert Counter(soldered) == Counter(conductors)
    places: dict[str, list[int]] = {}
    for end in (end for line in lines for end in (line.start, line.end)):
        places.setdefault(end.terminal, []).append(end.place)
        assert end.solder == (end.place == end.of)
    for terminal, found in places.items():
        assert found == list(range(1, sum(terminal in pair for pair in conductors) + 1))


def test_wires_go_from_the_inside_outward_and_the_supply_comes_last() -> None:
    """Links, the panel, what leads out, the supply; then the other side of the plug."""
    steps = [(step.area, step.number) for step in wire_list(bridge()).steps]
    assert steps == [(0, LINKS), (0, PANEL), (0, OUTWARD), (0, SUPPLY), (1, OUTWARD)]


def test_a_terminals_wires_follow_each_other_the_shortest_first() -> None:
    """At the supply's −: none of the two is known, so the plan's order decides; at J1 by the pins."""
    lines = {step.number: step.lines for step in wire_list(bridge()).steps if step.area == 0}
    assert [line.start.terminal for line in lines[OUTWARD]] == ["J1.p1", "J1.p2"]
    assert [line.start.terminal for line in lines[SUPPLY]] == ["PS.+", "PS.-", "PS.-"]


def test_a_prop_comes_apart_at_its_connectors() -> None:
    """Each half of the plug goes with the parts that its wires lead to."""
    box, deck = areas_of(bridge())
    assert (box.parts, box.sides) == (("PS", "F1", "PB1", "K1"), (("J1", "p"),))
    assert (deck.parts, deck.sides) == (("N1", "M1"), (("J1", "s"),))


def test_every_kind_of_part_has_its_depth() -> None:
    """A new kind must be given a place in the soldering order."""
    assert set(DEPTH) == set(KINDS)
    assert set(DEPTH.values()) == {INSIDE, PANEL, OUTWARD, SUPPLY}


def test_a_cut_list_adds_the_spare_and_counts_what_is_unknown() -> None:
    """0.4 m and 2 m, 10 cm more each; one blue wire has no length."""
    roll = next(roll for roll in cut_list(bridge()) if roll.colour == "blue")
    assert [wire.metres for wire in roll.wires] == [2.0, 0.4, 0.0]
    assert (round(roll.metres, 9), roll.unknown) == (2.6, 1)


def test_wires_of_unknown_gauge_are_cut_last() -> None:
    """They can't be cut at all before somebody decides."""
    assert [roll.gauge for roll in cut_list(bridge())] == ["0.5 mm²", "0.5 mm²", ""]


def test_a_pin_out_tells_both_halves_of_every_pin() -> None:
    """The plug's wires come from the box, the socket's from the deck."""
    (connector,) = pin_outs(bridge())
    told = [(pin.number, [w.far_from(f"J1.p{pin.number}") for w in pin.plug],
             [w.far_from(f"J1.s{pin.number}") for w in pin.socket]) for pin in connector.pins]  # fmt: skip
    assert told == [(1, ["K1.11"], ["N1"]), (2, ["K1.12"], ["M1.-"])]


def test_a_splice_is_told_with_all_its_wires() -> None:
    """It is a joint as much as a way of a strip is."""
    (splice,) = strips_of(bridge())
    assert [wire.far_from("N1") for wire in splice.ways[0].wires] == ["J1.s1", "M1.+"]


def test_a_wire_has_a_label_at_each_end_and_a_part_has_one() -> None:
    """The label of an end names the terminal that it goes to."""
    labels = labels_of(bridge())
    assert Counter(label.number for label in labels.wires) == dict.fromkeys((line.wire.number for line in
                                                                             wire_list(bridge()).lines), 2)  # fmt: skip
    assert {label.terminal for label in labels.wires if label.number == "w7"} == {"F1.2", "K1.14"}
    assert [label.name for label in labels.parts] == ["PS", "F1", "PB1", "K1", "J1", "N1", "M1"]
