"""Coils at the end of long wires, and beside other loads, in figures worked out by hand."""

import pytest

from circuitcheck.analysis.warm_coils import starved_coils
from tests.analysis.test_currents import METRE_OF_0_75, METRE_OF_1_5
from tests.analysis.test_hands import where
from tests.reference.asking import facts_of


@pytest.mark.parametrize("positions", ["near far farther", "farther far near", "far farther near", "near farther far"])
def test_of_several_ways_to_a_coil_the_one_that_leaves_it_the_least_is_told(positions: str) -> None:
    """Whichever comes first in the plan; over the near one it gets enough."""
    facts = facts_of(f"""
        supply PS 12 V 10 A
        switch S1 1 poles 3 ways positions {positions}
        relay  K1 no coil 12 V 160 ohm operate 11.85 V with diode
        wire   PS.+ S1.com
        wire   S1.near K1.A1 : 0.75 mm2 1 m
        wire   S1.far K1.A1 : 0.75 mm2 100 m
        wire   S1.farther K1.A1 : 0.75 mm2 200 m
        wire   K1.A2 PS.-
    """)
    (found,) = starved_coils(facts, 20)
    assert found.volts == found.alone == pytest.approx(12 * 160 / (160 + 200 * METRE_OF_0_75))
    assert found.needed == 11.85
    assert found.states.same_as(where(facts, PS="on", S1="farther", K1="released"))


def test_a_latching_relay_is_starved_of_what_sets_it_back() -> None:
    """While it is operated; the coil that sets it is near."""
    facts = facts_of("""
        supply PS 12 V 10 A
        button PB1 PB2 no
        relay  K1 no latching coil 12 V 160 ohm operate 11.85 V with diode
        rung   PS.+, PB1, K1.A1-A2, PS.-
        rung   PS.+, PB2.13
        wire   PB2.14 K1.B1 : 0.75 mm2 100 m
        rung   K1.B2, PS.-
    """)
    (found,) = starved_coils(facts, 20)
    assert found.coil == facts.circuit.relays[0].reset
    assert found.states.same_as(where(facts, PS="on", PB2="pressed", K1="operated"))


def test_other_loads_take_their_share_of_a_wire_that_they_have_in_common_with_a_coil() -> None:
    """Of 10 m of 1.5 mm2 before the bus: a motor of 1 ohm and a lamp of 12 ohm, each as if the other were not. The coil
    draws less then, so it loses a little less than they take of the wire."""
    facts = facts_of("""
        supply PS 12 V 20 A
        button PB1 no
        switch S1 S2 spst positions off on
        relay  K1 no coil 12 V 160 ohm operate 11 V with diode
        motor  M1 12 V stall 12 A
        lamp   L1 12 V 12 ohm
        splice BUS
        wire   PS.+ BUS : 1.5 mm2 10 m
        rung   BUS, PB1, K1.A1-A2, PS.-
        rung   BUS, S1, M1, PS.-
        rung   BUS, S2, L1, PS.-
    """)
    (found,) = starved_coils(facts, 20)
    wire = 10 * METRE_OF_1_5
    assert found.alone == pytest.approx(12 * 160 / (160 + wire))
    taken = wire * (12 / (1 + wire) + 12 / (12 + wire))
    assert found.volts == pytest.approx(found.alone - taken * 160 / (160 + wire))
    worst = where(facts, PS="on", PB1="pressed", S1="on", S2="on", K1="released")
    assert found.states.same_as(worst)


@pytest.mark.parametrize("motor", ["motor  M1 12 V stall 10 A", "lamp   M1 12 V 2 W"])
def test_a_load_with_both_ends_on_one_net_hides_no_starved_coil(motor: str) -> None:
    """Between two supplies in series, which have no return in common: 11.9 V are left of the 13.8 V that it needs at
    60 °C."""
    facts = facts_of(f"""
        supply PS1 PS2 12 V 10 A internal 1000 mohm
        wire   PS2.- PS1.+
        {motor}
        relay  K1 no coil 12 V 160 ohm operate 11.9 V
        rung   PS2.-, M1, PS1.+
        rung   PS1.+, K1.A1-A2, PS1.-
    """)
    (found,) = starved_coils(facts, 60)
    assert found.needed == pytest.approx(11.9 * (1 + 40 * 0.00393))
    assert found.volts == pytest.approx(12 * 160 * 1.1572 / (160 * 1.1572 + 1), abs=1e-4)


def test_of_what_a_coil_hangs_together_with_only_its_own_share_of_the_current_counts() -> None:
    """Behind a diode a coil and a lamp of 24 W: 10 A more in the wire before it cost both 10 A times its ohms, however
    much of its current the lamp takes."""
    facts = facts_of("""
        supply PS 12 V 20 A
        button PB1 no
        switch S1 spst positions off on
        diode  D1
        splice FAR BUS
        relay  K1 no coil 12 V 160 ohm operate 11.1 V
        lamp   L1 12 V 6 ohm
        motor  M1 12 V stall 10 A
        wire   PS.+ FAR : 0.75 mm2 1 m
        rung   FAR, D1, BUS
        rung   BUS, PB1, K1.A1-A2, PS.-
        rung   BUS, L1, PS.-
        rung   FAR, S1, M1, PS.-
    """)
    (found,) = starved_coils(facts, 20)
    beside = 1 / (1 / 160 + 1 / 6)
    within = beside / (beside + METRE_OF_0_75 + 0.01)
    assert found.alone == pytest.approx(11.3 * within)
    assert found.volts == pytest.approx(11.3 * within - METRE_OF_0_75 * 12 / (1.2 + METRE_OF_0_75) * within)
