"""A verdict on one part: what flows through it, what it can take, and what to do."""

from typing import Final, NamedTuple

from circuitcheck.sizing.currents import Currents
from circuitcheck.sizing.greatest import NOTHING

FITS: Final = "fits"
TOO_SMALL: Final = "too small"
TOO_LARGE: Final = "too large"
NOT_DECLARED: Final = "not declared"
IDLE: Final = "no current"

NO_CURRENTS: Final = Currents(NOTHING, NOTHING, NOTHING)


class Sized(NamedTuple):
    """kind: "wire", "fuse", "contacts", "pins", "diode", "supply", "suppressor", "resistor" or "motor" (its drop).

    name: as the plan has it; made: what it is made as ("1.5 mm²", "25 A"), "" where the plan doesn't tell. needs, can:
    in `unit` ("A", "W", "V", "%"); can is None where nothing tells. remarks: why, and what to do, a sentence each.
    write: what the plan would have to say for a verdict; "" where nothing is missing.
    """

    kind: str
    name: str
    made: str
    currents: Currents
    needs: float
    can: float | None
    unit: str
    verdict: str
    remarks: tuple[str, ...] = ()
    write: str = ""

    @property
    def used(self) -> float | None:
        """Which part of what it can take it needs: 0.4, or more than 1 where it is too small."""
        return self.needs / self.can if self.can else None


def verdict_on(needs: float, can: float | None) -> str:
    """Whether it fits; without a figure there is no verdict."""
    if can is None:
        return NOT_DECLARED
    return FITS if needs <= can * (1 + 1e-9) else TOO_SMALL
