"""Another name for something, wherever it is named: in its own file, and in every plan that uses it from there."""

import re
from collections.abc import Iterable
from typing import Final

from circuitcheck.editor.drafts import Desk, Draft
from circuitcheck.editor.symbols import Occurrence, Symbol, real_file
from circuitcheck.plan.source import Source

_NAME: Final = re.compile(r"[^\W\d_]\w*")
_LOCAL_TO_PLAN: Final = ("part", "place", "position")


class CannotRename(Exception):
    """Why there can't be that name, in a sentence."""


def everywhere(desk: Desk, symbol: Symbol, folders: Iterable[str]) -> list[Occurrence]:
    """Every stretch of text that names it, in open plans and those in these folders, in order."""
    own = desk.draft(symbol.file)
    only_here = symbol.kind in _LOCAL_TO_PLAN and not symbol.scope and not symbol.owner.startswith("type ")
    drafts = [own] if only_here else [own, *(draft for draft in desk.every(folders) if draft is not own)]
    found = (one for draft in drafts for one in draft.occurrences if one.symbol == symbol)
    return sorted(found, key=lambda one: one.place)


def renamed(desk: Desk, symbol: Symbol, name: str, folders: Iterable[str]) -> dict[str, list[Occurrence]]:
    """The stretches that get the new name, by file.

    Raises CannotRename where it is no name, or where a plan would then have a problem that it hasn't now: the changed
    texts are read, so that a name that is taken, or that the language needs for itself, is refused.
    """
    if not _NAME.fullmatch(name):
        raise CannotRename(f"{name} is no name: a name is a letter, then letters, digits and underscores.")
    by_file: dict[str, list[Occurrence]] = {}
    for one in everywhere(desk, symbol, folders):
        by_file.setdefault(real_file(one.place.file), []).append(one)
    trial = Desk(desk.roots)
    for file, text in desk.open_texts().items():
        trial.put(file, text)
    for file, found in by_file.items():
        trial.put(file, _changed(desk.draft(file).source, found, name))
    for file in by_file:
        _refuse_if_worse(desk.draft(file), trial.draft(file), name)
    return by_file


def _changed(source: Source, found: list[Occurrence], name: str) -> str:
    lines = list(source.lines)
    for one in sorted(found, key=lambda one: one.place, reverse=True):
        line = lines[one.place.line - 1]
        lines[one.place.line - 1] = line[: one.place.column - 1] + name + line[one.place.end_column - 1 :]
    return "\n".join(lines)


def _refuse_if_worse(before: Draft, after: Draft, name: str) -> None:
    """The same number of names must be described and used: a name that was taken swallows another."""
    if len(after.read.problems) > len(before.read.problems):
        known = {one.what for one in before.read.problems}
        new = next(one for one in after.read.problems if one.what not in known)
        raise CannotRename(f"{name} can't be its name: {new.what}.")
    described = [len({one.symbol for one in draft.occurrences if one.defines}) for draft in (before, after)]
    if described[0] != described[1] or len(before.occurrences) != len(after.occurrences):
        raise CannotRename(f"{name} is taken: something else goes by it already.")
