"""What has a name in a plan, and the stretches of text that name it."""

import os
from functools import lru_cache
from typing import NamedTuple

from circuitcheck.plan.source import Place


class Symbol(NamedTuple):
    """Something that has a name.

    kind: "part", "type", "module", "place" (of an axis) or "position" (of a switch). file: where it is described, all
    links followed. scope: the module that it is in, "" outside; owner: the axis, switch or type that it belongs to.
    """

    kind: str
    file: str
    scope: str
    owner: str
    name: str


class Occurrence(NamedTuple):
    """A stretch of text that is a symbol's name; `defines` where the symbol is described."""

    symbol: Symbol
    place: Place
    defines: bool


@lru_cache(maxsize=4096)
def real_file(file: str) -> str:
    """The file that a name means, all links followed."""
    return os.path.realpath(file)


def occurrence_at(found: tuple[Occurrence, ...], line: int, column: int) -> Occurrence | None:
    """The name under a place of the text, or right before it."""
    here = (one for one in found if one.place.line == line and one.place.column <= column <= one.place.end_column)
    # Between `K1` and what follows it both are meant; the one that the place is inside of goes first.
    return min(here, key=lambda one: column == one.place.end_column, default=None)
