"""Two versions of a plan compared, for a pull request and for programs.

`compare.schema.json` beside this file says what readers of the JSON can rely on.
"""

import json
from collections.abc import Iterable, Iterator, Sequence
from typing import Any

from circuitcheck.checks.check import Finding
from circuitcheck.examination import Examination
from circuitcheck.reports.cautions import CAUTION
from circuitcheck.reports.compare_asking import Compared, Story, Told
from circuitcheck.reports.compare_words import (
    COMPARED,
    legend,
    other_sentences,
    part_sentence,
    story_lines,
    title,
    verdict,
    wire_sentence,
)
from circuitcheck.reports.findings_json import SCHEMA
from circuitcheck.reports.problems import where
from circuitcheck.reports.table_formats import escaped, pipes
from circuitcheck.reports.table_rows import ANY


def compare_markdown(compared: Compared) -> str:
    """A comment that begins with the verdict; what is long is folded away."""
    lines = [f"### {escaped(title(compared))}", "", f"**{escaped(verdict(compared))}**", ""]
    for told in compared.told:
        lines += [*_story_markdown(told.story), ""]
        lines += [*_rows_markdown(told), ""]
    lines += [f"{escaped(sentence)}\n" for sentence in other_sentences(compared)]
    lines += _findings_markdown("Findings that came", compared.came)
    lines += _findings_markdown("Findings that went", compared.went)
    lines += _folded("Parts", [part_sentence(change) for change in compared.parts])
    heading = "Wires, joining the same terminals as before" if compared.wiring.same_joins else "Wires"
    lines += _folded(heading, [wire_sentence(change) for change in compared.wiring.wires])
    return "\n".join([*lines, escaped(COMPARED), "", CAUTION]) + "\n"


def _story_markdown(story: Story) -> Iterator[str]:
    yield "To see it:"
    yield ""
    for number, (label, words) in enumerate(story_lines(story)):
        about = f"{label}: " if label in ("old", "new", "then") else ""
        yield f"{number + 1}. {about}{escaped(words)}"


def _rows_markdown(told: Told) -> Iterator[str]:
    if told.rows is None:
        yield "There are too many combinations that differ to tell them all."
    elif told.rows:
        head = [*told.rows[0].given, *(f"{name} (old → new)" for name in told.rows[0].devices)]
        yield from (pipes(head), pipes(["---"] * len(head)))
        yield from (pipes([*row.given.values(), *row.devices.values()]) for row in told.rows)
        yield from (f"\n{sentence}" for sentence in legend(told.rows))


def _findings_markdown(heading: str, findings: Iterable[Finding]) -> list[str]:
    lines = [f"- {one.severity} `{one.check}`{_at(one)}: {escaped(one.what)}." for one in findings]
    return [f"{heading}:", "", *lines, ""] if lines else []


def _at(finding: Finding) -> str:
    return f" ({escaped(where(finding.where[0]))})" if finding.where else ""


def _folded(heading: str, sentences: Sequence[str]) -> list[str]:
    if not sentences:
        return []
    lines = [f"- {escaped(sentence)}" for sentence in sentences]
    return [f"<details><summary>{heading}: {len(sentences)} changed</summary>", "", *lines, "", "</details>", ""]


def compare_json(compared: Compared) -> str:
    """The whole report, ending in a line end. Signs outside ASCII are escaped, so that any encoding carries it."""
    comparison = compared.comparison
    report = {
        "schema": SCHEMA,
        "old": _plan(compared.old),
        "new": _plan(compared.new),
        "same": comparison.same,
        "everywhere": comparison.everywhere,
        "unreached": list(comparison.unreached),
        "differences": [_difference(told) for told in compared.told],
        "delays": [delay._asdict() for delay in comparison.delays],
        "positions": [position._asdict() for position in comparison.positions],
        "came": [_finding(finding) for finding in compared.came],
        "went": [_finding(finding) for finding in compared.went],
        "parts": [change._asdict() for change in compared.parts],
        "wires": [change._asdict() for change in compared.wiring.wires],
        "same_joins": compared.wiring.same_joins,
    }
    return json.dumps(report, indent=2) + "\n"


def _plan(examination: Examination) -> dict[str, str]:
    return {"file": examination.plan.file, "name": examination.circuit.name}


def _difference(told: Told) -> dict[str, Any]:
    return {
        "devices": list(told.devices),
        "begin": told.story.beginning,
        "steps": [{"of": side or "both", "what": words} for side, words in told.story.steps],
        "ended": [{"device": name, "old": old, "new": new} for name, (old, new) in told.story.ended],
        "rows": None if told.rows is None else [_row(row.given, row.devices) for row in told.rows],
    }


def _row(given: dict[str, str], devices: dict[str, str]) -> dict[str, dict[str, str]]:
    return {
        "given": {name: word for name, word in given.items() if word != ANY},
        "devices": {name: cell for name, cell in devices.items() if cell},
    }


def _finding(finding: Finding) -> dict[str, Any]:
    fields = ("check", "severity", "reached", "what", "parts")
    return {name: getattr(finding, name) for name in fields} | {"where": [where(place) for place in finding.where]}
