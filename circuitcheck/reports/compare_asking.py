"""From two plans that somebody names to what is different between them."""

import time
from collections import Counter
from pathlib import Path
from typing import NamedTuple

from circuitcheck.analysis.changed_parts import PartChange, WiringChanges, changed_parts, changed_wires
from circuitcheck.analysis.comparing import Comparison, compare_behaviour
from circuitcheck.analysis.differing import Apart, Both
from circuitcheck.analysis.matching import match_parts
from circuitcheck.analysis.side_by_side import side_by_side
from circuitcheck.analysis.single_state import Change
from circuitcheck.analysis.table import TooManyRows
from circuitcheck.analysis.telling_stories import Parting
from circuitcheck.checks.check import Finding
from circuitcheck.checks.narration import change_words, state_words
from circuitcheck.circuit.model import Circuit
from circuitcheck.examination import Examination, exactly, examine_plan, read_input
from circuitcheck.plan.revisions import in_revision, read_revision
from circuitcheck.plan.syntax import Defaults
from circuitcheck.reports.compare_rows import Row, compare_rows
from circuitcheck.settings.finding import SettingsFinder


class Story(NamedTuple):
    """How one comes to see a difference. beginning: in words. steps: who ("", "old" or "new") and what happens, in
    words. ended: each device that differs in the end."""

    beginning: str
    steps: tuple[tuple[str, str], ...]
    ended: tuple[tuple[str, Both], ...]


class Told(NamedTuple):
    """Devices that hang together and do something else; rows is None where there are too many to be read."""

    devices: tuple[str, ...]
    rows: tuple[Row, ...] | None
    story: Story


class Compared(NamedTuple):
    """came, went: findings that only new, only old has."""

    old: Examination
    new: Examination
    comparison: Comparison
    told: tuple[Told, ...]
    came: tuple[Finding, ...]
    went: tuple[Finding, ...]
    parts: tuple[PartChange, ...]
    wiring: WiringChanges


def compared(old_name: str, new_name: str, roots: tuple[Path, ...]) -> Compared:
    """Everything that is different between two plans, each a file or REVISION:PATH.

    Raises PlanError where one can't be read, or where there is no exact answer within reach.
    """
    # Whatever settings were then: only a change of the plans counts.
    settings = SettingsFinder().settings_for(new_name)
    old, new = (_examined(name, (*roots, *settings.roots), settings.defaults) for name in (old_name, new_name))
    parts = match_parts(old.circuit, new.circuit)
    # What can't be counted is named by the digits of both.
    both = side_by_side(old.circuit, new.circuit, parts, relays_together=False).old
    comparison = exactly(old.plan, both, lambda: compare_behaviour(old.circuit, new.circuit, parts))
    came, went = _other_findings(old.findings, new.findings, parts)
    return Compared(
        old,
        new,
        comparison,
        tuple(_told(both, comparison, apart) for apart in comparison.apart),
        came,
        went,
        changed_parts(old.circuit, new.circuit, parts),
        changed_wires(old.circuit, new.circuit, parts),
    )


def _examined(name: str, roots: tuple[Path, ...], defaults: Defaults) -> Examination:
    beginning = time.perf_counter()
    meant = in_revision(name)
    plan = read_revision(meant, roots) if meant else read_input(Path(name), roots, defaults=defaults)
    return examine_plan(plan._replace(defaults=defaults), beginning)


def _other_findings(
    old: tuple[Finding, ...], new: tuple[Finding, ...], parts: dict[str, str]
) -> tuple[tuple[Finding, ...], tuple[Finding, ...]]:
    """One finding is the other where the same check finds it of the same parts, as seriously."""

    def key(finding: Finding, names: dict[str, str]) -> tuple[object, ...]:
        return finding.check, finding.severity, finding.reached, tuple(names.get(name, name) for name in finding.parts)

    before = Counter(key(one, parts) for one in old)
    after = Counter(key(one, {}) for one in new)
    came = tuple(one for one in new if _left_over(after, before, key(one, {})))
    went = tuple(one for one in old if _left_over(before, after, key(one, parts)))
    return came, went


def _left_over(own: Counter[tuple[object, ...]], others: Counter[tuple[object, ...]], key: tuple[object, ...]) -> bool:
    """Is one more of these than the others have? Of several that are equal the first are told."""
    if own[key] > others[key]:
        own[key] -= 1
        return True
    return False


def _told(circuit: Circuit, comparison: Comparison, apart: Apart) -> Told:
    try:
        rows = tuple(compare_rows(comparison, apart))
    except TooManyRows:
        rows = None
    return Told(
        tuple(one.name for one in apart.devices if one.kind != "axis"),
        rows,
        _story(circuit, apart.parting, _without_axes(apart)),
    )


def _without_axes(apart: Apart) -> tuple[tuple[str, Both], ...]:
    """What differs in the end; where an axis goes is told by its motors."""
    kinds = {one.name: one.kind for one in apart.devices}
    others = tuple(one for one in apart.ended if kinds.get(one[0]) != "axis")
    return others or apart.ended


def _story(circuit: Circuit, parting: Parting, ended: tuple[tuple[str, Both], ...]) -> Story:
    beginning = {
        number: value for number, value in parting.beginning.items() if value or circuit.digits[number].kind != "relay"
    }
    steps: list[tuple[str, str]] = []
    for one in parting.happenings:
        words = change_words(circuit, Change(one.digit, one.value, one.value, {}))
        if steps and one.side and steps[-1][0] == one.side:
            steps[-1] = one.side, f"{steps[-1][1]}, {words}"
        else:
            steps.append((one.side, words))
    return Story(state_words(circuit, beginning), tuple(steps), ended)
