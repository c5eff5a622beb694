"""The quick bound on what coils may lose, in figures worked out by hand."""

import pytest

from circuitcheck.analysis.margins import could_starve
from circuitcheck.analysis.warm_coils import starved_coils
from tests.reference.asking import facts_of

BOX = """
    supply PS 12 V 10 A{inside}
    relay  K1 no coil 12 V 160 ohm operate {operate} V with diode
    lamp   L1 12 V 24 ohm
    wire   PS.+ {to}{wire}
    rung   K1.A2, PS.-
    rung   PS.+, L1, PS.-
"""
TEN_METRES = " : 1.5 mm2 10 m"
DIODE = "D1.anode\ndiode D1\nwire D1.cathode K1.A1"


def starves(operate: float, wire: str = "", inside: str = "", to: str = "K1.A1", celsius: float = 20.0) -> bool:
    """Might K1 get less than it operates at?"""
    return could_starve(facts_of(BOX.format(operate=operate, wire=wire, inside=inside, to=to)), celsius)


def test_where_nothing_loses_volts_and_nothing_is_warm_no_coil_starves() -> None:
    """A plan that tells no resistances is not asked about diodes either."""
    assert not starves(11.9, to=DIODE)
    assert not starves(12.0)


@pytest.mark.parametrize(("to", "lost"), [("K1.A1", 0.0765), (DIODE, 0.7822)])
def test_all_ohms_in_a_row_carry_what_all_loads_draw_at_most(to: str, lost: float) -> None:
    """12 V over 160 and over 24 ohm, through 10 m of 1.5 mm2 (0.133 ohm, IEC 60228); a diode in the way takes 0.7 V
    and 10 mohm of these amps, one across a coil nothing."""
    assert starves(round(12 - lost + 0.001, 4), TEN_METRES, to=to)
    assert not starves(round(12 - lost - 0.001, 4), TEN_METRES, to=to)


def test_a_supplys_own_resistance_counts_with_the_wires() -> None:
    """0.1 ohm more, so 0.0575 V more."""
    assert starves(11.867, TEN_METRES, " internal 100 mohm")
    assert not starves(11.865, TEN_METRES, " internal 100 mohm")


def test_a_warm_coil_needs_more_volts() -> None:
    """IEC 60028: 19.65 % more at 70 °C."""
    assert starves(10.03, celsius=70)
    assert not starves(10.02, celsius=70)


def test_a_coil_that_is_fed_just_enough_may_starve_and_one_that_never_is_does_not_count() -> None:
    """That it never operates is told without any wires."""
    assert starves(12.0, TEN_METRES)
    assert not starves(12.1, TEN_METRES)


def test_a_diode_across_another_load_counts_where_a_coils_own_current_takes_it() -> None:
    """Past the lamp, the coil gets 12 V less 0.7 V: the full working-out finds too little, so the bound may not settle
    it."""
    facts = facts_of("""
        conditions wire 2.5 mm2 0.01 m
        supply PS 12 V 10 A
        button PB1 no
        diode  D1
        lamp   L1 12 V 24 ohm
        relay  K1 no coil 12 V 160 ohm operate 11.5 V with diode
        rung   PS.+, PB1, ( L1 | D1 ), K1.A1-A2, PS.-
    """)
    assert list(starved_coils(facts, 20.0))
    assert could_starve(facts, 20.0)


def test_a_diode_takes_more_the_more_amps_it_carries() -> None:
    """30 A: 0.7 V and 10 mohm of them are a volt, as the full working-out has it."""
    facts = facts_of("""
        conditions wire 25 mm2 0.01 m
        supply PS 12 V 40 A
        diode  D1
        splice BUS
        button PB1 no
        relay  K1 no coil 12 V 160 ohm operate 11.1 V with diode
        motor  M1 12 V stall 30 A
        rung   PS.+, D1, BUS
        rung   BUS, PB1, K1.A1-A2, PS.-
        rung   BUS, M1, PS.-
    """)
    (found,) = starved_coils(facts, 20.0)
    assert found.volts < 11.1
    assert could_starve(facts, 20.0)


def test_a_coil_in_series_with_a_warmer_one_may_starve_without_any_wires() -> None:
    """Warm, the one before it takes more of the volts; what is beside it, a lamp, keeps its ohms."""
    facts = facts_of("""
        conditions ambient 5..60 °C
        supply PS 12 V 10 A
        button PB1 no
        relay  K1 no coil 12 V 160 ohm operate 4.8 V
        relay  K2 no coil 5 V 20 ohm
        lamp   L1 12 V 20 ohm
        rung   PS.+, PB1, K2.A1-A2, ( K1.A1-A2 | L1 ), PS.-
    """)
    assert [one.relay.name for one in starved_coils(facts, 60.0)] == ["K1"]
    assert could_starve(facts, 60.0)


def test_a_supply_that_reaches_its_limit_leaves_less_than_resistances_take() -> None:
    """Behind a diode a motor of 20 A and a coil, where 5 A are given."""
    facts = facts_of("""
        conditions wire 25 mm2 0.01 m
        supply PS 12 V 5 A limit 5 A
        diode  D1
        splice BUS
        button PB1 no
        relay  K1 no coil 12 V 160 ohm operate 7 V with diode
        motor  M1 12 V stall 20 A
        rung   PS.+, D1, BUS
        rung   BUS, PB1, K1.A1-A2, PS.-
        rung   BUS, M1, PS.-
    """)
    assert list(starved_coils(facts, 20.0))
    assert could_starve(facts, 20.0)
