"""What is read on the bench, and when two readings can be told apart.

A hand-held meter: ohms with a voltage too small for any diode; the diode range with 1 mA and some 2 V. Its leads and
contacts add some tenths of an ohm, windings are made to 10 % or so, and a cold lamp is no precise resistor: readings
count as different only where nobody could mistake them. All these figures are common practice, no source.
"""

from collections.abc import Iterable
from typing import Final, NamedTuple

from circuitcheck.circuit.model import Terminal

Reading = float | str
"""Ohms or volts, or a word: what a motor, a lamp or a relay is seen to do."""

LEAST_OHMS: Final = 1.0
LEAST_VOLTS: Final = 1.0
LEAST_RATIO: Final = 1.3

SLACK: Final = 1e-6
"""What is just as far apart counts as not far enough, however the last decimals fall."""

MOST_OHMS: Final = 2_000_000.0
"""Above it a meter shows nothing."""

BEEPS_BELOW: Final = 1.0
"""Ohms that no such meter tells from none."""

PASSES: Final = "passes"
"""The diode range shows the volts of a diode or a little more."""

OVERLOAD: Final = "current limit"
"""The supply is shorted: all else is without volts."""

UNSETTLED: Final = "not steady"
"""Relays end up now so, now so, or go round."""


class Point(NamedTuple):
    """What is looked at. kind: "ohms" (two terminals), "diode" (red on the first, black on the second), "volts" (of a
    supply, or of a motor that is not there), "relay", "lamp" (buzzer, solenoid) or "motor". name: of the part, for the
    last four."""

    kind: str
    name: str
    red: Terminal = ""
    black: Terminal = ""


def told_apart(one: Reading, other: Reading) -> bool:
    """Could nobody mistake one reading for the other?"""
    if isinstance(one, str) or isinstance(other, str):
        return one != other
    low, high = sorted((one, other), key=abs)
    if abs(high) > MOST_OHMS:
        return abs(low) <= MOST_OHMS
    if low * high < 0:
        return abs(high - low) > LEAST_VOLTS
    return abs(high) - abs(low) > LEAST_OHMS + SLACK and abs(high) > LEAST_RATIO * abs(low) + SLACK


def shows_apart(sound: Reading, faulty: Reading) -> bool:
    """Does a faulty box surely read otherwise than a sound one?"""
    return faulty != UNSETTLED and told_apart(sound, faulty)


def alike(readings: Iterable[Reading]) -> list[tuple[Reading, ...]]:
    """Different readings in groups that can be told apart; numbers in order, within a group from low to high."""
    distinct = list(dict.fromkeys(readings))
    groups: list[tuple[Reading, ...]] = [(one,) for one in distinct if isinstance(one, str)]
    numbers: list[tuple[float, ...]] = []
    for one in sorted(one for one in distinct if not isinstance(one, str)):
        if numbers and not told_apart(numbers[-1][-1], one):
            numbers[-1] = (*numbers[-1], one)
        else:
            numbers.append((one,))
    return [*numbers, *groups]


def is_open(reading: Reading) -> bool:
    """Does an ohmmeter show that nothing is joined?"""
    return not isinstance(reading, str) and reading > MOST_OHMS
