"""How far a motor turns on a way to stop: from the moment of the cause until it stands.

While a relay takes its time the motor is driven on; while a contact travels it is open; then it brakes, coasts, or is
driven against its motion.
"""

from collections.abc import Sequence
from itertools import pairwise
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
"""From what slows a motor down least to what does most, at any speed."""


class Part(NamedTuple):
    """A stretch of the way: what the motor does, how far it turns (radians) and how long it takes (seconds)."""

    does: str
    turns: Span
    lasts: Span


class _Phase(NamedTuple):
    """What the motor does, told under the name of `part`, and when it may begin."""

    part: str
    does: str
    begins: Span


class Leg(NamedTuple):
    """What the motor does, for so long; told under the name of `part`."""

    part: str
    does: str
    seconds: float


def parts_of(way: Way, near: Pace, far: Pace, transfer: Span = TRANSFER) -> tuple[Part, ...]:
    """The way part by part, as it is on the nearest way and on the furthest; what neither has is left out."""
    soon = _measures(legs_of(way, 0, transfer), near, carried=False)
    late = _measures(legs_of(way, 1, transfer), far, carried=True)
    names = dict.fromkeys(phase.part for phase in _phases(way, transfer))
    spans = {name: (soon.get(name, (0.0, 0.0)), late.get(name, (0.0, 0.0))) for name in names}
    return tuple(
        Part(name, _ordered(least[0], most[0]), _ordered(least[1], most[1]))
        for name, (least, most) in spans.items()
        if least[1] or most[1]
    )


def total(way: Way, near: Pace, far: Pace, transfer: Span = TRANSFER) -> Part:
    """The whole way; inf where it may never stop."""
    soon = _measures(legs_of(way, 0, transfer), near, carried=False).values()
    late = _measures(legs_of(way, 1, transfer), far, carried=True).values()
    turns, lasts = (tuple(sum(one[place] for one in side) for side in (soon, late)) for place in (0, 1))
    return Part(way.does[-1], _ordered(*turns), _ordered(*lasts))


def legs_of(way: Way, end: int, transfer: Span = TRANSFER) -> list[Leg]:
    """The way that stops soonest (end 0) or latest (end 1): at each moment, of all that the motor may be doing then,
    what slows it down most or least. No way between can get ahead of the one or fall behind the other."""
    phases = _phases(way, transfer)
    moments = sorted({moment for phase in phases for moment in phase.begins})
    legs: list[Leg] = []
    for moment, until in pairwise([*moments, inf]):
        possible = [
            phase
            for phase, onward in zip(phases, [*phases[1:], None], strict=True)
            if phase.begins[0] <= moment and (onward is None or onward.begins[1] > moment)
        ]
        # Of two that slow it down alike the nearest way has come to the later one.
        chosen = min(possible, key=_strength) if end else max(reversed(possible), key=_strength)
        before = legs.pop() if legs and legs[-1][:2] == chosen[:2] else Leg(chosen.part, chosen.does, 0.0)
        legs.append(before._replace(seconds=before.seconds + until - moment))
    return legs


def _phases(way: Way, transfer: Span) -> list[_Phase]:
    """What the motor does, with the travel of a contact before each change but to coasting."""
    phases: list[_Phase] = []
    for does, (least, greatest) in zip(way.does, way.begins, strict=True):
        if does in (DRIVEN, COASTING):
            phases.append(_Phase(OPENING if does == DRIVEN else does, does, (least, greatest)))
        else:
            phases.append(_Phase(TRAVELLING, COASTING, (least, greatest)))
            phases.append(_Phase(does, does, (least + transfer[0], greatest + transfer[1])))
    return phases


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


def _strength(phase: _Phase) -> int:
    return _STRENGTH.index(phase.does)


def _ordered(one: float, other: float) -> Span:
    return min(one, other), max(one, other)
