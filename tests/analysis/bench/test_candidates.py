"""The readings that show something, against reading everything everywhere."""

from itertools import combinations

from circuitcheck.analysis.bench.candidates import Boxes, Candidate, meter_reading, under_power, without_power
from circuitcheck.analysis.bench.powered import points_of
from circuitcheck.analysis.bench.readings import OVERLOAD, Point, shows_apart
from circuitcheck.analysis.bench.settings import OFF, WITH, settings_of
from circuitcheck.analysis.faults.listing import single_faults
from tests.analysis.plans import circuit_of

BOX = circuit_of("""
supply PS 12 V 5 A
switch S1 spdt positions raise off lower
diode  D1
lamp   L1 12 V 2 W
rung   PS.+, S1.com-raise, D1, L1, PS.-
wire   S1.lower PS.-
""")
FAULTS = single_faults(BOX)
"""More than a byte has bits for."""


def faults_with(found: list[Candidate]) -> dict[int, tuple[object, Point, object]]:
    """Where each set of faults shows."""
    return {one.shows: (one.setting, one.point, one.expected) for one in found}


def test_each_set_of_faults_that_a_meter_shows_is_found_once_nearest_to_rest() -> None:
    """Ohms between any two terminals, and the diode range on the diode."""
    assert len(FAULTS) > 8
    boxes, settings = Boxes(BOX, FAULTS), settings_of(BOX, OFF)
    sound, *faulty = boxes.meters(settings.all)
    points = [Point("ohms", "", *pair) for pair in combinations(boxes.terminals, 2)]
    points.append(Point("diode", "", "D1.anode", "D1.cathode"))
    expected: dict[int, tuple[object, Point, object]] = {}
    for number, setting in enumerate(settings.all):
        for point in points:
            reading = meter_reading(boxes, sound, number, point)
            others = [meter_reading(boxes, one, number, point) for one in faulty]
            shows = sum(1 << fault for fault, other in enumerate(others) if shows_apart(reading, other))
            if shows:
                expected.setdefault(shows, (setting, point, reading))
    found = without_power(boxes, settings)
    assert len(found) == len(expected)
    assert faults_with(found) == expected


def test_each_set_of_faults_that_is_seen_under_power_is_found_once_nearest_to_rest() -> None:
    """Of those that are asked about; nothing while a sound box is shorted."""
    boxes, settings = Boxes(BOX, FAULTS), settings_of(BOX, WITH)
    expected: dict[int, tuple[object, Point, object]] = {}
    for setting in settings.all:
        for point in points_of(BOX, WITH):
            reading = boxes.powered(None, WITH).seen(setting)[point]
            others = [boxes.powered(fault, WITH).seen(setting)[point] for fault in range(1, len(FAULTS))]
            shows = sum(1 << fault for fault, other in enumerate(others, 1) if shows_apart(reading, other))
            if shows and reading != OVERLOAD:
                expected.setdefault(shows, (setting, point, reading))
    assert expected
    assert faults_with(under_power(boxes, settings, range(1, len(FAULTS)))) == expected
