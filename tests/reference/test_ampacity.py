"""What wires may carry against the tables that say so."""

import pytest

from circuitcheck.analysis.gauges import Gauge, gauge_of
from circuitcheck.circuit.units import awg_area
from circuitcheck.sizing.ampacity import NoTable, Surroundings, ampacity

CFR = {
    18: (10, 10, 20, 20), 16: (15, 15, 25, 25), 14: (20, 20, 30, 35), 12: (25, 25, 40, 45), 10: (40, 40, 55, 60),
    8: (55, 65, 70, 80),
}  # fmt: skip
"""33 CFR 183.425 Table 5: insulation for 60, 75, 90, 105 °C; ambient 30 °C, up to two conductors."""
IEC_60204 = {0.75: 8.5, 1.0: 10.1, 1.5: 13.1, 2.5: 17.4, 4.0: 23, 6.0: 30, 10.0: 40}
"""IEC 60204-1 Table 6, method B2, PVC, 40 °C, as a drive maker's user guide quotes it (Schneider Electric)."""
MILS = {10: 15, 12: 9.3, 14: 5.9, 16: 3.7, 18: 2.3, 20: 1.5, 22: 0.92, 24: 0.58, 30: 0.14}
"""AWG → amperes at 700 circular mils each: Handbook of Electronic Tables and Formulas."""


def american(size: int) -> Gauge:
    """The gauge of a plan's `18 AWG`."""
    found = gauge_of(awg_area(size))
    assert found is not None
    return found


def metric(area: float) -> Gauge:
    """The gauge of a plan's `1.5 mm2`."""
    found = gauge_of(area)
    assert found is not None
    return found


@pytest.mark.parametrize("size", CFR)
def test_american_wire_carries_what_the_federal_rule_allows(size: int) -> None:
    """Row by row and column by column, alone at the table's own ambient."""
    columns = (60, 75, 90, 105)
    assert tuple(ampacity(american(size), Surroundings(30, stands, 2)).amps for stands in columns) == CFR[size]


def test_insulation_between_two_columns_has_the_lower_one_and_none_said_the_lowest() -> None:
    """80 °C counts as 75 °C; a plan that says nothing gets 60 °C."""
    assert ampacity(american(14), Surroundings(30, 80, 2)).amps == CFR[14][1]
    assert ampacity(american(14), Surroundings(30, None, 2)).amps == CFR[14][0]


@pytest.mark.parametrize("area", IEC_60204)
def test_metric_wire_carries_what_the_machine_standard_allows(area: float) -> None:
    """In conduit or trunking at 40 °C; better insulation is given no credit."""
    assert ampacity(metric(area), Surroundings(40, None, 2)).amps == IEC_60204[area]
    assert ampacity(metric(area), Surroundings(40, 105, 2)).amps == IEC_60204[area]


@pytest.mark.parametrize("size", MILS)
def test_the_cautious_rule_gives_the_handbook_s_column(size: int) -> None:
    """For sizes that the federal table lacks it decides; the handbook prints two digits."""
    carries = american(size).area_mm2 / 0.000506707 / 700
    assert carries == pytest.approx(MILS[size], rel=0.04)
    if size > 18:
        assert ampacity(american(size), Surroundings(30, None, 2)).amps == pytest.approx(carries, rel=1e-5)


@pytest.mark.parametrize(("wires", "amps"), [(1, 20), (2, 20), (3, 14), (4, 12), (6, 12), (7, 10), (24, 10)])
def test_wires_in_a_bundle_carry_less(wires: int, amps: float) -> None:
    """18 AWG for 105 °C carries 20 A, then 14, 12 and 10: 33 CFR 183.425's factors 0.7, 0.6 and 0.5, as printed for
    UL 1426 boat cable (ABYC E-11)."""
    assert ampacity(american(18), Surroundings(30, 105, wires)).amps == pytest.approx(amps)


def test_no_table_has_a_factor_for_a_thicker_bundle() -> None:
    """Nothing is guessed for 25 wires."""
    with pytest.raises(NoTable, match="25 wires"):
        ampacity(american(18), Surroundings(30, 105, 25))


def test_a_warm_place_costs_what_the_federal_rule_says() -> None:
    """0.85 for 105 °C insulation at 50 °C (33 CFR 183.425 note 1, ABYC E-11); the heat balance gives 0.856."""
    warm = ampacity(american(14), Surroundings(50, 105, 2)).amps
    assert warm == pytest.approx(0.85 * CFR[14][3], rel=0.01)


@pytest.mark.parametrize(("celsius", "factor"), [(45, 0.91), (50, 0.82), (55, 0.71), (60, 0.58)])
def test_the_heat_balance_agrees_with_the_machine_standard_s_corrections(celsius: float, factor: float) -> None:
    """IEC 60204-1's factors for PVC above 40 °C (from memory; the test before this one has a published figure)."""
    assert ampacity(metric(1.5), Surroundings(celsius, None, 2)).amps == pytest.approx(factor * 13.1, rel=0.01)


def test_a_cool_place_is_given_no_credit() -> None:
    """At 10 °C a wire carries what its table says, not more."""
    assert ampacity(metric(1.5), Surroundings(10, None, 2)).amps == 13.1


def test_nothing_may_flow_where_it_is_as_hot_as_the_insulation_stands() -> None:
    """There is no rise left, whichever table decides."""
    assert ampacity(metric(1.5), Surroundings(70, None, 2)).amps == 0
    assert ampacity(american(24), Surroundings(60, None, 2)).amps == 0
