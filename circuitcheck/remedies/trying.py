"""Remedies tried: the changed plan is analysed again, and what came of it decides.

A remedy is any good where the finding is gone and no other came above a note. Whether it leaves alone what the prop
does is told by comparing both circuits over all states, as `compare` does.
"""

import time
from collections import Counter
from collections.abc import Callable, Iterator
from typing import Final, NamedTuple

from circuitcheck.analysis.comparing import compare_behaviour
from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.matching import match_parts
from circuitcheck.checks.check import Finding
from circuitcheck.checks.registry import check_names
from circuitcheck.examination import Examination, exactly, examine_plan
from circuitcheck.layout.tidying import tidied
from circuitcheck.plan.source import PlanError, Source
from circuitcheck.plan.syntax import Plan
from circuitcheck.plan.text import source_of_text
from circuitcheck.remedies.flyback import flyback_remedies
from circuitcheck.remedies.limits import limit_remedies
from circuitcheck.remedies.remedy import Edit, Remedy, edited

Propose = Callable[[Plan, Facts, Finding], Iterator[Remedy]]

Read = Callable[[str], Plan]
"""Reads the plan whose own file has this text. Raises PlanError."""

PROPOSALS: Final[dict[str, Propose]] = {"missing-flyback": flyback_remedies, "limit-not-cutting": limit_remedies}
"""By the check whose findings they are meant for."""


class Tried(NamedTuple):
    """A remedy that is any good. text: the file with it made; after: what is then known of the plan.

    changes: what of the prop's behaviour it changes, in words; "" where it leaves that as it is.
    """

    remedy: Remedy
    text: str
    after: Examination
    changes: str


def proposed(before: Examination) -> tuple[Remedy, ...]:
    """What might help, worst finding first; not tried yet. Two that make the same edits are one."""
    found: dict[tuple[Edit, ...], Remedy] = {}
    for finding in before.findings:
        for remedy in PROPOSALS.get(finding.check, _nothing)(before.plan, before.facts, finding):
            found.setdefault(remedy.edits, remedy)
    return tuple(found.values())


def tried(before: Examination, remedy: Remedy, read: Read) -> Tried | None:
    """What comes of a remedy; None where it is no good, or leads to a plan without a verdict."""
    text = _laid_out(before.plan.sources[0], edited(before.plan.sources[0], remedy.edits))
    try:
        plan = read(text)._replace(defaults=before.plan.defaults)
        after = examine_plan(plan, time.perf_counter(), _off(before))
    except PlanError:
        return None
    old, new = Counter(map(_identity, before.findings)), Counter(map(_identity, after.findings))
    gone = new[_identity(remedy.finding)] < old[_identity(remedy.finding)]
    came = [one for one in (new - old) if one[1] != "note"]
    return None if came or not gone else Tried(remedy, text, after, _changes(before, after))


def _off(before: Examination) -> frozenset[str]:
    """The checks that didn't run: what they would find isn't new."""
    return frozenset(check_names()) - {check.name for check in before.checks}


def _laid_out(source: Source, text: str) -> str:
    """A plan that had the one layout keeps it; another keeps its own."""
    changed = source_of_text(source.file, text)
    try:
        had_it = tidied(source) == "\n".join(source.lines)
        return tidied(changed) if had_it and isinstance(changed, Source) else text
    except PlanError:
        return text


def _nothing(_plan: Plan, _facts: Facts, _finding: Finding) -> Iterator[Remedy]:
    return iter(())


def _identity(finding: Finding) -> tuple[str, str, str, tuple[str, ...]]:
    return finding.check, finding.severity, finding.reached, finding.parts


def _changes(before: Examination, after: Examination) -> str:
    """What does something else, in words; where that can't be decided it counts as a change."""
    parts = match_parts(before.circuit, after.circuit)
    try:
        comparison = exactly(after.plan, after.circuit, lambda: compare_behaviour(before.circuit, after.circuit, parts))
    except PlanError:
        return "what else it changes can't be worked out"
    if comparison.same:
        return ""
    names = dict.fromkeys(device.name for apart in comparison.apart for device in apart.devices)
    told = [one for one in names if one != "supplies"]
    others = ["whether a supply is shorted"] if "supplies" in names else []
    return ", ".join([*(f"what {name} does" for name in told), *others]) or "what a control or a delay does"
