"""What the pages and messages of all checks have in common."""

import re

import pytest

from circuitcheck.checks import registry
from circuitcheck.checks.check import SEVERITIES, Check, Finding
from circuitcheck.checks.registry import all_checks
from tests.checks.test_examples_of_checks import RIGHT, WRONG, findings_of

CHECKS = [one.check for one in all_checks()]
FIELDS = ("finds", "proves", "why", "how", "remedy", "limits")
FORBIDDEN = re.compile(
    r"\b([Ii]nvalid|[Uu]nexpected|tokens?|nodes?|edges?|bits?|[Hh]aunted|[Ss]keletons?|None|False)\b"
)
CLAIM = re.compile(r"\bsafe(ly|ty)?\b", re.IGNORECASE)
"""The tool never says that something is safe."""


def name_of(check: Check) -> str:
    """The check's name, to name a test by."""
    return check.name


def all_findings() -> list[Finding]:
    """Real output: what the examples of all pages give."""
    return [finding for _, example in (*WRONG, *RIGHT) for finding in findings_of(example)]


def test_a_check_stands_in_the_file_of_its_name() -> None:
    """`supply-short` is found in supply_short.py."""
    modules = [one.find.__module__.rsplit(".", 1)[1] for one in all_checks()]
    assert modules == [check.name.replace("-", "_") for check in CHECKS]
    assert not set(modules) & registry.FRAME


@pytest.mark.parametrize("check", CHECKS, ids=name_of)
def test_a_check_is_named_for_the_fault(check: Check) -> None:
    """Lower-case words with hyphens, so that `accept supply-short` reads as a sentence; no order given in the name."""
    assert re.fullmatch(r"[a-z]+(-[a-z]+)+", check.name)
    assert not re.match(r"(no|avoid|use|check|missing-no)-", check.name)
    assert check.severity in SEVERITIES


@pytest.mark.parametrize("check", CHECKS, ids=name_of)
def test_every_field_of_a_page_is_whole_sentences(check: Check) -> None:
    """Each begins with a capital or a quoted word, ends with a full stop, and has no stray blanks."""
    for field in FIELDS:
        text = getattr(check, field)
        assert re.fullmatch(r"[A-Z`].*[.]", text), field
        assert "  " not in text, field
        assert not FORBIDDEN.search(text), field
        assert not CLAIM.search(text), field


@pytest.mark.parametrize("check", CHECKS, ids=name_of)
def test_a_page_shows_wrong_plans_and_near_misses(check: Check) -> None:
    """At least one of each, and every one has a title that reads on after a colon."""
    assert check.wrong
    assert check.right
    for example in (*check.wrong, *check.right):
        assert re.fullmatch(r"[a-z0-9`].*[^.]|[A-Z]+\d.*[^.]", example.title)
        assert not FORBIDDEN.search(example.title + example.plan)


def test_a_finding_begins_with_a_name_and_has_no_full_stop() -> None:
    """It is one sentence about a part, a wire or a promise, to be put into a line of its own."""
    for finding in all_findings():
        assert finding.what[0].isupper() or finding.what.startswith(finding.parts), finding.what
        assert not finding.what.endswith("."), finding.what
        assert "{" not in finding.what, finding.what


def test_findings_speak_the_words_of_the_trade() -> None:
    """Neither the program's inside nor a claim that something is safe gets into a message."""
    for finding in all_findings():
        for text in (finding.what, finding.why, finding.remedy, *finding.steps):
            assert not FORBIDDEN.search(text), text
            assert not CLAIM.search(text), text


def test_a_finding_says_where_and_names_parts_of_the_plan() -> None:
    """At least one place, and the first one lies in the plan."""
    for finding in all_findings():
        assert finding.parts
        assert finding.where[0].file == "example.plan"
