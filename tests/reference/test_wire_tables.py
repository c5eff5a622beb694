"""Wire resistance and its rise with temperature against published tables."""

import pytest

from circuitcheck.analysis.copper import copper_factor, wire_ohms
from circuitcheck.analysis.gauges import AMERICAN, METRIC, MM2_PER_CIRCULAR_MIL, gauge_of, nearest_sizes, stranded_ohms
from circuitcheck.circuit.units import awg_area

THOUSAND_FEET = 304.8
SOLID = {
    8: 0.6282, 9: 0.7921, 10: 0.9989, 11: 1.26, 12: 1.588, 13: 2.003, 14: 2.525, 15: 3.184, 16: 4.016, 17: 5.064,
    18: 6.385, 19: 8.051, 20: 10.15, 21: 12.8, 22: 16.14, 23: 20.36, 24: 25.67, 25: 32.37, 26: 40.81, 27: 51.47,
    28: 64.9, 29: 81.83, 30: 103.2,
}  # fmt: skip
"""AWG → ohms per 1000 ft at 20 °C: Floyd, Electric Circuit Fundamentals, as printed by HyperPhysics (wirega.html)."""
STRANDED = {10: 1.02, 12: 1.62, 14: 2.58, 16: 4.08, 18: 6.52, 20: 10.36, 22: 16.46}
"""The same of stranded wire: Handbook of Electronic Tables and Formulas (oocities.org/dtmcbride wire tables)."""
CIRCULAR_MILS = {8: 16510, 10: 10380, 12: 6530, 14: 4107, 16: 2583, 18: 1624, 20: 1022, 22: 642.5, 24: 404.0, 30: 100.5}
"""Lessons in Electric Circuits, volume I, chapter 12."""
CLASS_5 = {0.5: 39.0, 0.75: 26.0, 1.0: 19.5, 1.5: 13.3, 2.5: 7.98, 4.0: 4.95, 6.0: 3.3, 10.0: 1.91}
"""mm2 → most ohms per kilometre: IEC 60228 as tabled at mycableengineering.com, kabelmetal-indonesia.com."""


@pytest.mark.parametrize("size", SOLID)
def test_solid_american_wire_has_the_handbook_s_resistance(size: int) -> None:
    """ASTM B258's diameters with IEC 60028's copper are within 0.05 % of the handbook."""
    assert wire_ohms(awg_area(size), THOUSAND_FEET) == pytest.approx(SOLID[size], rel=5e-4)


@pytest.mark.parametrize("size", STRANDED)
def test_stranded_american_wire_has_two_per_cent_more(size: int) -> None:
    """As the handbook's own column for it, to the two or three digits that it prints."""
    gauge = next(one for one in AMERICAN if one.awg == size)
    assert gauge.ohms(THOUSAND_FEET, 20) == pytest.approx(STRANDED[size], rel=6e-3)


@pytest.mark.parametrize("size", CIRCULAR_MILS)
def test_american_areas_in_circular_mils_are_those_of_the_textbook(size: int) -> None:
    """A circular mil is the area of a wire a thousandth of an inch thick."""
    assert awg_area(size) / MM2_PER_CIRCULAR_MIL == pytest.approx(CIRCULAR_MILS[size], rel=1e-3)


@pytest.mark.parametrize("area", CLASS_5)
def test_metric_sizes_have_the_greatest_resistance_of_the_standard(area: float) -> None:
    """Fine-stranded wire, from 2 to 15 % above solid copper of the nominal area."""
    gauge = next(one for one in METRIC if one.area_mm2 == area)
    assert gauge.ohms(1000, 20) == pytest.approx(CLASS_5[area])
    assert 1.02 < gauge.ohms(1000, 20) / wire_ohms(area, 1000) < 1.16


@pytest.mark.parametrize("area", [0.05, 0.6, 3.0])
def test_a_wire_that_no_table_has_counts_with_as_much_more_as_any_size_may_have(area: float) -> None:
    """The most that the standard allows over solid copper, 15.7 % at 1.5 and 2.5 mm2."""
    assert gauge_of(area) is None
    assert stranded_ohms(area, 10, 20) == pytest.approx(1.157 * wire_ohms(area, 10), rel=1e-3)


def test_what_a_size_takes_is_the_same_for_volts_and_for_tables() -> None:
    """10 m of 1.5 mm2 and of 14 AWG at 70 °C."""
    for gauge in (gauge_of(1.5), gauge_of(awg_area(14))):
        assert gauge is not None
        assert stranded_ohms(gauge.area_mm2, 10, 70) == gauge.ohms(10, 70)


def test_a_long_run_of_14_awg() -> None:
    """2300 ft: the textbook's 5.651 ohm (Lessons in Electric Circuits, volume I, chapter 12) is of elemental copper,
    10.09 ohm circular mil per foot; standard wire has 10.371 (IEC 60028), which is as much more."""
    assert wire_ohms(awg_area(14), 2300 * 0.3048) == pytest.approx(5.651 * 10.371 / 10.09, rel=1e-3)


@pytest.mark.parametrize(("celsius", "base"), [(70, 20), (105, 20), (85, 25), (125, 25)])
def test_copper_s_resistance_rises_on_a_line_through_zero_at_minus_234_5_degrees(celsius: float, base: float) -> None:
    """TE, "Temperature considerations for DC relays", has the line; IEC 60028 the 0.00393 per kelvin."""
    assert copper_factor(celsius, base) == pytest.approx((234.5 + celsius) / (234.5 + base), rel=1e-3)


def test_a_gauge_is_known_by_its_area() -> None:
    """A plan's AWG size comes as its exact area; 1.3 mm2 is no size at all, and nothing is guessed for it."""
    sixteen = gauge_of(awg_area(16))
    assert sixteen is not None
    assert (sixteen.name, gauge_of(1.3)) == ("16 AWG", None)
    assert [one.name for one in nearest_sizes(1.3)] == ["1.5 mm²", "16 AWG"]
