"""Findings as SARIF 2.1.0 (OASIS Standard, 27 March 2020), as code scanning services take it.

The same plans give the same bytes. Paths are relative to the repository, columns count code points and end columns are
exclusive, as in the plan's places themselves.
"""

import json
import os
from collections.abc import Sequence
from typing import Any

from circuitcheck import __version__
from circuitcheck.checks.check import Check, Finding
from circuitcheck.checks.registry import all_checks
from circuitcheck.library.verdict import Outcome, Unexamined
from circuitcheck.plan.source import Place
from circuitcheck.reports.cautions import CAUTION
from circuitcheck.reports.findings_text import order_words
from circuitcheck.reports.notices import NO_VERDICT, Notice, as_sentence, in_repository, notices, worst_first
from circuitcheck.reports.problems import printable
from circuitcheck.reports.sarif_rules import rule_of_check, rule_of_no_verdict

SCHEMA = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json"
TOP = "%SRCROOT%"
MOST_RESULTS = 25_000
"""A code scanning service refuses a run that has more of them; the worst are kept."""


def findings_sarif(outcomes: Sequence[Outcome]) -> str:
    """The whole log with all checks as its rules, ending in a line end."""
    return sarif_log(outcomes, [one.check for one in all_checks()])


def sarif_log(outcomes: Sequence[Outcome], checks: Sequence[Check]) -> str:
    """The same with these rules; no finding may be of another check."""
    told = notices(outcomes)
    if len(told) > MOST_RESULTS:
        told = worst_first(told)
    rules = [rule_of_no_verdict(NO_VERDICT), *map(rule_of_check, checks)]
    numbers = {rule["id"]: number for number, rule in enumerate(rules)}
    run = {
        "tool": {"driver": {"name": "circuitcheck", "semanticVersion": __version__, "rules": rules}},
        "automationDetails": {"id": "circuitcheck/"},
        "originalUriBaseIds": {TOP: {"description": {"text": "The top of the repository."}}},
        "columnKind": "unicodeCodePoints",
        "invocations": [_invocation(outcomes, len(told) - MOST_RESULTS)],
        "results": [_result(notice, numbers[notice.finding.check]) for notice in told[:MOST_RESULTS]],
    }
    return json.dumps({"$schema": SCHEMA, "version": "2.1.0", "runs": [run]}, indent=2) + "\n"


def _invocation(outcomes: Sequence[Outcome], more: int) -> dict[str, Any]:
    """What is said of the run itself: whether every plan has a verdict, and what is left out here."""
    notes = [CAUTION]
    if more > 0:
        notes.insert(0, f"There are more findings than services take: the {more:,} lightest are left out here.")
    return {
        "executionSuccessful": not any(isinstance(outcome, Unexamined) for outcome in outcomes),
        "toolExecutionNotifications": [{"level": "note", "message": {"text": note}} for note in notes],
    }


def _result(notice: Notice, rule: int) -> dict[str, Any]:
    finding = notice.finding
    result: dict[str, Any] = {
        "ruleId": finding.check,
        "ruleIndex": rule,
        "level": finding.severity,
        "message": {"text": _message(finding)},
        "locations": [_location(notice.place)],
        "suppressions": _suppressions(finding),
        "partialFingerprints": {"circuitcheck/v1": notice.fingerprint, "primaryLocationLineHash": notice.fingerprint},
    }
    way = [(step.place, step.words) for step in finding.way]
    # A service that shows no current's path still shows places that belong to a finding.
    related = dict.fromkeys((*notice.also, *way))
    if related:
        places = enumerate(related, 1)
        result["relatedLocations"] = [{"id": number, **_location(place, words)} for number, (place, words) in places]
    if way:
        steps = [{"location": _location(place, words)} for place, words in way]
        result["codeFlows"] = [{"message": {"text": "The current's path."}, "threadFlows": [{"locations": steps}]}]
    return result


def _suppressions(finding: Finding) -> list[dict[str, str]]:
    """None where it counts. Each result has the list, as the standard wants it where one of them is suppressed."""
    if finding.accepted:
        return [{"kind": "inSource", "justification": printable(finding.accepted)}]
    return [{"kind": "external", "justification": "It stands in the baseline."}] if finding.known else []


def _message(finding: Finding) -> str:
    """The first sentence says it all: some services show no other."""
    sentences = [as_sentence(finding.what)]
    if finding.steps:
        sentences.append(f"To see it: {as_sentence('; '.join(finding.steps))}")
    sentences += [f"And then, {as_sentence(order_words(telling))}" for telling in finding.orders]
    return " ".join([*sentences, *(printable(one) for one in (finding.why, finding.remedy) if one)])


def _location(place: Place, words: str = "") -> dict[str, Any]:
    """A place, with words for it where it isn't the finding's own."""
    from urllib.parse import quote

    region = {
        "startLine": place.line,
        "startColumn": place.column,
        "endLine": place.end_line,
        "endColumn": place.end_column,
    }
    artifact = {"uri": quote(os.fsencode(in_repository(place.file))), "uriBaseId": TOP}
    location: dict[str, Any] = {"physicalLocation": {"artifactLocation": artifact, "region": region}}
    return location | ({"message": {"text": printable(words)}} if words else {})
