"""Currents of loads and shorts on their way over the rails of several supplies, with the answers written out."""

import pytest

from circuitcheck.analysis.carrying import Carrying
from circuitcheck.analysis.facts import analyse
from circuitcheck.analysis.lit import Lit
from tests.analysis.plans import circuit_of
from tests.analysis.test_carrying import states_of

OVER_PLUS = """
supply PS PS2 12 V 10 A
diode  D1
fuse   F1 F2 5 A
switch S1 spdt positions over direct
lamp   L1 12 V 2 W
rung   PS.+, F1, D1, PS2.+, F2, S1.over-com, L1, PS.-
wire   F1.2 S1.direct
wire   PS2.- PS.-
"""
OVER_MINUS = """
supply PS PS2 12 V 10 A
diode  D1
fuse   F1 F2 5 A
switch S1 spdt positions over direct
lamp   L1 12 V 2 W
rung   PS.+, L1, S1.com-over, F2, PS2.-, D1, F1, PS.-
wire   S1.direct F1.1
wire   PS2.+ PS.+
"""
DIRECT, OVER, OF_SECOND = {"101", "111"}, {"100", "110"}, {"010", "110"}
"""States in which PS feeds the lamp directly, in which it does over PS2's rail, and in which PS2 does: for each of PS,
PS2 and S1 a digit."""
SIDE = DIRECT | OVER | OF_SECOND
ON_ITS_WAY = {
    "F1.1-2": DIRECT | OVER,
    "D1.anode-cathode": OVER,
    "F2.1-2": OVER | OF_SECOND,
    "S1.com-over": OVER | OF_SECOND,
    "S1.com-direct": DIRECT,
}


def carried(text: str, load: str, sides: set[str]) -> dict[str, set[str]]:
    """For each conductor that carries a load's current on these sides the states, a digit for each thing that moves."""
    facts = analyse(circuit_of(text))
    carrying, found = Carrying(facts), dict[str, set[str]]()
    for number, one in enumerate(facts.circuit.conductors):
        for share in carrying[number]:
            if facts.circuit.loads[share.load].name == load and share.side in sides:
                states = (state for state in states_of(facts.circuit) if state in share.states)
                found.setdefault(one.name, set()).update("".join(map(str, state.values())) for state in states)
    return found


def test_current_comes_to_a_load_over_another_supply_s_rail() -> None:
    """Over its own wires and fuse too, and on to the load; the common wire back carries it for PS2 alone."""
    assert carried(OVER_PLUS, "L1", {"high"}) == ON_ITS_WAY | {
        "the wire PS.+ to F1.1": DIRECT | OVER,
        "the wire F1.2 to S1.direct": DIRECT,
        "the wire F1.2 to D1.anode": OVER,
        "the wire D1.cathode to PS2.+": OVER,
        "the wire PS2.+ to F2.1": OVER | OF_SECOND,
        "the wire F2.2 to S1.over": OVER | OF_SECOND,
        "the wire S1.com to L1.1": SIDE,
    }
    assert carried(OVER_PLUS, "L1", {"low"}) == {"the wire L1.2 to PS.-": SIDE, "the wire PS2.- to PS.-": OF_SECOND}


def test_current_goes_back_from_a_load_over_another_supply_s_rail() -> None:
    """The same with both supplies on one common +."""
    assert carried(OVER_MINUS, "L1", {"low"}) == ON_ITS_WAY | {
        "the wire F1.2 to PS.-": DIRECT | OVER,
        "the wire S1.direct to F1.1": DIRECT,
        "the wire D1.cathode to F1.1": OVER,
        "the wire PS2.- to D1.anode": OVER,
        "the wire F2.2 to PS2.-": OVER | OF_SECOND,
        "the wire S1.over to F2.1": OVER | OF_SECOND,
        "the wire L1.2 to S1.com": SIDE,
    }
    assert carried(OVER_MINUS, "L1", {"high"}) == {"the wire PS.+ to L1.1": SIDE, "the wire PS2.+ to PS.+": OF_SECOND}


def test_supplies_in_series_feed_together_from_the_upper_one_s_plus() -> None:
    """24 V of both, which the lower one alone doesn't give."""
    text = """
supply PS PS2 12 V 10 A
lamp   L1 24 V 2 W
lamp   L2 12 V 2 W
wire   PS.+ PS2.-
rung   PS2.+, L1, PS.-
rung   PS2.-, L2, PS.-
"""
    circuit = circuit_of(text)
    carrying = Carrying(analyse(circuit))
    assert carried(text, "L1", {"high", "low"}) == {"the wire PS2.+ to L1.1": {"11"}, "the wire L1.2 to PS.-": {"11"}}
    fed = [{circuit.loads[share.load].name for share in carrying.of_supply(supply)} for supply in circuit.supplies]
    assert fed == [{"L2"}, {"L1"}]


def test_a_motor_s_brake_needs_no_rail() -> None:
    """Between its brushes alone, which hang on no rail while its switch is open."""
    text = """
supply PS 12 V 10 A
switch S1 dpst positions off on
switch S2 spst positions off on
motor  M1 12 V stall 5 A
rung   PS.+, S1.com1-on1, M1, S1.on2-com2, PS.-
rung   M1.+, S2, M1.-
"""
    braking = carried(text, "M1", {"brake"})
    for name in ("the wire M1.+ to S2.com", "S2.com-on", "the wire S2.on to M1.-"):
        assert {"001", "101"} <= braking[name]
    facts = analyse(circuit_of(text))
    lit = Lit(facts)
    flows = {one.name: lit[number] for number, one in enumerate(facts.circuit.conductors)}
    states = [{0: 1, 1: driven, 2: braked} for driven in (0, 1) for braked in (0, 1)]
    assert [flows["S2.com-on"].word_in(state) for state in states] == ["", "brake", "", "short"]
    assert [flows["S1.com1-on1"].word_in(state) for state in states] == ["", "", "lit", "short"]


@pytest.mark.parametrize("swapped", [False, True])
def test_a_short_over_another_supply_s_rail_is_lit_along_it(swapped: bool) -> None:
    """From + to that rail, along its fuse, and on to −; but not where only one of the two switches is closed, though
    another short is there."""
    text = """
supply PS PS2 12 V 10 A
fuse   F1 5 A
switch S1 S2 S3 spst positions off on
rung   PS.+, S1, F1, S2, PS.-
wire   PS2.- F1.2
rung   PS.+, S3, PS.-
"""
    facts = analyse(circuit_of(text.replace("PS2.- F1.2", "PS2.+ F1.1") if swapped else text))
    lit, over, direct = Lit(facts), {"S1.com-on", "F1.1-2", "S2.com-on"}, {"S3.com-on"}
    for state in states_of(facts.circuit):
        words = {one.name: lit[number].word_in(state) for number, one in enumerate(facts.circuit.conductors)}
        on, _, first, second, third = state.values()
        expected = (over if on and first and second else set()) | (direct if on and third else set())
        assert {name for name, word in words.items() if word == "short" and "wire" not in name} == expected
        assert words["the wire PS2.+ to F1.1" if swapped else "the wire PS2.- to F1.2"] == ""
