"""The resistance of copper: IEC 60028 (1925), annealed copper, 100 % IACS.

0.017241 ohm mm2/m at 20 °C, 0.393 % more for each kelvin above.
"""

from typing import Final

OHM_MM2_PER_METRE: Final = 0.017241
PER_KELVIN: Final = 0.00393
BASE_CELSIUS: Final = 20.0


def copper_factor(celsius: float, base_celsius: float = BASE_CELSIUS) -> float:
    """How many times its resistance at `base_celsius` a copper winding or wire has at `celsius`."""
    return (1 + PER_KELVIN * (celsius - BASE_CELSIUS)) / (1 + PER_KELVIN * (base_celsius - BASE_CELSIUS))


def wire_ohms(area_mm2: float, metres: float, celsius: float = BASE_CELSIUS) -> float:
    """The resistance of a solid copper wire, one way; stranded ones are in gauges.py. ZeroDivisionError for no area."""
    return OHM_MM2_PER_METRE * metres / area_mm2 * copper_factor(celsius)
