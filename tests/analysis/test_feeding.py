"""Which loads conductors feed, with how many volts, and which volts they leave open; told by hand."""

from circuitcheck.analysis.facts import Facts, analyse
from circuitcheck.analysis.feeding import loads_around
from circuitcheck.analysis.states import States
from tests.analysis.plans import circuit_of
from tests.analysis.test_carrying import states_of


def told(facts: Facts, states: States) -> str:
    """Its states, a digit for each thing that moves."""
    return " ".join("".join(map(str, one.values())) for one in states_of(facts.circuit) if one in states)


def test_of_two_supplies_that_lead_to_a_lamp_the_stronger_one_feeds_it() -> None:
    """Each over a diode, and turned round over a second switch: every state has one number of volts."""
    facts = analyse(
        circuit_of("""
supply PS 12 V 10 A
supply PS2 5 V 10 A
diode  D1 D2
switch S1 dpdt positions ahead back
lamp   L1 12 V 2 W
wire   PS.- PS2.-
rung   PS.+, D1, S1.ahead1-com1, L1, S1.com2-ahead2, PS.-
rung   PS2.+, D2, D1.cathode
rung   D1.cathode, S1.back2
rung   S1.back1, PS.-
""")
    )
    feeding = facts.feeding[0]
    assert [(fed.volts, told(facts, fed.forward), told(facts, fed.backward)) for fed in feeding.fed] == [
        (12.0, "100 110", "101 111"),
        (5.0, "010", "011"),
    ]
    assert not feeding.open


def test_a_load_in_a_loop_through_two_supplies_is_open_only_where_the_loop_is_closed() -> None:
    """L1 leads from the one supply to the other, and a switch back, or another one and L2."""
    facts = analyse(
        circuit_of("""
supply PS PS2 12 V 10 A
switch S1 S2 spst positions off on
lamp   L1 L2 12 V 2 W
rung   PS.+, L1, PS2.-
rung   PS2.+, S1, PS.-
rung   PS2.+, S2, L2, PS.-
""")
    )
    assert facts.regions.tangled == {0, 1}
    assert facts.feeding[0].fed == ()
    assert facts.feeding[0].open.same_as(facts.spaces.where(2, (1,)) | facts.spaces.where(3, (1,)))


def test_around_a_load_are_those_that_current_may_reach_through_it() -> None:
    """One region after the other, but none that stands on the same rail with one end."""
    facts = analyse(
        circuit_of("""
supply PS 12 V 10 A
switch S1 S2 spst positions off on
lamp   L1 L2 L3 L4 L5 L6 12 V 2 W
rung   PS.+, L1, S1, L2, S2, L3, PS.-
rung   PS.+, L4, L1.2
rung   L2.2, L5, PS.-
rung   PS.+, L6, PS.-
""")
    )
    names = [load.name for load in facts.circuit.loads]
    around = [
        {names[number] for number in loads_around(facts.circuit, load, facts.conduction.network, facts.regions)}
        for load in range(len(names))
    ]
    assert around == [
        {"L2", "L3", "L5"},
        {"L1", "L3", "L4", "L5"},
        {"L1", "L2", "L4"},
        {"L2", "L3", "L5"},
        {"L1", "L2", "L4"},
        set(),
    ]
