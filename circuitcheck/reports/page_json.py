"""What a live page holds, as JSON that may stand in an HTML document."""

import json
from collections.abc import Iterable

from circuitcheck.page.content import DigitShown
from circuitcheck.page.incidents import Incident
from circuitcheck.reports.page_asking import LivePage
from circuitcheck.reports.problems import printable, where
from circuitcheck.reports.table_asking import Table
from circuitcheck.reports.table_formats import cells, headings

Json = dict[str, "Json"] | list["Json"] | str | int | float | bool | None

ESCAPES = str.maketrans({sign: f"\\u{ord(sign):04x}" for sign in "<>&"})
"""So that no text of a plan can end the element that the JSON stands in, or begin a comment (HTML Standard, 4.12.1.3).
All three stand only within JSON's strings."""


def page_json(page: LivePage) -> str:
    """Names of tuples' fields are names of JSON's, so that the script's descriptions tell what to find."""
    content = page.content
    data = as_json(content._replace(incidents=()))
    assert isinstance(data, dict)
    data["incidents"] = [_incident(one) for one in content.incidents]
    data["table"] = _table(page.table, content.digits) if page.table and page.table.rows else None
    return json.dumps(data, separators=(",", ":")).translate(ESCAPES)


def as_json(value: object) -> Json:
    """Named tuples become objects, other tuples arrays; texts lose what a screen would act upon."""
    if hasattr(value, "_asdict"):
        return {name: as_json(one) for name, one in value._asdict().items()}
    if isinstance(value, tuple):
        return [as_json(one) for one in value]
    if isinstance(value, str):
        return printable(value)
    if value is None or isinstance(value, int | float):
        return value
    raise TypeError(f"a page holds no {type(value).__name__}")


def _incident(one: Incident) -> Json:
    finding = one.finding
    told: Json = {
        "check": finding.check,
        "severity": finding.severity,
        "what": printable(finding.what),
        "parts": as_json(finding.parts),
        "why": printable(finding.why),
        "remedy": printable(finding.remedy),
        "accepted": printable(finding.accepted),
        "where": [where(place) for place in finding.where],
        "orders": as_json(finding.orders),
    }
    return {
        "finding": told,
        "steps": as_json(one.steps),
        "way": as_json(one.way),
        "conductors": as_json(one.conductors),
        "loads": as_json(one.loads),
    }


def _table(table: Table, digits: tuple[DigitShown, ...]) -> Json:
    """The words of each row, and the digits' values by which the page finds the row of a state."""
    numbers = {digit.name: number for number, digit in enumerate(digits)}

    def pairs(words: dict[str, str]) -> Json:
        known = ((numbers[name], word) for name, word in words.items() if name in numbers)
        return [[number, _value(digits[number].values, word)] for number, word in known]

    rows: Iterable[Json] = (
        {"cells": as_json(tuple(cells(row))), "given": pairs(row.given), "relays": pairs(row.relays)}
        for row in table.rows
    )
    return {"headings": as_json(tuple(headings(table))), "rows": list(rows)}


def _value(values: tuple[str, ...], word: str) -> int | None:
    """None for a word that stands for any value, or for no one value."""
    return values.index(word) if word in values else None
