"""Quantities with units, turned into SI.

Factors follow from definitions: inch, pound, standard gravity and the Fahrenheit scale as in NIST SP 811, appendix B.
AWG sizes become square millimetres by ASTM B258: d = 0.127 mm · 92^((36 − n)/39).
"""

import math
from typing import NamedTuple

from circuitcheck.circuit.wording import sentence
from circuitcheck.plan.nearest import nearest
from circuitcheck.plan.source import Place, Problem
from circuitcheck.plan.syntax import Quantity

INCH, FOOT = 0.0254, 0.3048
POUND_FORCE = 0.45359237 * 9.80665
OUNCE_FORCE = POUND_FORCE / 16

UNITS: dict[str, tuple[str, float]] = {
    "V": ("volts", 1.0), "mV": ("volts", 1e-3), "kV": ("volts", 1e3),
    "A": ("amps", 1.0), "mA": ("amps", 1e-3),
    "ohm": ("ohms", 1.0), "ohms": ("ohms", 1.0), "\u03a9": ("ohms", 1.0), "\u2126": ("ohms", 1.0),
    "mohm": ("ohms", 1e-3), "kohm": ("ohms", 1e3), "k\u03a9": ("ohms", 1e3), "k\u2126": ("ohms", 1e3),
    "m\u03a9": ("ohms", 1e-3), "m\u2126": ("ohms", 1e-3), "Mohm": ("ohms", 1e6),
    "W": ("watts", 1.0), "mW": ("watts", 1e-3), "kW": ("watts", 1e3),
    "H": ("henries", 1.0), "mH": ("henries", 1e-3),
    "s": ("seconds", 1.0), "ms": ("seconds", 1e-3), "min": ("seconds", 60.0),
    "m": ("metres", 1.0), "cm": ("metres", 0.01), "mm": ("metres", 1e-3), "in": ("metres", INCH),
    "ft": ("metres", FOOT),
    "mm2": ("mm2", 1.0), "mm²": ("mm2", 1.0), "AWG": ("mm2", 1.0), "awg": ("mm2", 1.0),
    "rpm": ("rpm", 1.0), "deg": ("degrees", 1.0), "°": ("degrees", 1.0),
    "N m": ("newton_metres", 1.0), "mN m": ("newton_metres", 1e-3), "oz in": ("newton_metres", OUNCE_FORCE * INCH),
    "lb ft": ("newton_metres", POUND_FORCE * FOOT), "lb in": ("newton_metres", POUND_FORCE * INCH),
    "kg m2": ("kg_m2", 1.0), "kg cm2": ("kg_m2", 1e-4), "g cm2": ("kg_m2", 1e-7),
    "kg m²": ("kg_m2", 1.0), "kg cm²": ("kg_m2", 1e-4), "g cm²": ("kg_m2", 1e-7),
    "°C": ("celsius", 1.0), "degC": ("celsius", 1.0), "°F": ("celsius", 1 / 1.8), "degF": ("celsius", 1 / 1.8),
    ":1": ("ratio", 1.0),
    "poles": ("poles", 1.0), "pole": ("poles", 1.0), "ways": ("ways", 1.0), "way": ("ways", 1.0),
    "wires": ("wires", 1.0), "wire": ("wires", 1.0),
}  # fmt: skip
"""Unit as written → the dimension's name and the factor to its SI unit. The ohm sign exists twice in Unicode."""

FREEZING = {"°F": 32.0, "degF": 32.0}
"""What scales of temperature that don't begin at 0 °C show there."""

MOST: dict[str, float] = {
    "volts": 1_000, "amps": 10_000, "ohms": 1e9, "watts": 100_000, "henries": 1_000, "seconds": 86_400,
    "metres": 10_000, "mm2": 1_000, "rpm": 100_000, "degrees": 36_000, "newton_metres": 100_000, "kg_m2": 100_000,
    "celsius": 300, "ratio": 10_000, "poles": 12, "ways": 500, "wires": 500,
}  # fmt: skip
"""The largest value of each dimension that a prop could mean; more is a slip of the pen."""

COLDEST = -60.0
"""The lowest temperature that a prop could mean; of all other dimensions only what is above 0 has a meaning."""

NOUNS = {
    "mm2": "a gauge (mm2 or AWG)", "metres": "a length", "degrees": "an angle", "rpm": "a speed in rpm",
    "henries": "an inductance (H or mH)", "newton_metres": "a torque (N m)", "celsius": "a temperature (°C)",
    "kg_m2": "a moment of inertia (kg m2 or g cm2)", "ratio": "a gear ratio like 60:1",
    "wires": "a number of wires",
}  # fmt: skip

SHOWN = tuple(unit for unit in UNITS if "\u2126" not in unit)
"""The units that messages list: each that looks like no other."""

SPACED = {unit.replace(" ", ""): unit for unit in UNITS if " " in unit}
"""Units of two words as people write them in one."""

THICKEST_AWG, THINNEST_AWG = 0, 56
"""The sizes of ASTM B258 that can be written as a plain number (those above 0, as 2/0, are thicker than any prop's)."""

MEANT: dict[str, str] = {
    "kg cm": "As a torque write N m: the weight of 1 kg at 1 cm makes 0.098 N m.",
    "kg m": "As a torque write N m: the weight of 1 kg at 1 m makes 9.81 N m.",
    "g cm": "As an inertia write g cm2; as a torque write mN m: the weight of 1 g at 1 cm makes 0.098 mN m.",
    "N": "A torque is a force times its lever: write N m.",
    "C": "A temperature is in °C or degC.",
    "F": "A temperature is in °F or degF.",
    "K": "A temperature is in °C or degC.",
}
"""What those meant who write a unit that isn't one here."""


class Measure(NamedTuple):
    """A quantity in SI units; `low` and `high` differ only where the plan gives a range."""

    dimension: str
    low: float
    high: float
    place: Place


def measure(quantity: Quantity) -> Measure | Problem:
    """The quantity in SI units, or what is wrong with it: an unknown unit, zero, negative or beyond any prop."""
    if quantity.unit not in UNITS:
        return Problem(quantity.place, *_no_unit(quantity))
    dimension, factor = UNITS[quantity.unit]
    if quantity.unit.upper() == "AWG":
        low, high = awg_area(quantity.high), awg_area(quantity.low)
    else:
        freezing = FREEZING.get(quantity.unit, 0.0)
        low, high = (quantity.low - freezing) * factor, (quantity.high - freezing) * factor
    return _out_of_bounds(quantity, dimension, low, high) or Measure(dimension, low, high, quantity.place)


def _no_unit(quantity: Quantity) -> tuple[str, str]:
    if not quantity.unit:
        return "a number with no unit", f"Units are {', '.join(SHOWN)}."
    if quantity.unit in SPACED:
        return f"no unit {quantity.unit}", f"Write it with a blank: {SPACED[quantity.unit]}."
    near = nearest(quantity.unit, SHOWN)
    known = f"Nearest: {', '.join(near)}." if near else f"Units are {', '.join(SHOWN)}."
    return f"no unit {quantity.unit}", MEANT.get(quantity.unit, known)


def _out_of_bounds(quantity: Quantity, dimension: str, low: float, high: float) -> Problem | None:
    if quantity.unit.upper() == "AWG" and not _in_gauge_table(quantity):
        sizes = f"AWG sizes are whole numbers from {THICKEST_AWG} (thick) to {THINNEST_AWG} (thin)"
        return Problem(quantity.place, f"no table has {written(quantity)}", f"{sizes}; write others in mm2.")
    least, most = COLDEST if dimension == "celsius" else 0.0, MOST[dimension]
    if not (min(low, high) > least and max(low, high) <= most):
        help = f"{sentence(noun(dimension))} must be above {least:g} and at most {most:,.0f} {_base_unit(dimension)}."
        return Problem(quantity.place, f"{written(quantity)} cannot be meant", help)
    if low > high:
        return Problem(quantity.place, f"the range {written(quantity)} runs backwards", "Write the smaller end first.")
    if dimension in ("poles", "ways", "wires") and not (low.is_integer() and high.is_integer()):
        help = f"Write a whole number of {dimension}."
        return Problem(quantity.place, f"{written(quantity)} is no whole number", help)
    return None


def _in_gauge_table(quantity: Quantity) -> bool:
    sizes = (quantity.low, quantity.high)
    return all(size.is_integer() and THICKEST_AWG <= size <= THINNEST_AWG for size in sizes)


def awg_area(size: float) -> float:
    """Area in mm2 of a solid wire of this American gauge (ASTM B258)."""
    if not -3 <= size <= THINNEST_AWG:
        return math.inf
    diameter: float = 0.127 * 92 ** ((36 - size) / 39)
    return math.pi / 4 * diameter**2


def noun(dimension: str) -> str:
    """How a message names the dimension: "volts", "a length"."""
    return NOUNS.get(dimension, dimension)


def written(quantity: Quantity) -> str:
    """The quantity as the plan would write it: "12 V", "5..12 ms", "60:1"."""
    number = f"{quantity.low:g}" if quantity.low == quantity.high else f"{quantity.low:g}..{quantity.high:g}"
    return f"{number}{quantity.unit}" if quantity.unit == ":1" else f"{number} {quantity.unit}".rstrip()


def _base_unit(dimension: str) -> str:
    return next(unit for unit, (name, factor) in UNITS.items() if name == dimension and factor == 1.0)
