"""From what is seen of a faulty box to the faults that explain it.

A symptom says how some controls stand and what is seen, or read on a meter; what it leaves open may stand anyhow. A
fault fits a symptom where the box with it, somehow set as the symptom says, shows all of that at once. It explains the
symptoms where it fits each of them, and at least one where a sound box, set alike, would show something else.
"""

from collections.abc import Sequence
from typing import Final, NamedTuple

from circuitcheck.analysis.bench.candidates import Boxes, meter_reading
from circuitcheck.analysis.bench.likely import rank
from circuitcheck.analysis.bench.powered import Seen
from circuitcheck.analysis.bench.readings import UNSETTLED, Point, Reading, told_apart
from circuitcheck.analysis.bench.settings import MOST_SETTINGS, OFF, WITH, Option, Setting, settings_of
from circuitcheck.analysis.doing import Tell
from circuitcheck.analysis.faults.fault import Fault, both_at_once

MOST_PAIRS: Final = 1_000
"""Pairs that are tried, the likeliest first."""


class Observation(NamedTuple):
    """One of the readings is seen at a point."""

    point: Point
    readings: frozenset[Reading]

    def fits(self, seen: Seen) -> bool:
        """What is not the same every time may be seen so; a figure may be seen as one that it can't be told from."""
        here = seen[self.point]
        return here == UNSETTLED or any(not told_apart(here, one) for one in self.readings)


class Symptom(NamedTuple):
    """given: by digit what it may stand at. observed: all at once. stage: what the bench is like, of STAGES."""

    given: tuple[tuple[int, tuple[Option, ...]], ...]
    observed: tuple[Observation, ...]
    stage: str = WITH

    def fits(self, seen: Seen) -> bool:
        """Is all of it seen?"""
        return all(one.fits(seen) for one in self.observed)


class Explained(NamedTuple):
    """boxes: with the faults, or pairs of faults as one, that explain what is seen: likeliest first; none do where it
    is empty. pairs: they are pairs. tried: how many pairs were tried. sound: for each symptom a setting at which a
    sound box shows the same; empty where it shows some of it nowhere."""

    boxes: Boxes
    pairs: bool
    tried: int
    sound: tuple[Setting, ...]


class _Occasion:
    """One symptom, and what is seen then of the boxes of some faults, setting by setting."""

    def __init__(self, boxes: Boxes, symptom: Symptom) -> None:
        self.symptom = symptom
        self._boxes = boxes.with_voltmeters(one.point for one in symptom.observed if one.point.kind == "volts")
        without = symptom.stage == OFF
        most = boxes.most_settings() if without else MOST_SETTINGS
        self.settings = settings_of(boxes.circuit, symptom.stage, dict(symptom.given), most).all
        self._meters = boxes.meters(self.settings) if without else []
        self.sound = [symptom.fits(one) for one in self.seen(None)]

    def seen(self, fault: int | None) -> list[Seen]:
        """With a fault, by its number; None for the sound box."""
        if self.symptom.stage == OFF:
            meter = self._meters[0 if fault is None else fault + 1]
            points = [one.point for one in self.symptom.observed]
            return [
                {point: meter_reading(self._boxes, meter, number, point) for point in points}
                for number in range(len(self.settings))
            ]
        powered = self._boxes.powered(fault, self.symptom.stage)
        return [powered.seen(setting) for setting in self.settings]


class _Matching:
    """Fits symptoms to the boxes of some faults."""

    def __init__(self, boxes: Boxes, symptoms: Sequence[Symptom]) -> None:
        self.boxes = boxes
        self.occasions = [_Occasion(boxes, one) for one in symptoms]

    def explains(self, fault: int) -> bool:
        """Does it fit all, and one of them as nothing sound does?"""
        abnormal = False
        for one in self.occasions:
            fits = [one.symptom.fits(seen) for seen in one.seen(fault)]
            if not any(fits):
                return False
            abnormal = abnormal or any(here and not there for here, there in zip(fits, one.sound, strict=True))
        return abnormal

    def parts_explained(self, fault: int) -> frozenset[tuple[int, int]]:
        """Which observations of which symptoms it fits, each by itself."""
        return frozenset(
            (number, place)
            for number, one in enumerate(self.occasions)
            for seen in one.seen(fault)
            for place, observation in enumerate(one.symptom.observed)
            if observation.fits(seen)
        )

    def like_sound(self) -> tuple[Setting, ...]:
        """See Explained.sound."""
        found = [
            next((setting for setting, fits in zip(one.settings, one.sound, strict=True) if fits), None)
            for one in self.occasions
        ]
        settings = tuple(one for one in found if one is not None)
        return settings if len(settings) == len(found) else ()


def explain(boxes: Boxes, symptoms: Sequence[Symptom], tell: Tell) -> Explained:
    """The single faults that explain all symptoms; where there are none, pairs each of which explains a part."""
    matching = _Matching(boxes, symptoms)
    faults = sorted(range(len(boxes.faults)), key=lambda number: (rank(boxes.faults[number]), number))
    found = []
    for number in faults:
        tell(boxes.faults[number].called)
        if matching.explains(number):
            found.append(boxes.faults[number])
    sound = matching.like_sound()
    if found:
        return Explained(Boxes(boxes.circuit, found), False, 0, sound)
    pairs = _pairs(matching, faults)
    both = _Matching(Boxes(boxes.circuit, pairs), symptoms)
    found = []
    for number, pair in enumerate(pairs):
        tell(pair.called)
        if both.explains(number):
            found.append(pair)
    return Explained(Boxes(boxes.circuit, found), True, len(pairs), sound)


def _pairs(matching: _Matching, faults: Sequence[int]) -> list[Fault]:
    """Of different parts, what one leaves out the other has; the likeliest first."""
    whole = {(n, place) for n, one in enumerate(matching.occasions) for place in range(len(one.symptom.observed))}
    parts = {number: matching.parts_explained(number) for number in faults}
    every = matching.boxes.faults
    found = [
        (place + other, first, second)
        for place, first in enumerate(faults)
        for other, second in enumerate(faults[:place])
        if parts[first] | parts[second] == whole and _of_different_parts(every[first], every[second])
    ]
    return [both_at_once(every[second], every[first]) for _, first, second in sorted(found)[:MOST_PAIRS]]


def _of_different_parts(one: Fault, other: Fault) -> bool:
    return one.part != other.part or not one.part
