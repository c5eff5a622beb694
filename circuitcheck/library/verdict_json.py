"""Verdicts as JSON and back: in the cache, in reports for programs, and where shards are joined.

`reports/findings.schema.json` says what readers of the reports can rely on.
"""

from collections.abc import Mapping

from circuitcheck.checks.check import SEVERITIES, Finding, Stretch, Telling
from circuitcheck.library.json_values import (
    Json,
    count,
    count_or_none,
    each,
    one_of,
    seconds,
    text,
    texts,
    texts_by_name,
    whether,
)
from circuitcheck.library.verdict import Looked, Verdict
from circuitcheck.plan.source import Place, Problem, Source

REACHED = ("operation", "changeover", "fault", "combination")


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
        text(found, "file"),
        text(found, "name"),
        count(found, "parts"),
        count(found, "combinations"),
        count_or_none(found, "reachable"),
        count_or_none(found, "settled"),
        text(found, "engine"),
        seconds(found, "seconds"),
        tuple(Looked(name, proves[name]) for name in texts(found, "checks")),
        each(found, "findings", _finding_of),
        sources,
        texts(found, "failing"),
        texts(found, "defaults"),
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
    also = each(found, "also", lambda one: (_place_of(one), text(one, "what")))
    return Problem(_place_of(found), text(found, "what"), text(found, "help"), also)


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
        check=text(found, "check"),
        severity=one_of(found, "severity", SEVERITIES),
        reached=one_of(found, "reached", REACHED),
        what=text(found, "what"),
        parts=texts(found, "parts"),
        where=each(found, "where", _place_of),
        example=texts_by_name(found, "example"),
        path=texts(found, "path"),
        steps=texts(found, "steps"),
        seen=count(found, "count"),
        of=count(found, "of"),
        why=text(found, "why"),
        remedy=text(found, "remedy"),
        orders=each(found, "orders", lambda one: Telling(text(one, "quicker"), texts(one, "steps"), text(one, "ends"))),
        way=each(found, "way", _stretch_of),
        accepted=text(found, "accepted"),
        known=whether(found, "known"),
    )


def _stretch_json(step: Stretch) -> Json:
    return {"from": step.tail, "to": step.head, "part": step.part, "words": step.words, "place": place_json(step.place)}


def _stretch_of(found: Json) -> Stretch:
    tail, head, part, words = (text(found, name) for name in ("from", "to", "part", "words"))
    return Stretch(tail, head, part, words, _place_of(found["place"]))


def _place_of(found: Json) -> Place:
    return Place(text(found, "file"), *(count(found, name) for name in Place._fields[1:]))
