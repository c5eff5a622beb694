"""The reading that tells most: after which, whatever is read, the fewest faults are left on the average."""

from collections.abc import Iterator, Sequence
from itertools import combinations
from typing import Final, NamedTuple

import numpy as np

from circuitcheck.analysis.bench.candidates import Boxes, meter_reading
from circuitcheck.analysis.bench.meter import Meter, Ohms, apart
from circuitcheck.analysis.bench.powered import points_of
from circuitcheck.analysis.bench.readings import UNSETTLED, Point, Reading, told_apart
from circuitcheck.analysis.bench.settings import OFF, STAGES, Setting, Settings, settings_of

NEAR: Final = 64
"""Settings that are tried first, those nearest to rest; the others where none of them tells anything."""

GOOD: Final = 0.6
"""A reading after which no more than this share of the faults is left on the average is worth taking at once."""


class Question(NamedTuple):
    """What to read next. readings: with each fault, by its number; as many as the boxes have."""

    settings: Settings
    setting: Setting
    point: Point
    readings: tuple[Reading, ...]

    def left(self, answer: Reading) -> list[int]:
        """The faults that fit an answer."""
        return [
            number
            for number, reading in enumerate(self.readings)
            if UNSETTLED in (reading, answer) or not told_apart(reading, answer)
        ]


def most_telling(boxes: Boxes, stages: Sequence[str] = STAGES) -> Question | None:
    """The best of the first stage that has a good one, else the best of all; None where faults can't be told apart."""
    best: Question | None = None
    for stage in stages:
        found = _best_of(boxes, settings_of(boxes.circuit, stage))
        if found is not None and (best is None or _squares(found.readings) < _squares(best.readings)):
            best = found
        if best is not None and _squares(best.readings) <= GOOD * len(boxes.faults) ** 2:
            return best
    return best


def _best_of(boxes: Boxes, settings: Settings) -> Question | None:
    for some in filter(None, (settings.all[:NEAR], settings.all[NEAR:])):
        tried = settings._replace(all=some)
        found = _by_meter(boxes, tried) if settings.stage == OFF else _by_eye(boxes, tried)
        if found is not None:
            return found
    return None


def _by_meter(boxes: Boxes, settings: Settings) -> Question | None:
    meters = boxes.meters(settings.all)[1:]
    upper = np.triu_indices(len(boxes.terminals), 1)
    pairs = list(combinations(boxes.terminals, 2))
    best, found = float(len(meters) ** 2), None
    for number in range(len(settings.all)) if pairs else ():
        rows = np.array([meter.ohms(number)[upper] for meter in meters])
        left = _left_over(rows)
        place = int(np.argmin(left))
        if left[place] < best:
            best, found = float(left[place]), (number, place)
    if found is None:
        return _by_diode_range(boxes, settings, meters)
    setting, place = found
    point = Point("ohms", "", *pairs[place])
    readings = tuple(meter_reading(boxes, meter, setting, point) for meter in meters)
    return Question(settings, settings.all[setting], point, readings)


def _left_over(rows: Ohms) -> Ohms:
    """By point (column) the sum of squares of how many faults (rows) read so nearly alike that none is told apart."""
    ordered = np.sort(rows, axis=0)
    groups = np.zeros(rows.shape, np.intp)
    groups[1:] = np.cumsum(apart(ordered[:-1], ordered[1:]), axis=0)
    return sum(((groups == one).sum(axis=0) ** 2 for one in range(int(groups.max()) + 1)), np.zeros(rows.shape[1]))


def _by_diode_range(boxes: Boxes, settings: Settings, meters: Sequence[Meter]) -> Question | None:
    for number, setting in enumerate(settings.all):
        for point in boxes.diode_points():
            readings = tuple(meter_reading(boxes, meter, number, point) for meter in meters)
            if _tells(readings):
                return Question(settings, setting, point, readings)
    return None


def _by_eye(boxes: Boxes, settings: Settings) -> Question | None:
    found = list(_seen(boxes, settings))
    return min(found, key=lambda one: _squares(one.readings)) if found else None


def _seen(boxes: Boxes, settings: Settings) -> Iterator[Question]:
    faulty = [boxes.powered(number, settings.stage) for number in range(len(boxes.faults))]
    for setting in settings.all:
        seen = [powered.seen(setting) for powered in faulty]
        for point in points_of(boxes.circuit, settings.stage):
            readings = tuple(one[point] for one in seen)
            if _tells(readings):
                yield Question(settings, setting, point, readings)


def _tells(readings: Sequence[Reading]) -> bool:
    steady = list(dict.fromkeys(one for one in readings if one != UNSETTLED))
    return any(told_apart(one, other) for one, other in combinations(steady, 2))


def _squares(readings: Sequence[Reading]) -> int:
    """The sum over all readings of how many others are not told apart from them."""
    return sum(1 for one in readings for other in readings if UNSETTLED in (one, other) or not told_apart(one, other))
