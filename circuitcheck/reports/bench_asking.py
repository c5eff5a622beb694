"""From a plan to its bench sheet, in words."""

from pathlib import Path
from typing import NamedTuple

from circuitcheck.analysis.bench.sheet import Line, Sheet, Stage, bench_sheet
from circuitcheck.analysis.doing import Tell, nobody
from circuitcheck.analysis.faults.listing import single_faults
from circuitcheck.circuit.building import build_circuit
from circuitcheck.circuit.model import Circuit
from circuitcheck.circuit.wording import name_and_title
from circuitcheck.examination import exactly, read_input
from circuitcheck.plan.syntax import Plan
from circuitcheck.reports.bench_words import (
    Proof,
    names_of,
    point_words,
    proofs,
    reading_words,
    rest_words,
    setting_words,
    stage_title,
    stage_words,
)


class SheetLine(NamedTuple):
    """number: from 1, through all parts. rules_out: by what would be read instead."""

    number: int
    set: tuple[str, ...]
    measure: str
    expect: str
    rules_out: tuple[Proof, ...]
    line: Line


class SheetPart(NamedTuple):
    """One stage in words. do: what the bench is like; rest: how everything stands where a line says nothing of it;
    chosen: how short the list is."""

    name: str
    do: str
    rest: tuple[str, ...]
    lines: tuple[SheetLine, ...]
    chosen: str
    stage: Stage


class BenchReport(NamedTuple):
    """name, title: the plan's."""

    file: str
    name: str
    title: str
    coverage: str
    parts: tuple[SheetPart, ...]
    sheet: Sheet


def asked_sheet(path: Path, roots: tuple[Path, ...], tell: Tell = nobody) -> BenchReport:
    """The bench sheet of a plan. Raises PlanError where it can't be understood or has no exact answer."""
    plan = read_input(path, roots)
    return sheet_of(plan, build_circuit(plan), tell)


def sheet_of(plan: Plan, circuit: Circuit, tell: Tell) -> BenchReport:
    """The same of a plan that has been read, with its circuit."""
    sheet = exactly(plan, circuit, lambda: bench_sheet(circuit, single_faults(circuit), tell))
    name, title = name_and_title(circuit)
    parts, count = [], 0
    for stage in sheet.stages:
        parts.append(_part(sheet, stage, count))
        count += len(stage.lines)
    return BenchReport(plan.file, name, title, coverage(sheet), tuple(parts), sheet)


def coverage(sheet: Sheet) -> str:
    """ "41 of 43 single faults; these 2 cannot be seen from outside: …"."""
    if not sheet.faults:
        return "This plan has no part that could fail, so that there is nothing to measure."
    total, unseen = len(sheet.faults), [one.called for one in sheet.unseen]
    unknown = [one.called for one in sheet.undecided]
    shown = total - len(unseen) - len(unknown)
    said = f"all {total}" if shown == total else f"{shown} of {total}"
    sentence = f"These readings show {said} single faults apart from a sound box"
    if unseen:
        them = "this one" if len(unseen) == 1 else f"these {len(unseen)}"
        sentence += f"; {them} cannot be seen from outside: {names_of(unseen)}"
    if unknown:
        sentence += f"; what the box does under power could not be worked out with {names_of(unknown)}"
    return f"{sentence}."


def _part(sheet: Sheet, stage: Stage, before: int) -> SheetPart:
    lines = tuple(_line(sheet, stage, line, before + n) for n, line in enumerate(stage.lines, 1))
    rest = tuple(rest_words(sheet.circuit, stage.settings))
    name = stage.settings.stage
    title, do = stage_title(sheet.circuit, name), stage_words(sheet.circuit, name)
    return SheetPart(title, do, rest, lines, _chosen(stage), stage)


def _line(sheet: Sheet, stage: Stage, line: Line, number: int) -> SheetLine:
    set_ = tuple(setting_words(sheet.circuit, stage.settings, line.setting))
    look, expect = point_words(line.point), reading_words(line.point, line.expected)
    otherwise = proofs(line.point, ((one.fault.called, one.reading) for one in line.shows))
    return SheetLine(number, set_, look, expect, otherwise, line)


def _chosen(stage: Stage) -> str:
    """How short the list is, among which settings."""
    count = len(stage.settings.all)
    among = f"all {count} settings" if stage.settings.complete else f"the {count} settings nearest to rest"
    if not stage.lines:
        return "Nothing is left that would show here and not before."
    if len(stage.lines) == stage.at_least:
        return f"The shortest list there is, of every reading in {among}."
    more = len(stage.lines) - stage.at_least
    return f"At most {more} more than the shortest list, of every reading in {among}."
