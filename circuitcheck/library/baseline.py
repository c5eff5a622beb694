"""A baseline: the findings that a library had when somebody began to look, so that only new ones fail."""

import json
from collections.abc import Sequence
from typing import NamedTuple

from circuitcheck.checks.fingerprints import fingerprints
from circuitcheck.library.verdict import Outcome, Verdict
from circuitcheck.settings.amiss import LibraryAmiss

SCHEMA = "circuitcheck-baseline/1"


class Entry(NamedTuple):
    """A finding as it stands in a baseline; all but the fingerprint is there for people."""

    fingerprint: str
    plan: str
    check: str
    what: str


class Met(NamedTuple):
    """outcomes: with the findings that stand in the baseline marked. known: how many those are. gone: entries for plans
    of this run that nothing was found for any more."""

    outcomes: list[Outcome]
    known: int
    gone: tuple[Entry, ...]


def read_baseline(file: str) -> tuple[Entry, ...]:
    """The entries in a file. Raises LibraryAmiss."""
    try:
        with open(file, encoding="utf-8") as opened:
            found = json.load(opened)
        if found["schema"] != SCHEMA:
            raise LibraryAmiss(f'{file} is no baseline of this version: its schema is not "{SCHEMA}"')
        return tuple(Entry(*(str(one[name]) for name in Entry._fields)) for one in found["findings"])
    except OSError as error:
        raise LibraryAmiss(f"{file} can't be read: {(error.strerror or str(error)).lower()}") from None
    except (ValueError, KeyError, TypeError, RecursionError):
        raise LibraryAmiss(f"{file} is no baseline; --write-baseline {file} makes one") from None


def baseline_text(outcomes: Sequence[Outcome]) -> str:
    """All findings of a run that no plan accepts, in the order of plan, check and words, so that changes read well."""
    entries = sorted((entry[1:], entry.fingerprint) for entry in _entries(outcomes) if entry)
    findings = [Entry(mark, *rest)._asdict() for rest, mark in entries]
    return json.dumps({"schema": SCHEMA, "findings": findings}, indent=2) + "\n"


def meet(outcomes: Sequence[Outcome], baseline: Sequence[Entry]) -> Met:
    """Marks what stands in the baseline."""
    old = {entry.fingerprint for entry in baseline}
    entries = iter(_entries(outcomes))
    marked: list[Outcome] = []
    for outcome in outcomes:
        if isinstance(outcome, Verdict):
            known = [(finding, next(entries)) for finding in outcome.findings]
            findings = tuple(finding._replace(known=bool(one and one.fingerprint in old)) for finding, one in known)
            outcome = outcome._replace(findings=findings)
        marked.append(outcome)
    verdicts = [one for one in marked if isinstance(one, Verdict)]
    found = {entry.fingerprint for entry in _entries(outcomes) if entry}
    plans = {one.name for one in verdicts}
    gone = tuple(entry for entry in baseline if entry.fingerprint not in found and entry.plan in plans)
    return Met(marked, sum(finding.known for one in verdicts for finding in one.findings), gone)


def _entries(outcomes: Sequence[Outcome]) -> list[Entry | None]:
    """One for each finding of the run, in order; None for one that its plan accepts."""
    found = [(one.name, finding) for one in outcomes if isinstance(one, Verdict) for finding in one.findings]
    marks = fingerprints(found)
    return [
        None if finding.accepted else Entry(mark, plan, finding.check, finding.what)
        for (plan, finding), mark in zip(found, marks, strict=True)
    ]
