"""How far a motor turns on a way to stop: from the moment of the cause until it stands.

While a relay takes its time the motor is driven on; while a contact travels it is open; then it brakes, coasts, or is
driven against its motion. The nearest way takes each of these at what stops it soonest, the furthest at what stops it
latest: the drive ends as late as it can, and whatever brakes better begins as late as it can.
"""

from collections.abc import Sequence
from math import inf
from typing import Final, NamedTuple

from circuitcheck.analysis.motion.constants import Pace
from circuitcheck.analysis.motion.contact_times import TRANSFER
from circuitcheck.analysis.motion.cuts import (
    BRAKED,
    COASTING,
    DRIVEN,
    ENDLESS,
    HALF_BRAKED,
    REVERSED,
    SHORTED,
    WEAK,
    Way,
)
from circuitcheck.analysis.motion.stretches import OPEN, Leads, Stretch, course, turned, until_standstill
from circuitcheck.circuit.figures import Span

OPENING, TRAVELLING = "contact opens", "contact travels"
UNKNOWN: Final = frozenset({WEAK, SHORTED, ENDLESS})
"""What no way to stop can be reckoned through."""
_STRENGTH: Final = (DRIVEN, COASTING, HALF_BRAKED, BRAKED, REVERSED)


class Part(NamedTuple):
    """A stretch of the way: what the motor does, how far it turns (radians) and how long it takes (seconds)."""

    does: str
    turns: Span
    lasts: Span


class Leg(NamedTuple):
    """What the motor does, for so long; told under the name of `part`."""

    part: str
    does: str
    seconds: float


def parts_of(way: Way, near: Pace, far: Pace, transfer: Span = TRANSFER) -> tuple[Part, ...]:
    """The way part by part, as it is on the nearest way and on the furthest; what neither has is left out."""
    soon = _measures(legs_of(way, 0, transfer[0]), near, carried=False)
    late = _measures(legs_of(way, 1, transfer[1]), far, carried=True)
    names = list(dict.fromkeys([leg.part for leg in legs_of(way, 1, transfer[1])]))
    spans = [(soon.get(name, (0.0, 0.0)), late.get(name, (0.0, 0.0))) for name in names]
    return tuple(
        Part(name, _ordered(least[0], most[0]), _ordered(least[1], most[1]))
        for name, (least, most) in zip(names, spans, strict=True)
        if least[1] or most[1]
    )


def total(way: Way, near: Pace, far: Pace, transfer: Span = TRANSFER) -> Part:
    """The whole way; inf where it may never stop."""
    soon = _measures(legs_of(way, 0, transfer[0]), near, carried=False).values()
    late = _measures(legs_of(way, 1, transfer[1]), far, carried=True).values()
    turns, lasts = (tuple(sum(one[place] for one in side) for side in (soon, late)) for place in (0, 1))
    return Part(way.does[-1], _ordered(*turns), _ordered(*lasts))


def legs_of(way: Way, end: int, transfer: float) -> list[Leg]:
    """The way that ends soonest (end 0) or latest (end 1). Before each change but to coasting a contact travels."""
    begins = [0.0]
    for number in range(1, len(way.does)):
        stronger = _rank(way.does[number]) > _rank(way.does[number - 1])
        begins.append(max(way.begins[number][end if stronger else 1 - end], begins[-1]))
    legs: list[Leg] = []
    for number, does in enumerate(way.does):
        lasts = (begins[number + 1] if number + 1 < len(begins) else inf) - begins[number]
        travels = transfer if does not in (DRIVEN, COASTING) else 0.0
        if travels:
            legs.append(Leg(TRAVELLING, COASTING, min(travels, lasts)))
        legs.append(Leg(OPENING if does == DRIVEN else does, does, max(lasts - travels, 0.0)))
    return [leg for leg in legs if leg.seconds > 0]


def speeds_of(legs: Sequence[Leg], pace: Pace, *, carried: bool) -> list[tuple[str, Stretch]]:
    """Speed against time until the shaft stands, with the part that each stretch belongs to.

    carried: a motor that is driven again on the way counts as having its full speed (the furthest); else as coasting.
    """
    found: list[tuple[str, Stretch]] = []
    speed = pace.speed
    for number, leg in enumerate(legs):
        if leg.does == DRIVEN and (carried or not number):
            stretches = [Stretch(leg.seconds, pace.speed, 0.0, 0.0)]
        else:
            stretches = list(course(_leads(leg.does, pace), pace.friction, pace.pull, speed, leg.seconds))
        moving = list(until_standstill(stretches))
        found += [(leg.part, one) for one in moving]
        stands = len(moving) < len(stretches)
        if stands and not (carried and any(later.does == DRIVEN for later in legs[number + 1 :])):
            return found
        speed = 0.0 if stands else max(moving[-1].speed_at(moving[-1].seconds), 0.0)
    return found


def _measures(legs: list[Leg], pace: Pace, *, carried: bool) -> dict[str, tuple[float, float]]:
    """Radians and seconds of each part."""
    measures: dict[str, tuple[float, float]] = {}
    for part, stretch in speeds_of(legs, pace, carried=carried):
        before = measures.get(part, (0.0, 0.0))
        measures[part] = before[0] + turned([stretch]), before[1] + stretch.seconds
    return measures


def _leads(does: str, pace: Pace) -> Leads:
    return {
        COASTING: OPEN,
        DRIVEN: OPEN,
        BRAKED: Leads(drag=pace.drag),
        HALF_BRAKED: Leads(drag=pace.drag, above=pace.diode),
        REVERSED: Leads(push=-pace.push, drag=pace.drag),
    }[does]


def _rank(does: str) -> int:
    return _STRENGTH.index(does)


def _ordered(one: float, other: float) -> Span:
    return min(one, other), max(one, other)
