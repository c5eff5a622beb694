"""Loads that no volts reach, and ways past the fuses."""

from circuitcheck.analysis.facts import analyse
from circuitcheck.analysis.unfed import always_joined, unfed_loads
from circuitcheck.analysis.unfused import unfused_ways
from tests.analysis.plans import circuit_of

PARTS = """supply PS 12 V 10 A
fuse F1 3 A
button PB1 spdt
diode D1
lamp L1 12 V 2 W
"""


def unfed(text: str) -> list[str]:
    """The names of the loads that nothing ever feeds."""
    circuit = circuit_of(PARTS + text)
    return [circuit.loads[load].name for load in sorted(unfed_loads(analyse(circuit)))]


def way(text: str) -> list[str]:
    """Where the first supply's current gets past the fuses."""
    circuit = circuit_of(PARTS + text)
    found = unfused_ways(circuit, circuit.supplies[0])
    return [step.end for step in found.way] if found else []


def test_a_lamp_behind_a_diode_the_wrong_way_round_is_unfed() -> None:
    """And the right way round it isn't."""
    assert unfed("rung PS.+, F1, D1.cathode-anode, L1, PS.-") == ["L1"]
    assert unfed("rung PS.+, F1, D1.anode-cathode, L1, PS.-") == []


def test_a_lamp_between_contacts_that_never_close_together_is_unfed() -> None:
    """The loop is there, but never closed."""
    assert unfed("button PB2 no nc\nrung PS.+, F1, PB2.13-14, L1, PB2.21-22, PS.-") == ["L1"]


def test_a_lamp_that_only_a_short_keeps_dark_is_not_called_unfed() -> None:
    """The short is what is wrong."""
    assert unfed("rung PS.+, F1, L1, PS.-\nwire F1.2 PS.-") == []


def test_a_resistor_that_brakes_a_motor_is_not_called_unfed() -> None:
    """The motor's own current runs through it."""
    assert unfed("motor M1 12 V stall 5 A\nresistor R1 1 ohm\nrung PS.+, F1, PB1.14-11, M1, PS.-\n"
                 "rung PB1.12, R1, PS.-\nrung F1.2, L1, PS.-") == []  # fmt: skip


def test_a_resistor_at_one_brush_alone_brakes_nothing() -> None:
    """Its other end leads nowhere, so it is one more load that nothing feeds."""
    assert unfed("motor M1 12 V stall 5 A\nresistor R1 1 ohm\nstrip X1 1 ways\nrung PS.+, F1, PB1.14-11, M1, PS.-\n"
                 "rung M1.+, R1, X1.1\nrung F1.2, L1, PS.-") == ["R1"]  # fmt: skip
    assert unfed("motor M1 12 V stall 5 A\nresistor R1 1 ohm\nstrip X1 1 ways\nrung PS.+, F1, PB1.14-11, M1, PS.-\n"
                 "rung X1.1, R1, M1.+\nrung F1.2, L1, PS.-") == ["R1"]  # fmt: skip


def test_a_motor_brakes_no_motor_by_being_across_itself() -> None:
    """Behind a diode the wrong way round it is as unfed as a lamp."""
    assert unfed("motor M1 12 V stall 5 A\nrung PS.+, F1, D1.cathode-anode, M1, PS.-\nrung F1.2, L1, PS.-") == ["M1"]


def test_a_lamp_is_always_joined_if_a_wire_leads_past_it_or_contacts_of_which_one_is_always_closed() -> None:
    """While a button is pressed half, which no plan counts on, it may be otherwise."""
    for past in ("wire L1.1 L1.2", "button PB2 no nc\nrung L1.1, ( PB2.13-14 | PB2.21-22 ), L1.2"):
        facts = analyse(circuit_of(PARTS + "rung PS.+, F1, PB1.11-14, D1, L1\n" + past))
        assert always_joined(facts, 0)
    assert not always_joined(analyse(circuit_of(PARTS + "rung PS.+, F1, L1\nrung L1.1, PB1.11-14, L1.2")), 0)


def test_a_lamp_that_is_fed_only_while_the_supply_is_shorted_is_not_called_unfed() -> None:
    """The button that feeds it shorts the rails; a lamp behind a diode the wrong way round stays dark for itself."""
    short = "button PB2 no no\nrung PS.+, F1, PB2.13-14, PS.-\n"
    assert unfed(short + "rung F1.2, PB2.23-24, L1, PS.-") == []
    assert unfed(short + "rung F1.2, D1.cathode-anode, L1, PS.-") == ["L1"]


def test_a_lamp_that_lacks_a_wire_is_not_called_unfed() -> None:
    """The wire is what is missing."""
    assert unfed("rung PS.+, F1, L1.1") == []


def test_a_motor_whose_ends_a_short_of_the_rails_joins_is_not_called_always_joined() -> None:
    """The rails are shorted while PS is on, and the motor's ends with them; what is wrong is the short."""
    drive = "motor M1 12 V stall 5 A\nrung PS.+, F1, PB1.14-11, M1, PS.-\nwire PB1.12 PS.-\n"
    facts = analyse(circuit_of(PARTS + drive + "wire F1.2 PS.-"))
    assert facts.circuit.loads[1].name == "M1"
    assert not always_joined(facts, 1)


def test_the_way_past_a_fuse_goes_through_loads_and_open_contacts() -> None:
    """A fuse on either side closes it."""
    assert way("rung PS.+, PB1.14-11, L1, PS.-") == ["PB1.14", "PB1.11", "L1.1", "L1.2", "PS.-"]
    assert way("rung PS.+, PB1.14-11, L1, F1, PS.-") == []


def test_the_way_past_a_fuse_goes_through_diodes_in_their_direction_only() -> None:
    """A diode in reverse passes nothing."""
    assert way("rung PS.+, D1.cathode-anode, L1, PS.-") == []
    assert way("rung PS.+, D1, L1, PS.-")[-1] == "PS.-"


def test_a_fuse_behind_either_of_two_supplies_in_series_guards_their_load() -> None:
    """The loop runs through both supplies."""
    assert way("supply PS2 12 V 5 A\nwire PS.- PS2.+\nrung PS.+, L1, F1, PS2.-") == []
    assert way("supply PS2 12 V 5 A\nwire PS.- PS2.+\nrung PS.+, L1, PS2.-") == [
        "L1.1",
        "L1.2",
        "PS2.-",
        "PS2.+",
        "PS.-",
    ]


def test_all_ways_past_the_fuses_that_pass_as_few_parts_are_named() -> None:
    """A splice makes no way longer, a further contact does."""
    text = "lamp L2 L3 12 V 2 W\nbutton PB2 no\nsplice X\n"
    text += "rung PS.+, L1, PS.-\nrung PS.+, X, L2, PS.-\nrung PS.+, PB2, L3, PS.-"
    found = unfused_ways((circuit := circuit_of(PARTS + text)), circuit.supplies[0])
    assert found is not None
    assert {one.part for one in found.every} == {"L1", "L2"}
