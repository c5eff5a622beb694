"""A bench sheet: the fewest readings, stage by stage, that show each single fault apart from a sound box.

A fault that shows without power is shown without power; each later stage has readings only for what is left. Every line
then tells all the faults that make it read otherwise, not only those that it was taken for.
"""

from collections.abc import Sequence
from typing import NamedTuple

from circuitcheck.analysis.bench.candidates import (
    Boxes,
    Candidate,
    meter_reading,
    under_power,
    without_power,
)
from circuitcheck.analysis.bench.covering import least_cover
from circuitcheck.analysis.bench.powered import Unworked
from circuitcheck.analysis.bench.readings import Point, Reading, shows_apart
from circuitcheck.analysis.bench.settings import MOST_SETTINGS, OFF, STAGES, Setting, Settings, set_apart, settings_of
from circuitcheck.analysis.doing import Tell
from circuitcheck.analysis.faults.fault import Fault
from circuitcheck.circuit.model import Circuit


class Shown(NamedTuple):
    """A fault, and what it makes a line read."""

    fault: Fault
    reading: Reading


class Line(NamedTuple):
    """Set this, look here, expect this of a sound box. shows: the faults that would make it read otherwise."""

    setting: Setting
    point: Point
    expected: Reading
    shows: tuple[Shown, ...]


class Stage(NamedTuple):
    """The lines of one stage. at_least: no fewer of the settings' readings can show what the stage has to show."""

    settings: Settings
    lines: tuple[Line, ...]
    at_least: int


class Sheet(NamedTuple):
    """unseen: the faults that no reading shows. undecided: those of which no reading is known to show them, as it can't
    be worked out what the box does with them under power."""

    circuit: Circuit
    faults: tuple[Fault, ...]
    stages: tuple[Stage, ...]
    unseen: tuple[Fault, ...]
    undecided: tuple[Fault, ...]


def bench_sheet(circuit: Circuit, faults: Sequence[Fault], tell: Tell) -> Sheet:
    """The sheet of a box for these faults. tell: hears which stage is being worked out.

    TooWide, TooManyCases or NoOperatingPoint where it has no exact answer.
    """
    boxes = Boxes(circuit, faults)
    left = list(range(len(faults)))
    stages = []
    for name in STAGES if circuit.motors else STAGES[:2]:
        tell(name)
        settings = settings_of(circuit, name, most=boxes.most_settings() if name == OFF else MOST_SETTINGS)
        found = without_power(boxes, settings) if name == OFF else under_power(boxes, settings, left)
        cover = least_cover([one.shows for one in found])
        chosen = sorted((found[number] for number in cover.chosen), key=lambda one: _order(one, settings))
        lines = _lines(boxes, chosen, name)
        stages.append(Stage(settings, lines, cover.at_least))
        shown = {one.fault for line in lines for one in line.shows}
        left = [number for number in left if faults[number] not in shown]
    undecided = [number for number in left if _is_unworked(boxes, number, stages)]
    unseen = tuple(faults[number] for number in left if number not in undecided)
    return Sheet(circuit, tuple(faults), tuple(stages), unseen, tuple(faults[number] for number in undecided))


def _is_unworked(boxes: Boxes, fault: int, stages: Sequence[Stage]) -> bool:
    powered = (one.settings.stage for one in stages if one.settings.stage != OFF)
    return any(isinstance(boxes.powered(fault, stage), Unworked) for stage in powered)


def _order(one: Candidate, settings: Settings) -> tuple[int, list[tuple[int, tuple[int, bool]]], Point]:
    """Lines with little to set come first, those with the same settings together."""
    apart = set_apart(one.setting, settings.rest)
    return len(apart), sorted(apart.items()), one.point


def _lines(boxes: Boxes, chosen: Sequence[Candidate], stage: str) -> tuple[Line, ...]:
    """Each with all the faults that show there."""
    read = _meter_readings(boxes, chosen) if stage == OFF else _powered_readings(boxes, chosen, stage)
    lines = []
    for one, readings in zip(chosen, read, strict=True):
        shows = (Shown(fault, reading) for fault, reading in zip(boxes.faults, readings, strict=True))
        apart = tuple(one_of for one_of in shows if shows_apart(one.expected, one_of.reading))
        lines.append(Line(one.setting, one.point, one.expected, apart))
    return tuple(lines)


def _meter_readings(boxes: Boxes, chosen: Sequence[Candidate]) -> list[list[Reading]]:
    """Of each line, by fault."""
    faulty = boxes.meters([one.setting for one in chosen])[1:] if chosen else []
    return [[meter_reading(boxes, meter, n, one.point) for meter in faulty] for n, one in enumerate(chosen)]


def _powered_readings(boxes: Boxes, chosen: Sequence[Candidate], stage: str) -> list[list[Reading]]:
    faulty = [boxes.powered(number, stage) for number in range(len(boxes.faults))] if chosen else []
    return [[powered.seen(one.setting)[one.point] for powered in faulty] for one in chosen]
