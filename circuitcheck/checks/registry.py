"""Every check there is: the modules of this folder that describe one. A new check is a new file and nothing else."""

import importlib
import os
from typing import NamedTuple

from circuitcheck.analysis.facts import Facts
from circuitcheck.checks.check import Check, Find, Finding
from circuitcheck.checks.findings import SEVERITIES, complete

FRAME = frozenset({"__init__", "check", "fault_words", "findings", "narration", "orders_told", "registry"})
"""The files of this folder that are no check."""


class Registered(NamedTuple):
    """A check with the function that finds its evidence."""

    check: Check
    find: Find


def all_checks() -> tuple[Registered, ...]:
    """The checks in order of their names."""
    names = sorted(file[:-3] for file in os.listdir(os.path.dirname(__file__)) if file.endswith(".py"))
    modules = [importlib.import_module(f"circuitcheck.checks.{name}") for name in names if name not in FRAME]
    found = [Registered(module.CHECK, module.find) for module in modules]
    return tuple(sorted(found, key=lambda one: one.check.name))


def run_checks(facts: Facts, checks: tuple[Registered, ...]) -> tuple[Finding, ...]:
    """The findings of these checks, worst first, then by place."""
    findings = []
    for one in checks:
        for evidence in one.find(facts):
            finding = complete(facts, one.check, evidence)
            if finding is not None:
                findings.append(finding)
    return tuple(sorted(findings, key=lambda one: (SEVERITIES.index(one.severity), one.where[:1], one.check, one.what)))
