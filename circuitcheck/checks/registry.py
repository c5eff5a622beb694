"""Every check there is: the modules of this folder that describe one. A new check is a new file and nothing else."""

import importlib
import os
from collections.abc import Callable, Iterator
from typing import TYPE_CHECKING, NamedTuple

from circuitcheck.checks.check import SEVERITIES, Check, Find, Finding

if TYPE_CHECKING:
    from circuitcheck.analysis.facts import Facts
    from circuitcheck.plan.syntax import Acceptance

FRAME = frozenset(
    {"__init__", "check", "fault_words", "findings", "fingerprints", "narration", "orders_told"}
    | {"ranges_told", "reading_back", "registry", "ways"}
)
"""The files of this folder that are no check."""


class Registered(NamedTuple):
    """A check with the function that finds its evidence."""

    check: Check
    find: Find


def check_names() -> tuple[str, ...]:
    """The names of all checks, in order, without loading any."""
    files = sorted(file[:-3] for file in os.listdir(os.path.dirname(__file__)) if file.endswith(".py"))
    return tuple(sorted(name.replace("_", "-") for name in files if name not in FRAME))


def all_checks() -> tuple[Registered, ...]:
    """The checks in order of their names."""
    modules = [importlib.import_module(f"circuitcheck.checks.{name.replace('-', '_')}") for name in check_names()]
    return tuple(Registered(module.CHECK, module.find) for module in modules)


def run_checks(
    facts: "Facts", checks: tuple[Registered, ...], hear: Callable[[str], None] = lambda _: None
) -> tuple[Finding, ...]:
    """The findings of these checks, worst first, then by place. hear: what is being looked for."""
    findings = [finding for one in checks for finding in _found(facts, one, hear)]
    return tuple(sorted(findings, key=lambda one: (SEVERITIES.index(one.severity), one.where[:1], one.check, one.what)))


def _found(facts: "Facts", registered: Registered, hear: Callable[[str], None]) -> Iterator[Finding]:
    # A verdict that is kept asks only for the checks' names, and the engine isn't loaded for that.
    from circuitcheck.analysis.states import TooMuchWork

    hear(f"looking for {registered.check.name}")
    try:
        yield from findings_of(facts, registered)
    except TooMuchWork as error:
        error.asked = registered.check.name
        raise


def findings_of(facts: "Facts", registered: Registered) -> Iterator[Finding]:
    """What one check finds, in the order in which it looks."""
    from circuitcheck.checks.findings import complete
    from circuitcheck.checks.ways import stretches

    for evidence in registered.find(facts):
        finding = complete(facts, registered.check, evidence)
        if finding is not None:
            reason = _reason_to_accept(finding, facts.circuit.acceptances)
            yield finding._replace(way=stretches(facts.circuit, finding.path), accepted=reason)


def _reason_to_accept(finding: Finding, acceptances: "tuple[Acceptance, ...]") -> str:
    """The plan's own reason, "" where it doesn't accept the finding. An unused acceptance can't be accepted."""
    if finding.check == "unused-acceptance":
        return ""
    fitting = (one for one in acceptances if one.check.text == finding.check and one.part.text in finding.parts)
    return next((one.reason.text for one in fitting), "")
