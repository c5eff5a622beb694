"""The readings that show something, against reading everything everywhere."""

from itertools import combinations

import pytest

from circuitcheck.analysis.bench import candidates
from circuitcheck.analysis.bench.boxes import METER_OHMS, Box, with_voltmeters
from circuitcheck.analysis.bench.candidates import Boxes, Candidate, meter_reading, under_power, without_power
from circuitcheck.analysis.bench.powered import points_of
from circuitcheck.analysis.bench.readings import OVERLOAD, Point, shows_apart
from circuitcheck.analysis.bench.settings import MOST_SETTINGS, OFF, WITH, settings_of
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


def test_what_a_wire_ends_at_can_be_touched_in_the_plans_order() -> None:
    """The lamp's far end too, and the switch's every way but the one that nothing is soldered to."""
    bare = circuit_of("supply PS 12 V 5 A\nswitch S1 spdt positions raise off lower\nlamp L1 12 V 2 W\n"
                      "rung PS.+, S1.com-lower, L1, PS.-\n")  # fmt: skip
    assert Boxes(bare, ()).terminals == ("PS.+", "PS.-", "S1.com", "S1.lower", "L1.1", "L1.2")
    assert Boxes(bare, ()).diode_points() == []
    assert Boxes(BOX, ()).diode_points() == [Point("diode", "", "D1.anode", "D1.cathode")]


def test_as_many_settings_are_looked_at_as_readings_allow(monkeypatch: pytest.MonkeyPatch) -> None:
    """Pairs of terminals times faults; some all the same, and never more than a list has."""
    boxes = Boxes(BOX, FAULTS[:10])
    assert len(boxes.terminals) == 9
    monkeypatch.setattr(candidates, "MOST_READINGS", 40_501)
    assert boxes.most_settings() == 40_501 // (81 // 2 * 10 + 1)
    monkeypatch.setattr(candidates, "MOST_READINGS", 25_000)
    assert boxes.most_settings() == 64
    monkeypatch.setattr(candidates, "MOST_READINGS", 400_000_000)
    assert boxes.most_settings() == MOST_SETTINGS


def test_voltmeters_make_other_boxes_only_where_there_are_some() -> None:
    """Of the same circuit and faults."""
    boxes, point = Boxes(BOX, FAULTS[:2]), Point("volts", "V", "L1.1", "L1.2")
    assert boxes.with_voltmeters(()) is boxes
    found = boxes.with_voltmeters([point])
    assert (found.circuit, found.faults, found.voltmeters) == (BOX, FAULTS[:2], (point,))
    (meter,) = with_voltmeters(Box(BOX), [point]).circuit.loads[len(BOX.loads) :]
    assert (meter.name, meter.kind, meter.a, meter.b, meter.ohms) == ("V", "resistor", "L1.1", "L1.2", METER_OHMS)
    assert not meter.volts


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
