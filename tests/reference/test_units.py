"""Conversion factors against an outside library of units, and against the definitions that it rests on."""

import math
from typing import Any, Final

import pint
import pytest

from circuitcheck.circuit.units import UNITS, Measure, awg_area, measure
from circuitcheck.plan.source import Place
from circuitcheck.plan.syntax import Quantity

PLACE = Place("prop.plan", 1, 1, 1, 2)
COUNTED = ("poles", "ways", "wires", "ratio")
REGISTRY: Final[Any] = pint.UnitRegistry()
SI = {
    "volts": "volt", "amps": "ampere", "ohms": "ohm", "watts": "watt", "henries": "henry", "seconds": "second",
    "metres": "metre", "mm2": "millimetre ** 2", "rpm": "revolution / minute", "degrees": "degree",
    "newton_metres": "newton * metre", "kg_m2": "kilogram * metre ** 2", "celsius": "degC",
}  # fmt: skip
SPELT = {
    "\u03a9": "ohm", "\u2126": "ohm", "ohms": "ohm", "mohm": "milliohm", "kohm": "kiloohm", "Mohm": "megaohm",
    "k\u03a9": "kiloohm", "k\u2126": "kiloohm", "m\u03a9": "milliohm", "m\u2126": "milliohm",
    "in": "inch", "ft": "foot", "deg": "degree", "°": "degree", "rpm": "revolution / minute",
    "mm2": "mm ** 2", "mm²": "mm ** 2", "N m": "newton * metre", "mN m": "millinewton * metre",
    "oz in": "force_ounce * inch", "lb ft": "force_pound * foot", "lb in": "force_pound * inch",
    "kg m2": "kg * m ** 2", "kg cm2": "kg * cm ** 2", "g cm2": "g * cm ** 2",
    "kg m²": "kg * m ** 2", "kg cm²": "kg * cm ** 2", "g cm²": "g * cm ** 2",
    "°C": "degC", "°F": "degF",
}  # fmt: skip
"""How pint spells what it spells otherwise."""


def si(number: float, unit: str) -> float:
    found = measure(Quantity(number, number, unit, PLACE))
    assert isinstance(found, Measure), found
    return found.high


@pytest.mark.parametrize("unit", [one for one in UNITS if UNITS[one][0] not in COUNTED and one.upper() != "AWG"])
@pytest.mark.parametrize("number", [1.0, 0.725])
def test_every_unit_is_worth_what_pint_says(unit: str, number: float) -> None:
    """pint takes its factors from CODATA, NIST SP 811 and BIPM; a torque in oz in or lb ft is one of force."""
    theirs = REGISTRY.Quantity(number, SPELT.get(unit, unit)).to(SI[UNITS[unit][0]]).magnitude
    assert si(number, unit) == pytest.approx(theirs, rel=1e-12)


@pytest.mark.parametrize(
    ("unit", "printed"), [("oz in", 7.061552e-3), ("lb ft", 1.355818), ("lb in", 0.1129848), ("in", 2.54e-2)]
)
def test_torques_and_inches_are_those_of_the_printed_table(unit: str, printed: float) -> None:
    """NIST SP 811 (2008), appendix B.8: ounce-force inch, pound-force foot, pound-force inch, inch; seven digits."""
    assert si(1, unit) == pytest.approx(printed, rel=5e-7)


@pytest.mark.parametrize(("fahrenheit", "celsius"), [(32, 0), (212, 100), (-40, -40), (98.6, 37)])
def test_fahrenheit_is_a_scale_with_an_offset(fahrenheit: float, celsius: float) -> None:
    """t/°C = (t/°F − 32)/1.8 (NIST SP 811, appendix B.8): freezing and boiling water, where both agree, a body."""
    assert si(fahrenheit, "°F") == pytest.approx(celsius)


@pytest.mark.parametrize(("size", "mils"), [(0, 324.9), (10, 101.9), (20, 32.0), (30, 10.0), (36, 5.0), (40, 3.1)])
def test_a_gauge_has_the_diameter_of_the_standard(size: int, mils: float) -> None:
    """ASTM B258 defines 36 AWG as 0.005 in and 0000 as 0.46 in, with 39 equal ratios between: table in mils, rounded to
    a tenth (from memory)."""
    diameter = 2 * math.sqrt(awg_area(size) / math.pi)
    assert diameter / 0.0254 == pytest.approx(mils, abs=0.06)


def test_the_two_gauges_that_define_the_scale_are_exact() -> None:
    """ASTM B258: 36 AWG is 0.127 mm, 4/0 is 11.684 mm."""
    assert awg_area(36) == pytest.approx(math.pi / 4 * 0.127**2, rel=1e-12)
    assert awg_area(-3) == pytest.approx(math.pi / 4 * 11.684**2, rel=1e-12)
