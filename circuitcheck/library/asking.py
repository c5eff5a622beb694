"""Which plans are meant, and what is asked of each."""

import os
from collections.abc import Sequence
from pathlib import Path
from typing import NamedTuple

from circuitcheck.checks.check import SEVERITIES
from circuitcheck.plan.folders import plans_meant
from circuitcheck.plan.syntax import NO_DEFAULTS, Defaults
from circuitcheck.settings.finding import SettingsFinder
from circuitcheck.settings.settings import Settings

STANDARD_INPUT = "-"
"""Stands for the text that is piped in."""


class Asked(NamedTuple):
    """file: as the user named it. roots: folders of shared parts besides the plan's own. off: checks that don't run.
    failing: the severities that give exit status 1. defaults: what the plan takes where it says nothing."""

    file: str
    roots: tuple[Path, ...] = ()
    off: tuple[str, ...] = ()
    failing: tuple[str, ...] = ("error", "warning")
    defaults: Defaults = NO_DEFAULTS


def plans_asked(names: Sequence[str], roots: tuple[Path, ...] = (), fail_on: str = "") -> list[Asked]:
    """Every plan that is meant, once, in order, with what its settings say.

    names: plans, folders (for every *.plan within, hidden folders left out), or "-" for a plan that is piped in. Plans
    of a folder that is named may use whatever lies in it. fail_on: goes before the settings.
    Raises LibraryAmiss.
    """
    finder = SettingsFinder()
    asked: dict[str, Asked] = {}
    for name in names:
        within = (*roots, Path(name)) if os.path.isdir(name) else roots
        # As readers call them: ./a.plan and a.plan are one.
        for file in (str(Path(meant)) for meant in plans_meant(name)):
            if file not in asked:
                settings = finder.settings_for(file if file != STANDARD_INPUT else "standard input")
                asked[file] = _asked(file, within, settings, fail_on)
    return list(asked.values())


def _asked(file: str, roots: tuple[Path, ...], settings: Settings, fail_on: str) -> Asked:
    least = fail_on or settings.fail_on or "warning"
    failing = SEVERITIES[: SEVERITIES.index(least) + 1]
    return Asked(file, (*roots, *settings.roots), settings.off(file), failing, settings.defaults)
