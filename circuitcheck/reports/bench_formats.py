"""A bench sheet for documents and for programs. `benchtest.schema.json` beside this file tells of the JSON."""

import json
from collections.abc import Iterator
from typing import Any

from circuitcheck.analysis.bench.settings import set_apart
from circuitcheck.circuit.model import Circuit
from circuitcheck.reports.bench_asking import BenchReport, SheetLine, SheetPart
from circuitcheck.reports.bench_words import FIRST, METER
from circuitcheck.reports.cautions import CAUTION
from circuitcheck.reports.findings_json import SCHEMA
from circuitcheck.reports.table_formats import escaped, pipes


def bench_markdown(report: BenchReport) -> str:
    """A table for each part, a box to tick in each line."""
    lines = [f"# {escaped(report.title)}: bench test", "", *(f"- {escaped(one)}" for one in FIRST), ""]
    lines += [escaped(report.coverage), ""]
    for number, part in enumerate(report.parts, 1):
        lines += _part(number, part)
    return "\n".join([*lines, escaped(METER), "", CAUTION]) + "\n"


def _part(number: int, part: SheetPart) -> Iterator[str]:
    yield from (f"## Part {number}: {part.name}", "", escaped(part.do), "")
    if part.rest and part.lines:
        yield from (f"At rest: {escaped(', '.join(part.rest))}.", "")
    yield from (escaped(part.chosen), "")
    if part.lines:
        yield pipes(["", "", "set", "look", "expect", "else"])
        yield pipes(["---"] * 6)
        for one in part.lines:
            yield pipes(["☐", str(one.number), ", ".join(one.set), one.measure, one.expect, otherwise(one)])
        yield ""


def otherwise(one: SheetLine) -> str:
    """What else would be read, with which faults."""
    return "; ".join(f"{proof.reads}: {', '.join(proof.faults)}" for proof in one.rules_out)


def bench_json(report: BenchReport) -> str:
    """Signs outside ASCII are escaped, so that any encoding carries it."""
    sheet = report.sheet
    whole = {
        "schema": SCHEMA,
        "file": report.file,
        "plan": report.name,
        "total": len(sheet.faults),
        "unseen": [one.called for one in sheet.unseen],
        "undecided": [one.called for one in sheet.undecided],
        "coverage": report.coverage,
        "first": list(FIRST),
        "meter": METER,
        "parts": [_part_json(sheet.circuit, part) for part in report.parts],
    }
    return json.dumps(whole, indent=2) + "\n"


def _part_json(circuit: Circuit, part: SheetPart) -> dict[str, Any]:
    return {
        "part": part.name,
        "do": part.do,
        "rest": list(part.rest),
        "settings": len(part.stage.settings.all),
        "all_settings": part.stage.settings.complete,
        "at_least": part.stage.at_least,
        "shortest": part.stage.at_least == len(part.lines),
        "lines": [_line_json(circuit, part, one) for one in part.lines],
    }


def _line_json(circuit: Circuit, part: SheetPart, one: SheetLine) -> dict[str, Any]:
    apart = set_apart(one.line.setting, part.stage.settings.rest)
    digits = circuit.digits
    point = one.line.point
    return {
        "number": one.number,
        "set": list(one.set),
        "values": {
            circuit.digits[digit].name: circuit.digits[digit].values[value] for digit, (value, _) in apart.items()
        },
        "tapped": [digits[digit].name for digit, (_, tapped) in apart.items() if tapped],
        "look": one.measure,
        "kind": point.kind,
        "at": [point.red, point.black] if point.red else [point.name],
        "expect": one.expect,
        "else": [{"reads": proof.reads, "faults": list(proof.faults)} for proof in one.rules_out],
    }
