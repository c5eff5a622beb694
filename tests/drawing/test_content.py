"""What there is to draw of a circuit."""

from circuitcheck.circuit.building import build_circuit
from circuitcheck.drawing.content import contents_of, wires_of
from circuitcheck.plan.reading import read_text

PLAN = """
conditions wire 1 mm2 0.5 m
supply PS 12 V
switch S1 1 poles 3 ways positions low mid high
button PB1 nc
relay  K1 dpdt coil 12 V 160 ohm with diode
axis   deck from bottom to top
limit  LS1 spdt on deck at top
suppressor V1 varistor 24 V
wire   PS.+ S1.com : 18 AWG red w5
wire   S1.mid K1.A1 : 3.3 mm2
wire   K1.A2 PS.-
"""
CIRCUIT = build_circuit(read_text("a.plan", PLAN))
BOXES = contents_of(CIRCUIT)


def test_a_supply_has_two_boxes_and_every_other_part_one() -> None:
    """An axis has no terminals, so there is nothing to draw of it."""
    names = [f"{box.part.name}{box.end}" for box in BOXES]
    assert names == ["PS+", "PS-", "S1", "PB1", "K1", "LS1", "V1"]


def test_terminals_that_a_part_joins_stand_together_the_common_one_between_its_throws() -> None:
    """A relay has its coil and its poles, a rotary switch all of its throws."""
    marks = {box.part.name: [[end.split(".")[1] for end in group.terminals] for group in box.groups] for box in BOXES}
    assert marks["K1"] == [["A1", "A2"], ["12", "11", "14"], ["22", "21", "24"]]
    assert marks["S1"] == [["low", "com", "mid", "high"]]
    assert marks["LS1"] == [["nc", "com", "no"]]


def test_contacts_that_open_when_they_are_worked_are_drawn_as_such() -> None:
    """Of relays, buttons and limits; a hand switch has none that is at rest."""
    inner = [one for box in BOXES for group in box.groups for one in group.inner if one.kind == "contact"]
    assert {one.b for one in inner if one.breaks} == {"PB1.12", "K1.12", "K1.22", "LS1.nc"}


def test_what_stands_across_a_coil_is_drawn_beside_it() -> None:
    """The diode that a relay has built in, with its anode at A2."""
    coil = next(box for box in BOXES if box.part.name == "K1").groups[0]
    assert [(one.kind, one.a, one.b) for one in coil.inner] == [("coil", "K1.A1", "K1.A2"), ("diode", "K1.A2", "K1.A1")]


def test_a_wire_is_told_as_it_is_cut() -> None:
    """A gauge that no table has in mm², too, and what the plan says of all wires where it says nothing of one."""
    assert [wire.label for wire in wires_of(CIRCUIT)] == ["w5 red 18 AWG", "w1 3.3 mm²", "w2 1 mm²"]
