"""From a table of settings to what it says. Every key and value is known, or told as a slip."""

import os
from collections.abc import Iterable
from pathlib import Path
from typing import Any, NoReturn

from circuitcheck.checks.check import SEVERITIES
from circuitcheck.checks.registry import check_names
from circuitcheck.plan.syntax import NO_DEFAULTS, Defaults
from circuitcheck.settings.amiss import LibraryAmiss
from circuitcheck.settings.settings import Rule, Settings

KEYS = ("fail-on", "library", "checks", "paths", "defaults")


def read_settings(table: object, file: str, above: str) -> Settings:
    """What a file's table says. above: what goes before each key in messages. Raises LibraryAmiss."""
    reader = Reader(file, above)
    known = reader.table(table, "")
    reader.only(known, KEYS, "", "setting")
    fail_on = known.get("fail-on", "")
    if "fail-on" in known and fail_on not in SEVERITIES:
        reader.refuse("fail-on", fail_on, f"one of {', '.join(SEVERITIES)}")
    folder = os.path.dirname(file)
    rules = reader.rules(known.get("checks", {}), "checks", "")
    for pattern, states in reader.table(known.get("paths", {}), "paths").items():
        rules += reader.rules(states, f'paths."{pattern}"', pattern)
    roots = tuple(reader.root(name, folder) for name in reader.names(known.get("library", []), "library"))
    defaults = _defaults(reader, known["defaults"]) if "defaults" in known else NO_DEFAULTS
    return Settings(folder, fail_on, roots, tuple(rules), defaults)


def _defaults(reader: "Reader", table: object) -> Defaults:
    from circuitcheck.settings.defaults import read_defaults

    return read_defaults(reader, table)


class Reader:
    """Takes values of one file apart and says which key is amiss."""

    def __init__(self, file: str, above: str) -> None:
        self.file = file
        self._above = above

    def refuse(self, key: str, value: object, expected: str) -> NoReturn:
        """Tells of a value that makes no sense."""
        said = str(value).lower() if isinstance(value, bool) else repr(value)
        raise LibraryAmiss(f"{self.named(key)} is {said} where {expected} is expected")

    def named(self, key: str) -> str:
        """A key with its file, as messages name it."""
        return f"{shown(self.file)}: {self._above}{key}".rstrip(".")

    def table(self, value: object, key: str) -> dict[str, Any]:
        """The value as a table."""
        if not isinstance(value, dict):
            self.refuse(key, value, "a table")
        return value

    def names(self, value: object, key: str) -> list[str]:
        """The value as a list of texts."""
        if not isinstance(value, list) or not all(isinstance(one, str) for one in value):
            self.refuse(key, value, "a list of texts")
        return value

    def text(self, value: object, key: str) -> str:
        """The value as a text."""
        if not isinstance(value, str):
            self.refuse(key, value, "a text")
        return value

    def only(self, found: Iterable[str], known: tuple[str, ...], key: str, noun: str) -> None:
        """Every name is one of those that are known."""
        from circuitcheck.circuit.wording import suggestion

        for name in found:
            if name not in known:
                where = f"{self._above}{key}.{name}" if key else f"{self._above}{name}"
                raise LibraryAmiss(f"{shown(self.file)}: no {noun} {where}. {suggestion(name, known)}")

    def rules(self, value: object, key: str, pattern: str) -> list[Rule]:
        """A table of checks that are on or off."""
        states = self.table(value, key)
        self.only(states, check_names(), key, "check")
        for name, on in states.items():
            if not isinstance(on, bool):
                self.refuse(f"{key}.{name}", on, "true or false")
        return [Rule(pattern, name, on) for name, on in states.items()]

    def root(self, name: str, folder: str) -> Path:
        """A folder of shared parts. So that a plan from somebody else can't bring its own leave to read everything, it
        must lie in the repository, or below the settings where there is none."""
        path = os.path.realpath(os.path.join(folder, name))
        if not os.path.isdir(path):
            self.refuse("library", name, "a folder that is there")
        top = os.path.realpath(_top_of(folder))
        if path != top and not path.startswith(os.path.join(top, "")):
            self.refuse("library", name, "a folder of this repository (one outside is named by --library)")
        return Path(path)


def _top_of(folder: str) -> str:
    """The repository's folder, or this one where there is no repository."""
    here = folder
    while not os.path.exists(os.path.join(here, ".git")):
        if os.path.dirname(here) == here:
            return folder
        here = os.path.dirname(here)
    return here


def shown(file: str) -> str:
    """A file as messages name it."""
    return os.path.relpath(file)
