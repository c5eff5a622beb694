"""Fuses: standard ratings, and how long one of a kind holds or takes at so many per cent of its rating.

A gate is a promise of the standard about every fuse of the family: at `percent` it holds at least `least` and has
opened after `most` seconds. Between two gates only monotony is used: at less current it holds no shorter.
"""

import math
from typing import Final, NamedTuple

from circuitcheck.analysis.source import Source


class Gate(NamedTuple):
    """least: 0 where nothing is promised; most: infinite where the fuse may never open."""

    percent: float
    least: float
    most: float
    source: Source


class Family(NamedTuple):
    """volts: what it may break. ratings in amperes. gates by percentage, rising."""

    name: str
    standard: str
    volts: float
    ratings: tuple[float, ...]
    gates: tuple[Gate, ...]

    def times(self, share: float) -> tuple[float, float]:
        """(least, most) seconds until it opens at `share` times its rating."""
        holds, opens = self._holding(share), self._opening(share)
        return holds.least if holds else 0.0, opens.most if opens else math.inf

    def from_memory(self, share: float) -> bool:
        """Does what `times` says rest on a gate that was not looked up?"""
        used = (self._holding(share), self._opening(share))
        return any(gate is not None and gate.source.certainty == "from memory" for gate in used)

    @property
    def sure(self) -> Gate:
        """The least current at which it is sure to open within an hour."""
        return next(gate for gate in self.gates if gate.most <= HOUR)

    def _holding(self, share: float) -> Gate | None:
        above = [gate for gate in self.gates if gate.percent >= 100 * share - SLACK and gate.least > 0]
        return max(above, key=lambda gate: gate.least, default=None)

    def _opening(self, share: float) -> Gate | None:
        below = [gate for gate in self.gates if gate.percent <= 100 * share + SLACK and gate.most < math.inf]
        return min(below, key=lambda gate: gate.most, default=None)


SLACK: Final = 1e-9
HOUR: Final = 3600.0
NEVER: Final = math.inf
"""It may never open."""
CONTINUOUS_SHARE: Final = 0.75
CONTINUOUS_SOURCE = Source("Littelfuse Fuseology guide: at most 75 % at 25 °C", "quoted")

_BLADE = Source("ISO 8820-3 as in the Littelfuse 287 data sheet", "quoted")
_BLADE_MEMORY = Source("ISO 8820-3 as in the Littelfuse 287 data sheet", "from memory")
_SLOW = Source("IEC 60127-2 sheet 3 as in the Littelfuse 213 and 218 data sheets", "quoted")
_FAST = Source("IEC 60127-2 sheet 2", "from memory")
_UL = Source("UL/CSA 248-14 as in the Littelfuse Fuseology guide", "read")

_BLADE_RATINGS = (1.0, 2.0, 3.0, 4.0, 5.0, 7.5, 10.0, 15.0, 20.0, 25.0, 30.0, 35.0, 40.0)
_CARTRIDGE_RATINGS = (
    0.125, 0.16, 0.2, 0.25, 0.315, 0.4, 0.5, 0.63, 0.8, 1.0, 1.25, 1.6, 2.0, 2.5, 3.15, 4.0, 5.0, 6.3, 8.0, 10.0,
)  # fmt: skip
"""The R10 series of preferred numbers (ISO 3), from the sheets' smallest to their largest."""

BLADE: Final = Family("blade", "ISO 8820-3 type C", 32.0, _BLADE_RATINGS, (
    Gate(110, 360_000, NEVER, _BLADE_MEMORY),
    Gate(135, 0.75, 600, _BLADE_MEMORY),
    Gate(160, 0.25, 50, _BLADE),
    Gate(200, 0.15, 5, _BLADE),
    Gate(350, 0.08, 0.5, _BLADE_MEMORY),
    Gate(600, 0.0, 0.15, _BLADE_MEMORY),
))  # fmt: skip
"""Up to 30 A."""
LARGE_BLADE: Final = BLADE._replace(gates=(
    Gate(100, 360_000, NEVER, _BLADE),
    Gate(135, 0.75, 600, _BLADE),
    Gate(200, 0.15, 5, _BLADE),
    Gate(350, 0.08, 0.5, _BLADE),
    Gate(600, 0.0, 0.15, _BLADE),
))  # fmt: skip
"""35 and 40 A."""
SLOW: Final = Family("cartridge slow", "IEC 60127-2 sheet 3, 5 × 20 mm time-lag", 250.0, _CARTRIDGE_RATINGS, (
    Gate(150, 1_800, NEVER, _SLOW),
    Gate(210, 0.0, 120, _SLOW),
    Gate(275, 0.6, 10, _SLOW),
    Gate(400, 0.15, 3, _SLOW),
    Gate(1000, 0.02, 0.3, _SLOW),
))  # fmt: skip
"""At 150 % up to 6.3 A hold an hour, larger ones half of it, which is what stands here for all."""
FAST: Final = Family("cartridge fast", "IEC 60127-2 sheet 2, 5 × 20 mm quick-acting", 250.0, _CARTRIDGE_RATINGS, (
    Gate(150, HOUR, NEVER, _FAST),
    Gate(210, 0.0, 1_800, _FAST),
    Gate(275, 0.05, 2, _FAST),
    Gate(400, 0.01, 0.3, _FAST),
    Gate(1000, 0.0, 0.02, _FAST),
))  # fmt: skip
NORTH_AMERICAN: Final = Family("cartridge", "UL/CSA 248-14", 250.0, _CARTRIDGE_RATINGS, (
    Gate(100, NEVER, NEVER, _UL),
    Gate(135, 0.0, HOUR, _UL),
    Gate(200, 0.0, 120, _UL),
))  # fmt: skip
"""Up to 30 A. Of one printed figure, an IEC cartridge may hold at 150 % what this one must open at 135 %."""


def family_of(features: tuple[str, ...], amps: float) -> Family:
    """What the plan calls the fuse: a blade where it says nothing."""
    if "cartridge" in features:
        return FAST if "fast" in features else SLOW
    return BLADE if amps <= 30 else LARGE_BLADE
