"""American wire gauges against the areas that published tables of ASTM B258 give."""

import pytest

from circuitcheck.circuit.units import awg_area


@pytest.mark.parametrize(
    ("size", "area"),
    [(10, 5.26), (12, 3.31), (14, 2.08), (16, 1.31), (18, 0.823), (20, 0.518), (22, 0.326), (24, 0.205)],
)
def test_awg_areas_are_those_of_the_table(size: int, area: float) -> None:
    """Areas in mm2 of AWG 10 to 24, as any table made from ASTM B258 has them (from memory)."""
    assert awg_area(size) == pytest.approx(area, rel=0.003)
