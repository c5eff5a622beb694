"""Quantities as written become SI."""

import pytest

from circuitcheck.circuit.units import MOST, UNITS, Measure, measure
from circuitcheck.plan.source import Place, Problem
from circuitcheck.plan.syntax import Quantity

PLACE = Place("prop.plan", 1, 1, 1, 2)


@pytest.mark.parametrize(
    ("number", "unit", "dimension", "value"),
    [
        (12, "V", "volts", 12),
        (500, "mA", "amps", 0.5),
        (4.7, "kohm", "ohms", 4700),
        (4.7, "kΩ", "ohms", 4700),
        (2, "min", "seconds", 120),
        (10, "in", "metres", 0.254),
        (3, "ft", "metres", 0.9144),
        (1.5, "mm²", "mm2", 1.5),
        (1, "°", "degrees", 1),
    ],
)
def test_a_quantity_is_turned_into_si(number: float, unit: str, dimension: str, value: float) -> None:
    """Inch and foot are 25.4 mm and 304.8 mm exactly (international yard agreement of 1959)."""
    found = measure(Quantity(number, number, unit, PLACE))
    assert isinstance(found, Measure)
    assert found.dimension == dimension
    assert found.low == found.high == pytest.approx(value)


@pytest.mark.parametrize("unit", list(UNITS))
@pytest.mark.parametrize("number", [-5.0, 1e13, float("inf"), float("nan")])
def test_no_unit_allows_what_no_prop_can_have(unit: str, number: float) -> None:
    """Negative values, immense ones and what isn't a number are problems, whatever the unit."""
    assert isinstance(measure(Quantity(number, number, unit, PLACE)), Problem)


def test_every_dimension_has_a_bound_and_a_unit_of_its_own() -> None:
    """So that a message can always name both."""
    assert {dimension for dimension, factor in UNITS.values() if factor == 1.0} == set(MOST)
