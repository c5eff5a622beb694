"""Settings that lie beside plans: the nearest circuitcheck.toml, or pyproject.toml with a table for us, upward.

    fail-on = "error"                    # the least severity that gives exit status 1
    library = ["parts"]                  # folders of shared parts

    [checks]                             # on (true) or off (false), everywhere
    idle-contact = false

    [paths."old/*"]                      # for plans there; what stands further down goes first
    supply-without-fuse = false

    [defaults]                           # what plans take that don't say
    ambient = "5..35 °C"

In pyproject.toml the same stands in [tool.circuitcheck]. Paths start from the settings' own folder.
"""

import os
from typing import Any

from circuitcheck.settings.amiss import LibraryAmiss
from circuitcheck.settings.reading import read_settings, shown
from circuitcheck.settings.settings import Settings

OWN_FILE, SHARED_FILE = "circuitcheck.toml", "pyproject.toml"


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


def _settings_in(folder: str) -> Settings | None:
    own, shared = os.path.join(folder, OWN_FILE), os.path.join(folder, SHARED_FILE)
    if os.path.isfile(own):
        return read_settings(_table(own, _content(own)), own, "")
    content = _content(shared) if os.path.isfile(shared) else b""
    # Most such files say nothing to us; of those nothing has to be understood.
    if b"circuitcheck" in content:
        tools = _table(shared, content).get("tool", {})
        if isinstance(tools, dict) and "circuitcheck" in tools:
            return read_settings(tools["circuitcheck"], shared, "tool.circuitcheck.")
    return None


def _content(file: str) -> bytes:
    try:
        with open(file, "rb") as opened:
            return opened.read()
    except OSError as error:
        raise LibraryAmiss(f"{shown(file)} can't be read: {(error.strerror or str(error)).lower()}") from None


def _table(file: str, content: bytes) -> dict[str, Any]:
    import tomllib

    try:
        return tomllib.loads(content.decode("utf-8"))
    except (tomllib.TOMLDecodeError, UnicodeDecodeError) as error:
        raise LibraryAmiss(f"{shown(file)} is no TOML: {error}") from None
