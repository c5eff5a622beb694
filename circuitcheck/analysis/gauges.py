"""Wire sizes and their resistance: the one source of it, for volts that wires take as for what they may carry.

Metric sizes have the greatest resistance that IEC 60228 allows a fine-stranded conductor (class 5, plain copper) at
20 °C. American gauges have the diameter of ASTM B258, 0.127 mm · 92^((36 − n)/39), the resistivity of annealed copper
of IEC 60028, and 2 % more for being stranded. Resistance rises with temperature by 0.393 % of its value at 20 °C for
each kelvin (IEC 60028).
"""

from functools import lru_cache
from typing import Final, NamedTuple

from circuitcheck.analysis.copper import copper_factor, wire_ohms
from circuitcheck.analysis.source import Source
from circuitcheck.circuit.units import awg_area

STRANDING: Final = 1.02
"""Stranded over solid wire of one gauge: 6.52 against 6.385 ohm per 1000 ft of 18 AWG in handbook tables."""
MM2_PER_CIRCULAR_MIL: Final = 0.000506707

CLASS_5: Final = {
    0.22: 96.0, 0.25: 76.0, 0.34: 53.0, 0.5: 39.0, 0.75: 26.0, 1.0: 19.5, 1.5: 13.3, 2.5: 7.98, 4.0: 4.95, 6.0: 3.30,
    10.0: 1.91,
}  # fmt: skip
"""mm2 → most ohms per kilometre at 20 °C. Sizes under 0.5 mm2 are of DIN VDE 0295, which IEC 60228 lacks."""
IEC_60228 = Source("IEC 60228 class 5", "quoted")
DIN_VDE_0295 = Source("DIN VDE 0295 class 5", "quoted")
ASTM_B258 = Source("ASTM B258 and IEC 60028, stranded", "derived")
AWG_SIZES: Final = range(30, 7, -1)


class Gauge(NamedTuple):
    """A size of wire that tables have. awg: its American gauge, None for a metric size. ohms_per_metre: at 20 °C."""

    name: str
    area_mm2: float
    awg: int | None
    ohms_per_metre: float
    source: Source

    def ohms(self, metres: float, celsius: float) -> float:
        """The resistance of a length of it, its copper at this temperature."""
        return self.ohms_per_metre * metres * copper_factor(celsius)


def _metric(area: float) -> Gauge:
    source = IEC_60228 if area >= 0.5 else DIN_VDE_0295
    return Gauge(f"{area:g} mm²", area, None, CLASS_5[area] / 1000, source)


def _american(size: int) -> Gauge:
    area = awg_area(size)
    return Gauge(f"{size} AWG", area, size, STRANDING * wire_ohms(area, 1.0), ASTM_B258)


METRIC: Final = tuple(_metric(area) for area in CLASS_5)
AMERICAN: Final = tuple(_american(size) for size in AWG_SIZES)
"""Both from thin to thick."""
STRANGE: Final = max(gauge.ohms_per_metre / wire_ohms(gauge.area_mm2, 1.0) for gauge in METRIC if gauge.area_mm2 >= 0.5)
"""Over solid copper of its area, for a wire that no table has: as much as IEC 60228 allows of any size, 1.16."""


@lru_cache
def gauge_of(area_mm2: float) -> Gauge | None:
    """The size that a plan means by this area (an American gauge comes as its exact area); None where no table has it.

    Half a per mille of slack takes an area that was rounded to a few digits, and is far less than a step of any table.
    """
    return next((one for one in (*METRIC, *AMERICAN) if abs(one.area_mm2 / area_mm2 - 1) < 5e-4), None)


def stranded_ohms(area_mm2: float, metres: float, celsius: float) -> float:
    """The resistance of a wire of this area, one way. ZeroDivisionError for an area of 0."""
    gauge = gauge_of(area_mm2)
    return gauge.ohms(metres, celsius) if gauge else STRANGE * wire_ohms(area_mm2, metres, celsius)


def nearest_sizes(area_mm2: float) -> tuple[Gauge, ...]:
    """For an area that no table has: of each system the next thicker size, where there is one."""
    thicker = (next((one for one in sizes if one.area_mm2 > area_mm2), None) for sizes in (METRIC, AMERICAN))
    return tuple(one for one in thicker if one)
