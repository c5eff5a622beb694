"""Settings that lie beside plans: the nearest circuitcheck.toml, or pyproject.toml with a table for us, upward.

    fail-on = "error"                    # the least severity that gives exit status 1
    library = ["parts"]                  # folders of shared parts

    [checks]                             # on (true) or off (false), everywhere
    idle-contact = false

    [paths."old/*"]                      # for plans there; what stands further down goes first
    supply-without-fuse = false

In pyproject.toml the same stands in [tool.circuitcheck]. Paths start from the settings' own folder.
"""

import os
from collections.abc import Iterable
from fnmatch import fnmatchcase
from pathlib import Path
from typing import Any, NamedTuple

from circuitcheck.checks.check import SEVERITIES
from circuitcheck.checks.registry import check_names
from circuitcheck.library.amiss import LibraryAmiss

OWN_FILE, SHARED_FILE = "circuitcheck.toml", "pyproject.toml"
KEYS = ("fail-on", "library", "checks", "paths")


class Rule(NamedTuple):
    """A check that is on or off for plans whose path fits `pattern`, "" for all."""

    pattern: str
    check: str
    on: bool


class Settings(NamedTuple):
    """fail_on: "" where nothing is said. roots: folders of shared parts. rules: of two that fit a plan the later holds.

    folder: where they lie, "" where there are none.
    """

    folder: str = ""
    fail_on: str = ""
    roots: tuple[Path, ...] = ()
    rules: tuple[Rule, ...] = ()

    def off(self, file: str) -> tuple[str, ...]:
        """The checks that are not to run on the plan in this file, in order of their names."""
        if not self.rules:
            return ()
        path = os.path.relpath(os.path.abspath(file), self.folder).replace(os.sep, "/")
        states = {rule.check: rule.on for rule in self.rules if _fits(path, rule.pattern)}
        return tuple(sorted(check for check, on in states.items() if not on))


class SettingsFinder:
    """Finds the settings for one plan after another, and reads each file once."""

    def __init__(self) -> None:
        self._found: dict[str, Settings] = {}

    def settings_for(self, file: str) -> Settings:
        """Those of the nearest folder, from the plan's own upward to its repository's. Raises LibraryAmiss."""
        return self._in_or_above(os.path.dirname(os.path.abspath(file)))

    def _in_or_above(self, folder: str) -> Settings:
        found = self._found.get(folder)
        if found is None:
            found = _settings_in(folder)
            if found is None:
                above = os.path.dirname(folder)
                last = above == folder or os.path.exists(os.path.join(folder, ".git"))
                found = Settings() if last else self._in_or_above(above)
            self._found[folder] = found
        return found


def _fits(path: str, pattern: str) -> bool:
    return not pattern or fnmatchcase(path, pattern) or path.startswith(f"{pattern.rstrip('/')}/")


def _settings_in(folder: str) -> Settings | None:
    own, shared = os.path.join(folder, OWN_FILE), os.path.join(folder, SHARED_FILE)
    if os.path.isfile(own):
        return _read(_table(own, _content(own)), own, "")
    content = _content(shared) if os.path.isfile(shared) else b""
    # Most such files say nothing to us; of those nothing has to be understood.
    if b"circuitcheck" in content:
        tools = _table(shared, content).get("tool", {})
        if isinstance(tools, dict) and "circuitcheck" in tools:
            return _read(tools["circuitcheck"], shared, "tool.circuitcheck.")
    return None


def _content(file: str) -> bytes:
    try:
        with open(file, "rb") as opened:
            return opened.read()
    except OSError as error:
        raise LibraryAmiss(f"{_shown(file)} can't be read: {(error.strerror or str(error)).lower()}") from None


def _table(file: str, content: bytes) -> dict[str, Any]:
    import tomllib

    try:
        return tomllib.loads(content.decode("utf-8"))
    except (tomllib.TOMLDecodeError, UnicodeDecodeError) as error:
        raise LibraryAmiss(f"{_shown(file)} is no TOML: {error}") from None


def _read(table: object, file: str, above: str) -> Settings:
    """above: what goes before each key in messages."""
    reader = _Reader(file, above)
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
    return Settings(folder, fail_on, roots, tuple(rules))


class _Reader:
    """Takes values of one file apart and says which key is amiss."""

    def __init__(self, file: str, above: str) -> None:
        self._file = file
        self._above = above

    def refuse(self, key: str, value: object, expected: str) -> None:
        """Tells of a value that makes no sense."""
        said = str(value).lower() if isinstance(value, bool) else repr(value)
        name = f"{self._above}{key}".rstrip(".")
        raise LibraryAmiss(f"{_shown(self._file)}: {name} is {said} where {expected} is expected")

    def table(self, value: object, key: str) -> dict[str, Any]:
        """The value as a table."""
        if not isinstance(value, dict):
            self.refuse(key, value, "a table")
            return {}
        return value

    def names(self, value: object, key: str) -> list[str]:
        """The value as a list of texts."""
        if not isinstance(value, list) or not all(isinstance(one, str) for one in value):
            self.refuse(key, value, "a list of texts")
            return []
        return value

    def only(self, found: Iterable[str], known: tuple[str, ...], key: str, noun: str) -> None:
        """Every name is one of those that are known."""
        from circuitcheck.circuit.wording import suggestion

        for name in found:
            if name not in known:
                where = f"{self._above}{key}.{name}" if key else f"{self._above}{name}"
                raise LibraryAmiss(f"{_shown(self._file)}: no {noun} {where}. {suggestion(name, known)}")

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


def _shown(file: str) -> str:
    return os.path.relpath(file)
