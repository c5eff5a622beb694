"""Verdicts as JSON and back: in the cache, in reports for programs, and where shards are joined.

`reports/findings.schema.json` says what readers of the reports can rely on.
"""

from collections.abc import Mapping
from typing import Any

from circuitcheck.checks.check import Finding, Stretch, Telling
from circuitcheck.library.verdict import Looked, Verdict
from circuitcheck.plan.source import Place, Problem, Source

Json = dict[str, Any]


def verdict_json(verdict: Verdict) -> Json:
    """A verdict without its sources, which stand in the plan's files."""
    return {
        "file": verdict.file,
        "name": verdict.name,
        "parts": verdict.parts,
        "combinations": verdict.combinations,
        "reachable": verdict.reachable,
        "settled": verdict.settled,
        "engine": verdict.engine,
        "seconds": verdict.seconds,
        "failing": list(verdict.failing),
        "defaults": list(verdict.defaulted),
        "checks": [check.name for check in verdict.checks],
        "findings": [_finding_json(finding) for finding in verdict.findings],
    }


def verdict_of_json(found: Json, sources: tuple[Source, ...], proves: Mapping[str, str]) -> Verdict:
    """The verdict that `verdict_json` made this of. proves: what each check proves, by name.

    Raises KeyError, TypeError or ValueError where it is none.
    """
    return Verdict(
        found["file"],
        found["name"],
        found["parts"],
        found["combinations"],
        found["reachable"],
        found["settled"],
        found["engine"],
        found["seconds"],
        tuple(Looked(name, proves[name]) for name in found["checks"]),
        tuple(_finding_of(one) for one in found["findings"]),
        sources,
        tuple(found["failing"]),
        tuple(found["defaults"]),
    )


def place_json(place: Place) -> Json:
    """A place as JSON."""
    return dict(zip(Place._fields, place, strict=True))


def problem_json(problem: Problem) -> Json:
    """A problem as JSON; its place is its own first fields."""
    also = [place_json(place) | {"what": sentence} for place, sentence in problem.also]
    return place_json(problem.place) | {"what": problem.what, "help": problem.help, "also": also}


def problem_of_json(found: Json) -> Problem:
    """The problem that `problem_json` made this of."""
    also = tuple((_place_of(one), one["what"]) for one in found["also"])
    return Problem(_place_of(found), found["what"], found["help"], also)


def _finding_json(finding: Finding) -> Json:
    return {
        "check": finding.check,
        "severity": finding.severity,
        "reached": finding.reached,
        "what": finding.what,
        "parts": list(finding.parts),
        "where": [place_json(place) for place in finding.where],
        "example": finding.example,
        "path": list(finding.path),
        "way": [_stretch_json(step) for step in finding.way],
        "steps": list(finding.steps),
        "orders": [{"quicker": one.quicker, "steps": list(one.steps), "ends": one.ends} for one in finding.orders],
        "count": finding.seen,
        "of": finding.of,
        "why": finding.why,
        "remedy": finding.remedy,
        "accepted": finding.accepted,
        "known": finding.known,
    }


def _finding_of(found: Json) -> Finding:
    return Finding(
        check=found["check"],
        severity=found["severity"],
        reached=found["reached"],
        what=found["what"],
        parts=tuple(found["parts"]),
        where=tuple(map(_place_of, found["where"])),
        example=found["example"],
        path=tuple(found["path"]),
        steps=tuple(found["steps"]),
        seen=found["count"],
        of=found["of"],
        why=found["why"],
        remedy=found["remedy"],
        orders=tuple(Telling(one["quicker"], tuple(one["steps"]), one["ends"]) for one in found["orders"]),
        way=tuple(map(_stretch_of, found["way"])),
        accepted=found["accepted"],
        known=found["known"],
    )


def _stretch_json(step: Stretch) -> Json:
    return {"from": step.tail, "to": step.head, "part": step.part, "words": step.words, "place": place_json(step.place)}


def _stretch_of(found: Json) -> Stretch:
    return Stretch(found["from"], found["to"], found["part"], found["words"], _place_of(found["place"]))


def _place_of(found: Json) -> Place:
    return Place(found["file"], found["line"], found["column"], found["end_line"], found["end_column"])
