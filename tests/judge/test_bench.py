"""Bench sheets against the judge: the box is built with each fault, and every line of the sheet is read on it."""

from pathlib import Path

import pytest

from circuitcheck.analysis.bench.readings import Reading
from circuitcheck.analysis.bench.settings import OFF, WITH
from circuitcheck.analysis.bench.sheet import Line, Sheet, bench_sheet
from circuitcheck.analysis.faults.listing import single_faults
from circuitcheck.circuit.building import build_circuit
from circuitcheck.circuit.model import Circuit
from circuitcheck.examination import nobody
from circuitcheck.plan.reading import read_plan
from tests.judge.bench import FAR, after_tapping, diode_range, faulty, ohms, seen, stands
from tests.judge.steps import Judge

EXAMPLES = Path(__file__).parents[2] / "examples"
QUICK = ("cue_light", "dragon_roar", "lantern_colours", "lighthouse_shutter", "lighthouse_two_supplies",
         "storm_beam", "trapdoor_lantern")  # fmt: skip
SLOW = ("curtain", "curtain_pair", "dragon_jaw", "drawbridge", "drawbridge_slow_finish", "shutter_on_cue",
        "touring_drawbridge")  # fmt: skip


class Reader:
    """Reads lines on a box, sound ("") or with the fault of a name; it remembers the boxes."""

    def __init__(self, circuit: Circuit) -> None:
        self.circuit = circuit
        self._boxes: dict[tuple[str, bool, bool], Judge] = {}

    def reading(self, called: str, line: Line, stage: str) -> Reading:
        """What is read; "not steady" where the order of things matters."""
        judge = self._box(called, stage != OFF, stage == WITH)
        state = stands(judge.circuit, called, line.setting.values)
        if line.point.kind == "ohms":
            return ohms(judge.circuit, state, line.point.red, line.point.black)
        if line.point.kind == "diode":
            return diode_range(judge.circuit, state, line.point.red, line.point.black)
        reached = after_tapping(judge, called, state, line.setting.tapped)
        found = set(seen(judge, reached, line.point.kind, line.point.name))
        return found.pop() if len(found) == 1 else "not steady"

    def _box(self, called: str, powered: bool, motors: bool) -> Judge:
        key = called, powered, motors
        if key not in self._boxes:
            self._boxes[key] = Judge(faulty(self.circuit, called, powered, motors))
        return self._boxes[key]


def differ(one: Reading, other: Reading) -> bool:
    """By more than an ohm or a volt, and by a third: the sheet's promise, in the judge's words."""
    if "not steady" in (one, other) or isinstance(one, str) or isinstance(other, str):
        return one != other and "not steady" not in (one, other)
    if abs(max(one, other, key=abs)) > 2e6:
        return abs(min(one, other, key=abs)) <= 2e6
    small, great = sorted((abs(one), abs(other)))
    return abs(one - other) > 1 if one * other < 0 else great - small > 1.000001 and great > 1.3 * small + 0.000001


def sheet_of(name: str) -> Sheet:
    """Of one of the examples."""
    circuit = build_circuit(read_plan(EXAMPLES / "right" / f"{name}.plan", (EXAMPLES,)))
    return bench_sheet(circuit, single_faults(circuit), nobody)


@pytest.mark.parametrize("name", [*QUICK, *(pytest.param(one, marks=pytest.mark.slow) for one in SLOW)])
def test_with_each_fault_exactly_the_promised_lines_read_otherwise(name: str) -> None:
    """A sound box reads what every line expects; a fault changes those lines that name it, and no other."""
    sheet, wrong = sheet_of(name), []
    reader = Reader(sheet.circuit)
    for stage in sheet.stages:
        for line in stage.lines:
            expected = reader.reading("", line, stage.settings.stage)
            assert expected == (FAR if line.expected == float("inf") else pytest.approx(line.expected, abs=1e-5))
            promised = {one.fault.called for one in line.shows}
            read = {one.called: reader.reading(one.called, line, stage.settings.stage) for one in sheet.faults}
            found = {called for called, reading in read.items() if differ(expected, reading)}
            if promised != found:
                wrong.append((line.setting, line.point, promised - found, found - promised))
    assert wrong == []


@pytest.mark.parametrize("name", QUICK)
def test_every_fault_is_on_some_line_or_among_those_that_cannot_be_seen(name: str) -> None:
    """None is forgotten, none is in both."""
    sheet = sheet_of(name)
    shown = {one.fault.called for stage in sheet.stages for line in stage.lines for one in line.shows}
    unseen = {one.called for one in sheet.unseen}
    assert shown | unseen == {one.called for one in sheet.faults}
    assert not shown & unseen
