"""Every reading that shows something: which faults would make it otherwise."""

from collections.abc import Iterable, Iterator, Sequence
from itertools import combinations
from typing import Final, NamedTuple

import numpy as np
from numpy.typing import NDArray

from circuitcheck.analysis.bench.boxes import Box, box_with, with_voltmeters
from circuitcheck.analysis.bench.meter import PASSING, Known, Meter, Ohms, apart
from circuitcheck.analysis.bench.powered import Powered, Seen, Unworked
from circuitcheck.analysis.bench.readings import OVERLOAD, PASSES, UNSETTLED, Point, Reading, shows_apart
from circuitcheck.analysis.bench.settings import MOST_SETTINGS, OFF, Setting, Settings
from circuitcheck.analysis.facts import Facts, analyse
from circuitcheck.analysis.faults.fault import Fault
from circuitcheck.analysis.faults.same_circuit import likeness
from circuitcheck.analysis.linear import NoOperatingPoint
from circuitcheck.analysis.states import Spaces, TooWide
from circuitcheck.analysis.surroundings import TooManyCases
from circuitcheck.analysis.wired import wired_terminals
from circuitcheck.circuit.model import Circuit

DIODE_SETTINGS: Final = 48
"""The diode range is tried in so many settings, those nearest to rest."""
MOST_READINGS: Final = 400_000_000
"""Readings that are looked at without power: settings times pairs of terminals times faults."""
FEWEST_SETTINGS: Final = 64
"""So many are looked at all the same."""

Faults = int
"""A set of faults: a bit for each, by its number."""


class Candidate(NamedTuple):
    """What a sound box reads, and the faults that a reading shows."""

    setting: Setting
    point: Point
    expected: Reading
    shows: Faults


class Boxes:
    """A box and its faults, each as it lies on the bench in each stage. What is the same circuit is looked at once."""

    def __init__(self, circuit: Circuit, faults: Sequence[Fault], voltmeters: Iterable[Point] = ()) -> None:
        """voltmeters: points between whose terminals volts are read under power, besides those of every sheet."""
        self.circuit = circuit
        self.faults = tuple(faults)
        self.voltmeters = tuple(voltmeters)
        self.terminals = tuple(_touched(circuit))
        self._spaces = Spaces(tuple(digit.radix for digit in circuit.digits))
        self._powered: dict[object, Powered | Unworked] = {}
        self._facts: dict[object, Facts] = {}

    def with_voltmeters(self, points: Iterable[Point]) -> "Boxes":
        """The same boxes with voltmeters at some points."""
        meters = tuple(points)
        return Boxes(self.circuit, self.faults, meters) if meters else self

    def box(self, fault: int | None, stage: str) -> Box:
        """With a fault, by its number; None for the sound box."""
        return box_with(self.circuit, None if fault is None else self.faults[fault], stage)

    def powered(self, fault: int | None, stage: str) -> Powered | Unworked:
        """The same under power. TooWide, TooManyCases or NoOperatingPoint where the sound box has no exact answer."""
        box = with_voltmeters(self.box(fault, stage), self.voltmeters)
        same = stage, likeness(box.circuit), frozenset(relay.digit for relay in box.circuit.relays)
        key = *same, box.stuck
        if key not in self._powered:
            try:
                if same not in self._facts:
                    self._facts[same] = analyse(box.circuit, self._spaces)
                self._powered[key] = Powered(box, self._facts[same], stage, self.voltmeters)
            except (TooWide, TooManyCases, NoOperatingPoint):
                if fault is None:
                    raise
                self._powered[key] = Unworked(box.circuit, stage, self.voltmeters)
        return self._powered[key]

    def diode_points(self) -> list[Point]:
        """Red on the anode, black on the cathode, where both can be touched."""
        may = set(self.terminals)
        diodes = (one for one in self.circuit.conductors if one.one_way and {one.tail, one.head} <= may)
        return [Point("diode", "", one.tail, one.head) for one in diodes]

    def most_settings(self) -> int:
        """In how many settings every reading without power can be looked at."""
        each = len(self.terminals) ** 2 // 2 * len(self.faults) + 1
        return min(MOST_SETTINGS, max(FEWEST_SETTINGS, MOST_READINGS // each))

    def meters(self, settings: Sequence[Setting]) -> list[Meter]:
        """The sound box without power, then the faulty ones."""
        known: Known = {}
        boxes = [self.box(fault, OFF) for fault in (None, *range(len(self.faults)))]
        return [Meter(box, self.terminals, settings, known) for box in boxes]


def meter_reading(boxes: Boxes, meter: Meter, setting: int, point: Point) -> Reading:
    """What the meter reads at one point, in a setting by its number."""
    ohms = meter.ohms(setting)
    if point.kind == "diode":
        return as_reading(meter.diode_range(setting, point.red, point.black, ohms))
    return float(ohms[boxes.terminals.index(point.red), boxes.terminals.index(point.black)])


def _touched(circuit: Circuit) -> Iterator[str]:
    """Terminals that a wire ends at, in the plan's order."""
    wired = wired_terminals(circuit)
    return (end for part in circuit.parts.values() for end in part.terminals if end in wired)


def without_power(boxes: Boxes, settings: Settings) -> list[Candidate]:
    """For each different set of faults that some reading of the meter shows, the reading nearest to rest."""
    sound, *faulty = boxes.meters(settings.all)
    pairs = [Point("ohms", "", *pair) for pair in combinations(boxes.terminals, 2)]
    upper = np.triu_indices(len(boxes.terminals), 1)
    diodes = boxes.diode_points()
    found: list[Candidate] = []
    known: set[bytes] = set()
    for number, setting in enumerate(settings.all):
        points = [*pairs, *diodes] if number < DIODE_SETTINGS else pairs
        expected, differs = _compared(sound, faulty, number, upper, points[len(pairs) :])
        for place, shows in _fresh(differs, known):
            found.append(Candidate(setting, points[place], as_reading(float(expected[place])), shows))
    return found


def as_reading(value: float) -> Reading:
    """An array's number as a reading."""
    return PASSES if value == PASSING else value


def _compared(
    sound: Meter, faulty: Sequence[Meter], setting: int, upper: tuple[NDArray[np.intp], ...], diodes: Sequence[Point]
) -> tuple[Ohms, NDArray[np.bool_]]:
    """What the sound box reads at each point, and for each fault and point whether it reads otherwise."""
    expected = _row(sound, setting, upper, diodes)
    differs = np.zeros((len(faulty), len(expected)), np.bool_)
    same, known = sound.key(setting), dict[bytes, NDArray[np.bool_]]()
    for fault, meter in enumerate(faulty):
        key = meter.key(setting)
        if diodes or key != same:
            if diodes or key not in known:
                known[key] = apart(expected, _row(meter, setting, upper, diodes))
            differs[fault] = known[key]
    return expected, differs


def _row(meter: Meter, setting: int, upper: tuple[NDArray[np.intp], ...], diodes: Sequence[Point]) -> Ohms:
    ohms = meter.ohms(setting)
    ranges = [meter.diode_range(setting, point.red, point.black, ohms) for point in diodes]
    return np.concatenate([ohms[upper], np.array(ranges, np.float64)])


def _fresh(differs: NDArray[np.bool_], known: set[bytes]) -> Iterator[tuple[int, Faults]]:
    """Each different column that is not empty and not known yet, with the place of the first such; known from then on.

    One by one: sorting columns takes longer, since from setting to setting nearly all of them are known.
    """
    places = np.flatnonzero(differs.any(axis=0))
    columns = np.packbits(differs[:, places], axis=0, bitorder="little").T.tobytes()
    width = -(-len(differs) // 8)
    for number, place in enumerate(places.tolist()):
        column = columns[number * width : (number + 1) * width]
        if column not in known:
            known.add(column)
            yield place, int.from_bytes(column, "little")


def under_power(boxes: Boxes, settings: Settings, faults: Sequence[int]) -> list[Candidate]:
    """The same of what is seen in a powered stage, for some faults by their numbers."""
    sound = boxes.powered(None, settings.stage)
    faulty = [(fault, boxes.powered(fault, settings.stage)) for fault in faults]
    found: dict[Faults, Candidate] = {}
    for setting in settings.all:
        expected = sound.seen(setting)
        others = [(fault, other.seen(setting)) for fault, other in faulty]
        for point, reading in expected.items():
            shows = shown_at(point, reading, others)
            if shows and reading not in (OVERLOAD, UNSETTLED):
                found.setdefault(shows, Candidate(setting, point, reading, shows))
    return list(found.values())


def shown_at(point: Point, expected: Reading, others: Sequence[tuple[int, Seen]]) -> Faults:
    """The faults with which a point reads otherwise than expected; what is not steady shows nothing for sure."""
    shows = 0
    for fault, seen in others:
        if shows_apart(expected, seen[point]):
            shows |= 1 << fault
    return shows
