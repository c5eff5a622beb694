"""How much current a wire may carry.

Published figures for one size differ by a factor of nine, for each holds under its own conditions: no ampacity without
its table. Which table is taken follows from how the plan writes the gauge, never from what would fit:

    mm2, 0.75 to 10    IEC 60204-1 Table 6, method B2 (a cable in conduit or trunking), PVC, 40 °C
    AWG, 18 to 8       33 CFR 183.425 Table 5, the column of the insulation (60 °C where the plan says none), 30 °C
    all others         700 circular mils for each ampere, a handbook's rule for wound and bundled wire, as it is

The first two are for one cable of up to three loaded wires, or two. More in a bundle heat each other: 0.7, 0.6, 0.5
(33 CFR 183.425). Warmer surroundings leave less rise: heat grows with the square of the current, so a table for
ambient A and insulation T is worth √((T − a)/(T − A)) at ambient a. That gives 33 CFR's own 0.85 for 105 °C at 50 °C.
Cooler surroundings, and insulation that stands more than the table's, are given no credit.
"""

import math
from typing import Final, NamedTuple

from circuitcheck.analysis.gauges import AMERICAN, METRIC, MM2_PER_CIRCULAR_MIL, Gauge
from circuitcheck.analysis.source import Source


class Factor(NamedTuple):
    """What a table's amperes are multiplied by, and why."""

    value: float
    why: str
    source: Source


class Ampacity(NamedTuple):
    """`row_amps` of a table under its condition, and what the plan's own conditions leave of them."""

    row_amps: float
    condition: str
    source: Source
    factors: tuple[Factor, ...]

    @property
    def amps(self) -> float:
        """What the wire may carry."""
        return self.row_amps * math.prod(factor.value for factor in self.factors)


class Surroundings(NamedTuple):
    """ambient_celsius: at its warmest. insulation_celsius: None where the plan says nothing. bundled: wires in one
    bundle that carry current. table: the one whose sizes are proposed, "" for all."""

    ambient_celsius: float
    insulation_celsius: float | None
    bundled: int
    table: str = ""


IEC_60204: Final = {0.75: 8.5, 1.0: 10.1, 1.5: 13.1, 2.5: 17.4, 4.0: 23.0, 6.0: 30.0, 10.0: 40.0}
IEC_60204_SOURCE = Source("IEC 60204-1 Table 6", "quoted")
IEC_60204_INSULATION, IEC_60204_AMBIENT = 70, 40

CFR: Final = {
    18: (10, 10, 20, 20), 16: (15, 15, 25, 25), 14: (20, 20, 30, 35), 12: (25, 25, 40, 45), 10: (40, 40, 55, 60),
    8: (55, 65, 70, 80),
}  # fmt: skip
CFR_COLUMNS: Final = (60, 75, 90, 105)
CFR_AMBIENT: Final = 30
CFR_SOURCE = Source("33 CFR 183.425 Table 5", "read")

BUNDLES: Final = ((2, 1.0), (3, 0.7), (6, 0.6), (24, 0.5))
"""Up to so many current-carrying wires in a bundle → factor."""
BUNDLES_SOURCE = Source("33 CFR 183.425 and ABYC E-11", "read")
AMBIENT_SOURCE = Source("heat balance", "derived")

TABLES: Final = {"IEC 60204-1": METRIC, "33 CFR 183.425": AMERICAN}
"""The tables that settings can name, with the sizes that they are for."""

LEAST_MM2: Final = 0.3255
"""22 AWG: the thinnest wire that is proposed. 46 CFR 183.340 asks for it in control and indicator circuits."""

CIRCULAR_MILS_PER_AMPERE: Final = 700
MILS_SOURCE = Source("700 circular mils per ampere, Handbook of Electronic Tables and Formulas", "quoted")


class NoTable(Exception):
    """No table covers what the plan says of the surroundings: its text says what."""


def ampacity(gauge: Gauge, around: Surroundings) -> Ampacity:
    """What a wire of this gauge may carry there: nothing where the ambient is as hot as its insulation stands. NoTable
    where the surroundings are beyond every table."""
    row = _row(gauge, around.insulation_celsius)
    if row is None:
        amps = gauge.area_mm2 / MM2_PER_CIRCULAR_MIL / CIRCULAR_MILS_PER_AMPERE
        stands = around.insulation_celsius or CFR_COLUMNS[0]
        melts = around.ambient_celsius >= stands
        factors = [_for_ambient(stands, CFR_AMBIENT, around.ambient_celsius)] if melts else []
        return Ampacity(amps, "any place, no factors", MILS_SOURCE, tuple(factors))
    stands, ambient, found = row
    factors = [_for_ambient(stands, ambient, around.ambient_celsius), _for_bundle(around.bundled)]
    if found.source is IEC_60204_SOURCE and stands < IEC_60204_INSULATION:
        why = f"insulation for {stands:g} °C in place of {IEC_60204_INSULATION} °C"
        value = _rise(stands, ambient) / _rise(IEC_60204_INSULATION, ambient)
        factors.insert(0, Factor(value, why, AMBIENT_SOURCE))
    return found._replace(factors=tuple(factors))


def next_size(gauge: Gauge | None, amps: float, around: Surroundings) -> tuple[Gauge, ...]:
    """The thinnest metric and American size, from 22 AWG up, that may carry so much, thicker than `gauge`; only one of
    them where settings name its table."""
    found = []
    beyond = gauge.area_mm2 if gauge else 0.0
    for sizes in (TABLES[around.table],) if around.table else TABLES.values():
        thicker = [one for one in sizes if one.area_mm2 > max(beyond, LEAST_MM2 - 1e-4)]
        found += [one for one in thicker if ampacity(one, around).amps >= amps][:1]
    return tuple(found)


def _row(gauge: Gauge, insulation: float | None) -> tuple[float, float, Ampacity] | None:
    """What the insulation stands and the ambient of the row, and the row without factors. None where none has it."""
    if gauge.awg is None and gauge.area_mm2 in IEC_60204:
        stands = min(insulation or IEC_60204_INSULATION, IEC_60204_INSULATION)
        condition = f"cable in conduit or trunking (B2), PVC, {IEC_60204_AMBIENT} °C"
        return stands, IEC_60204_AMBIENT, Ampacity(IEC_60204[gauge.area_mm2], condition, IEC_60204_SOURCE, ())
    columns = [number for number, stands in enumerate(CFR_COLUMNS) if stands <= (insulation or CFR_COLUMNS[0])]
    if gauge.awg in CFR and columns:
        stands = CFR_COLUMNS[columns[-1]]
        condition = f"up to two wires together, insulation {stands:g} °C, {CFR_AMBIENT} °C"
        return stands, CFR_AMBIENT, Ampacity(CFR[gauge.awg][columns[-1]], condition, CFR_SOURCE, ())
    return None


def _for_ambient(insulation: float, of_table: float, ambient: float) -> Factor:
    value = min(1.0, _rise(insulation, ambient) / _rise(insulation, of_table))
    return Factor(value, f"ambient {ambient:g} °C, insulation {insulation:g} °C", AMBIENT_SOURCE)


def _rise(insulation: float, ambient: float) -> float:
    return math.sqrt(max(0.0, insulation - ambient))


def _for_bundle(wires: int) -> Factor:
    for most, value in BUNDLES:
        if wires <= most:
            return Factor(value, f"{wires} wire{'s' * (wires != 1)} in the bundle", BUNDLES_SOURCE)
    raise NoTable(f"No table has a factor for {wires} wires in one bundle. Split it: {BUNDLES[-1][0]} at most")
