"""Quantities with units, turned into SI.

AWG sizes become square millimetres by ASTM B258: d = 0.127 mm · 92^((36 − n)/39).
"""

import math
from typing import NamedTuple

from circuitcheck.circuit.wording import sentence
from circuitcheck.plan.nearest import nearest
from circuitcheck.plan.source import Place, Problem
from circuitcheck.plan.syntax import Quantity

UNITS: dict[str, tuple[str, float]] = {
    "V": ("volts", 1.0), "mV": ("volts", 1e-3), "kV": ("volts", 1e3),
    "A": ("amps", 1.0), "mA": ("amps", 1e-3),
    "ohm": ("ohms", 1.0), "ohms": ("ohms", 1.0), "\u03a9": ("ohms", 1.0), "\u2126": ("ohms", 1.0),
    "mohm": ("ohms", 1e-3), "kohm": ("ohms", 1e3), "k\u03a9": ("ohms", 1e3), "k\u2126": ("ohms", 1e3),
    "Mohm": ("ohms", 1e6),
    "W": ("watts", 1.0), "mW": ("watts", 1e-3), "kW": ("watts", 1e3),
    "s": ("seconds", 1.0), "ms": ("seconds", 1e-3), "min": ("seconds", 60.0),
    "m": ("metres", 1.0), "cm": ("metres", 0.01), "mm": ("metres", 1e-3), "in": ("metres", 0.0254),
    "ft": ("metres", 0.3048),
    "mm2": ("mm2", 1.0), "mm²": ("mm2", 1.0), "AWG": ("mm2", 1.0), "awg": ("mm2", 1.0),
    "rpm": ("rpm", 1.0), "deg": ("degrees", 1.0), "°": ("degrees", 1.0),
    "poles": ("poles", 1.0), "pole": ("poles", 1.0), "ways": ("ways", 1.0), "way": ("ways", 1.0),
}  # fmt: skip
"""Unit as written → the dimension's name and the factor to its SI unit. The ohm sign exists twice in Unicode."""

MOST: dict[str, float] = {
    "volts": 1_000, "amps": 10_000, "ohms": 1e9, "watts": 100_000, "seconds": 86_400, "metres": 10_000,
    "mm2": 1_000, "rpm": 100_000, "degrees": 36_000, "poles": 12, "ways": 500,
}  # fmt: skip
"""The largest value of each dimension that a prop could mean; more is a slip of the pen."""

NOUNS = {"mm2": "a gauge (mm2 or AWG)", "metres": "a length", "degrees": "an angle", "rpm": "a speed in rpm"}


class Measure(NamedTuple):
    """A quantity in SI units; `low` and `high` differ only where the plan gives a range."""

    dimension: str
    low: float
    high: float
    place: Place


def measure(quantity: Quantity) -> Measure | Problem:
    """The quantity in SI units, or what is wrong with it: an unknown unit, zero, negative or beyond any prop."""
    if quantity.unit not in UNITS:
        near = nearest(quantity.unit, UNITS)
        known = f"Nearest: {', '.join(near)}." if near else f"Units are {' '.join(UNITS)}."
        return Problem(quantity.place, f"no unit {quantity.unit}" if quantity.unit else "a number with no unit", known)
    dimension, factor = UNITS[quantity.unit]
    if quantity.unit.upper() == "AWG":
        low, high = awg_area(quantity.high), awg_area(quantity.low)
    else:
        low, high = quantity.low * factor, quantity.high * factor
    return _out_of_bounds(quantity, dimension, low, high) or Measure(dimension, low, high, quantity.place)


def _out_of_bounds(quantity: Quantity, dimension: str, low: float, high: float) -> Problem | None:
    most = MOST[dimension]
    if not (min(low, high) > 0 and max(low, high) <= most):
        help = f"{sentence(noun(dimension))} must be above 0 and at most {most:,.0f} {_base_unit(dimension)}."
        return Problem(quantity.place, f"{written(quantity)} cannot be meant", help)
    if low > high:
        return Problem(quantity.place, f"the range {written(quantity)} runs backwards", "Write the smaller end first.")
    if dimension in ("poles", "ways") and not low.is_integer():
        help = f"Write a whole number of {dimension}."
        return Problem(quantity.place, f"{written(quantity)} is no whole number", help)
    return None


def awg_area(size: float) -> float:
    """Area in mm2 of a solid wire of this American gauge (ASTM B258)."""
    if not -3 <= size <= 60:
        return math.inf
    diameter: float = 0.127 * 92 ** ((36 - size) / 39)
    return math.pi / 4 * diameter**2


def noun(dimension: str) -> str:
    """How a message names the dimension: "volts", "a length"."""
    return NOUNS.get(dimension, dimension)


def written(quantity: Quantity) -> str:
    """The quantity as the plan would write it: "12 V", "5..12 ms"."""
    number = f"{quantity.low:g}" if quantity.low == quantity.high else f"{quantity.low:g}..{quantity.high:g}"
    return f"{number} {quantity.unit}".rstrip()


def _base_unit(dimension: str) -> str:
    return next(unit for unit, (name, factor) in UNITS.items() if name == dimension and factor == 1.0)
