"""What faults do, for documents and for programs. `faults.schema.json` beside this file says what the JSON promises."""

import json
from collections.abc import Iterable, Iterator
from typing import Any

from circuitcheck.analysis.faults.published import LEFT_OUT, SUPPOSED
from circuitcheck.reports.cautions import CAUTION
from circuitcheck.reports.faults_asking import FaultReport, FaultTold
from circuitcheck.reports.faults_fuses import fuse_lines
from circuitcheck.reports.faults_rows import (
    HIDDEN,
    NOT_COVERED,
    Entry,
    consequence_words,
    counted,
    is_hidden,
    left_out_words,
    noticed_words,
    pair_heading,
    part_rows,
    summary,
    supposed_words,
    to_design_out,
)
from circuitcheck.reports.findings_json import SCHEMA
from circuitcheck.reports.table_formats import escaped, pipes


def faults_markdown(report: FaultReport) -> str:
    """The whole report, every story in it."""
    lines = [f"# {escaped(report.title)}: faults", "", *(f"{escaped(one)}\n" for one in summary(report))]
    lines += [pipes(["worst consequence", "faults", "hidden"]), pipes(["---", "---:", "---:"])]
    lines += [pipes([word, str(count), str(hidden)]) for word, count, hidden in counted(report)]
    lines += ["", pipes(["part", "worst", f"faults ({HIDDEN} hidden)"]), pipes(["---"] * 3)]
    lines += [pipes([row.part, row.consequence, ", ".join(row.faults)]) for row in part_rows(report)]
    lines += ["", *_entries("To design out first", to_design_out(report.faults))]
    if report.pairs is not None:
        lines += _entries(pair_heading(), to_design_out(report.pairs))
    if fuses := fuse_lines(report):
        lines += _listed("Fuses and wires", fuses)
    lines += _listed("Supposed", supposed_words(report))
    lines += _listed("Left out", left_out_words())
    lines += _listed("Not covered", NOT_COVERED)
    return "\n".join([*lines, CAUTION]) + "\n"


def _entries(heading: str, entries: Iterable[Entry]) -> Iterator[str]:
    yield f"## {escaped(heading)}"
    yield ""
    for number, entry in enumerate(entries, 1):
        told = entry.first
        yield f"{number}. **{escaped(consequence_words(told))}**: {escaped(told.what)}"
        yield f"   - with {escaped(', '.join(one.fault.called for one in entry.faults))}"
        if told.also:
            yield f"   - also {escaped(', '.join(told.also))}"
        yield f"   - {escaped(noticed_words(told))}"
        yield f"   - {escaped(' → '.join(told.steps))}"
        yield f"   - {escaped(told.remedy)}"
    yield ""


def _listed(heading: str, sentences: Iterable[str]) -> Iterator[str]:
    yield f"## {heading}"
    yield ""
    yield from (f"- {escaped(sentence)}" for sentence in sentences)
    yield ""


def faults_json(report: FaultReport) -> str:
    """Signs outside ASCII are escaped, so that any encoding carries it."""
    kinds = {one.fault.kind for one in report.faults}
    whole: dict[str, Any] = {
        "schema": SCHEMA,
        "file": report.file,
        "plan": report.name,
        "shorts": report.shorts,
        "total": len(report.faults),
        "harmless": sum(one.harmless for one in report.faults),
        "hidden": sum(map(is_hidden, report.faults)),
        "faults": [_fault(one) for one in report.faults],
        "design_out": [[one.fault.called for one in entry.faults] for entry in to_design_out(report.faults)],
        "supposed": [row._asdict() for row in SUPPOSED if row.kind in kinds],
        "left_out": [row._asdict() for row in LEFT_OUT],
        "assumed": list(report.assumed),
        "not_covered": list(NOT_COVERED),
    }
    if report.pairs is not None:
        whole["pairs_tried"] = report.tried_pairs
        whole["pairs"] = [_fault(one) for one in report.pairs]
    return json.dumps(whole, indent=2) + "\n"


def _fault(one: FaultTold) -> dict[str, Any]:
    return {
        "fault": one.fault.called,
        "kind": one.fault.kind,
        "part": one.fault.part or None,
        "consequence": one.consequence,
        "harmless": one.harmless,
        "what": one.what,
        "also": list(one.also),
        "noticed_by": list(one.noticed_by),
        "hidden": is_hidden(one),
        "fuses": list(one.fuses),
        "unfused": one.unfused,
        "burnt": [{"wire": wire.wire, "why": wire.why} for wire in one.burnt],
        "untold": [{"wire": wire.wire or None, "why": wire.why, "write": wire.write} for wire in one.untold],
        "steps": list(one.steps),
        "remedy": one.remedy,
    }
