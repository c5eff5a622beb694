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
        (20, "mohm", "ohms", 0.02),
        (900, "mH", "henries", 0.9),
        (250, "mN m", "newton_metres", 0.25),
        (34, "g cm²", "kg_m2", 3.4e-6),
        (60, ":1", "ratio", 60),
        (-5, "°C", "celsius", -5),
        (14, "°F", "celsius", -10),
        (6, "wires", "wires", 6),
    ],
)
def test_a_quantity_is_turned_into_si(number: float, unit: str, dimension: str, value: float) -> None:
    """Inch and foot are 25.4 mm and 304.8 mm exactly (international yard agreement of 1959)."""
    found = measure(Quantity(number, number, unit, PLACE))
    assert isinstance(found, Measure)
    assert found.dimension == dimension
    assert found.low == found.high == pytest.approx(value)


@pytest.mark.parametrize("unit", list(UNITS))
@pytest.mark.parametrize("number", [-500.0, 1e13, float("inf"), float("nan")])
def test_no_unit_allows_what_no_prop_can_have(unit: str, number: float) -> None:
    """Negative values, immense ones and what isn't a number are problems, whatever the unit."""
    assert isinstance(measure(Quantity(number, number, unit, PLACE)), Problem)


@pytest.mark.parametrize("unit", [unit for unit, (dimension, _) in UNITS.items() if dimension != "celsius"])
@pytest.mark.parametrize("number", [0.0, -5.0])
def test_only_a_temperature_may_be_zero_or_negative(unit: str, number: float) -> None:
    """0 ohm or a fuse of 0 A is a slip. (0 AWG is a thick wire.)"""
    found = measure(Quantity(number, number, unit, PLACE))
    assert isinstance(found, Problem) != (unit.upper() == "AWG" and number == 0)


@pytest.mark.parametrize("size", [-4.0, 18.5, 57.0, 99.0])
def test_a_gauge_that_no_table_has_is_a_problem(size: float) -> None:
    """ASTM B258 has whole sizes; thicker than 0 they are written 2/0 and so on, which no prop needs."""
    found = measure(Quantity(size, size, "AWG", PLACE))
    assert isinstance(found, Problem)
    assert found.what == f"no table has {size:g} AWG"
    assert "whole numbers from 0 (thick) to 56 (thin)" in found.help


@pytest.mark.parametrize(
    ("unit", "help"),
    [
        ("Nm", "Write it with a blank: N m."),
        ("gcm2", "Write it with a blank: g cm2."),
        ("N", "A torque is a force times its lever: write N m."),
        ("kg cm", "As a torque write N m: the weight of 1 kg at 1 cm makes 0.098 N m."),
        ("C", "A temperature is in °C or degC."),
        ("oz ft", "Nearest: oz in, lb ft."),
        ("RPM", "Nearest: rpm."),
    ],
)
def test_a_unit_that_is_none_is_told_with_what_was_meant(unit: str, help: str) -> None:
    """Units are spelt in one way; the other ways that people write them are known."""
    found = measure(Quantity(6, 6, unit, PLACE))
    assert isinstance(found, Problem)
    assert (found.what, found.help) == (f"no unit {unit}", help)


def test_every_dimension_has_a_bound_and_a_unit_of_its_own() -> None:
    """So that a message can always name both."""
    assert {dimension for dimension, factor in UNITS.values() if factor == 1.0} == set(MOST)
