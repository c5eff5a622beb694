"""The quick bound on what coils may lose, in figures worked out by hand."""

import pytest

from circuitcheck.analysis.margins import could_starve
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
DIODE = "K1.A1\ndiode D1\nwire D1.cathode K1.A1\nwire PS.+ D1.anode"


def starves(operate: float, wire: str = "", inside: str = "", to: str = "K1.A1", celsius: float = 20.0) -> bool:
    """Might K1 get less than it operates at?"""
    return could_starve(facts_of(BOX.format(operate=operate, wire=wire, inside=inside, to=to)), celsius)


def test_where_nothing_loses_volts_and_nothing_is_warm_no_coil_starves() -> None:
    """A plan that tells no resistances is not asked about diodes either."""
    assert not starves(11.9, to=DIODE)
    assert not starves(12.0)


@pytest.mark.parametrize(("to", "lost"), [("K1.A1", 0.0765), (DIODE, 0.8765)])
def test_all_ohms_in_a_row_carry_what_all_loads_draw_at_most(to: str, lost: float) -> None:
    """12 V over 160 and over 24 ohm, through 10 m of 1.5 mm2 (0.133 ohm, IEC 60228); a diode in the way takes 0.8 V,
    one across a coil nothing."""
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
