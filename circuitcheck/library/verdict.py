"""What is known of a plan once it has been examined, without the engine that found it out.

Reports are made of verdicts alone, so that one that was kept, or came from another process, tells the same.
"""

from typing import TYPE_CHECKING, NamedTuple

from circuitcheck.checks.check import Finding
from circuitcheck.plan.source import PlanError, Source

if TYPE_CHECKING:
    from circuitcheck.examination import Examination


class Looked(NamedTuple):
    """A check that ran. proves: what holds where it finds nothing."""

    name: str
    proves: str


class Verdict(NamedTuple):
    """file: as the user named it. name, label: the plan's own. parts: how many it has, 0 for a file of types alone.

    combinations, reachable, settled, engine: as in Counts. checks: those that ran, whether they found something or not.
    seconds: from the plan's text to the last finding, when it was examined. sources: every file that was read,
    or none where the verdict was kept and nothing was found. failing: the severities that give exit status 1.
    defaulted: what the plan takes from settings, a text each.
    """

    file: str
    name: str
    parts: int
    combinations: int
    reachable: int | None
    settled: int | None
    engine: str
    seconds: float
    checks: tuple[Looked, ...]
    findings: tuple[Finding, ...]
    sources: tuple[Source, ...]
    failing: tuple[str, ...] = ("error", "warning")
    defaulted: tuple[str, ...] = ()

    @property
    def fails(self) -> bool:
        """Is there a finding that gives exit status 1?"""
        return any(finding.counts and finding.severity in self.failing for finding in self.findings)


class Unexamined(NamedTuple):
    """A plan that has no verdict, and why."""

    file: str
    error: PlanError


Outcome = Verdict | Unexamined


def verdict_of(examination: "Examination") -> Verdict:
    """What reports tell of an examination."""
    circuit, counts = examination.circuit, examination.counts
    return Verdict(
        examination.plan.file,
        circuit.name,
        len(circuit.parts),
        *counts,
        round(examination.seconds, 3),
        tuple(Looked(check.name, check.proves) for check in examination.checks),
        examination.findings,
        examination.plan.sources,
        defaulted=tuple(map(str, circuit.defaulted)),
    )
