"""What settings say: the failing severity, folders of shared parts, checks on or off, and defaults."""

import os
from fnmatch import fnmatchcase
from pathlib import Path
from typing import NamedTuple

from circuitcheck.plan.syntax import NO_DEFAULTS, Defaults


class Rule(NamedTuple):
    """A check that is on or off for plans whose path fits `pattern`, "" for all."""

    pattern: str
    check: str
    on: bool


class Settings(NamedTuple):
    """fail_on: "" where nothing is said. roots: folders of shared parts. rules: of two that fit a plan the later holds.

    defaults: what plans take that don't say. folder: where they lie, "" where there are none.
    """

    folder: str = ""
    fail_on: str = ""
    roots: tuple[Path, ...] = ()
    rules: tuple[Rule, ...] = ()
    defaults: Defaults = NO_DEFAULTS

    def off(self, file: str) -> tuple[str, ...]:
        """The checks that are not to run on the plan in this file, in order of their names."""
        if not self.rules:
            return ()
        path = os.path.relpath(os.path.abspath(file), self.folder).replace(os.sep, "/")
        states = {rule.check: rule.on for rule in self.rules if _fits(path, rule.pattern)}
        return tuple(sorted(check for check, on in states.items() if not on))


def _fits(path: str, pattern: str) -> bool:
    return not pattern or fnmatchcase(path, pattern) or path.startswith(f"{pattern.rstrip('/')}/")
