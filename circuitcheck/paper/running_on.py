"""How far what a motor moves goes on once its drive has ended, at most: what a borrower must leave room for."""

from math import isinf

from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.motion.answers import Stop, motion_of
from circuitcheck.analysis.motion.cuts import REVERSED
from circuitcheck.analysis.motion.known import has_figures
from circuitcheck.analysis.states import TooWide
from circuitcheck.analysis.surroundings import TooManyCases
from circuitcheck.paper.doings import Doing, is_driven

RunsOn = tuple[tuple[int, int, float], ...]
"""By what ends the drive, a digit and the value that it comes to: radians that the motor's shaft still turns, at most,
the relays' times included."""


def runs_on(facts: Facts, doing: Doing) -> RunsOn:
    """What the plan's figures tell; nothing of a stop that they don't suffice for or see no end of, or that is a drive
    the other way."""
    if not is_driven(doing.word):
        return ()
    direction = 1 if doing.word.startswith("forward") else -1
    furthest: dict[tuple[int, int], float] = {}
    unknown = set()
    for stop in _stops(facts, doing.part, direction):
        for cause in stop.causes:
            key = (cause.digit, cause.end)
            if stop.whole is None or isinf(stop.whole.turns[1]) or REVERSED in stop.way.does:
                unknown.add(key)
            else:
                furthest[key] = max(furthest.get(key, 0.0), stop.whole.turns[1])
    return tuple((*key, radians) for key, radians in furthest.items() if key not in unknown)


def _stops(facts: Facts, motor: str, direction: int) -> tuple[Stop, ...]:
    number = next(number for number, one in enumerate(facts.circuit.motors) if one.name == motor)
    if not has_figures(facts.circuit.motors[number]):
        return ()
    try:
        senses = motion_of(facts, number).senses
    except (TooWide, TooManyCases):
        return ()
    return tuple(stop for sense in senses if sense.direction == direction for stop in sense.stops)
