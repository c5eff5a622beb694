"""Bench sheets against the judge: the box is built with each fault, and every line of the sheet is read on it."""

from pathlib import Path

import pytest

from circuitcheck.analysis.bench.sheet import Sheet, bench_sheet
from circuitcheck.analysis.doing import nobody
from circuitcheck.analysis.faults.listing import single_faults
from circuitcheck.circuit.building import build_circuit
from circuitcheck.plan.reading import read_plan
from tests.judge.bench import FAR, Reader, differ

EXAMPLES = Path(__file__).parents[2] / "examples"
QUICK = (
    "cue_light",
    "dragon_roar",
    "gallery_lift",
    "lantern_colours",
    "lighthouse_shutter",
    "lighthouse_two_supplies",
    "storm_beam",
    "trapdoor_lantern",
)
SLOW = tuple(sorted({path.stem for path in (EXAMPLES / "right").glob("*.plan")} - set(QUICK)))
"""All other examples of plans that are right."""


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
            place = line.setting, line.point, stage.settings.stage
            expected = reader.reading("", *place)
            assert expected == (FAR if line.expected == float("inf") else pytest.approx(line.expected, abs=1e-5))
            promised = {one.fault.called for one in line.shows}
            read = {
                one.called: reader.reading(one.called, line.setting, line.point, stage.settings.stage)
                for one in sheet.faults
            }
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
