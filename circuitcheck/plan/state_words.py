"""A state as it is written in a call, cut into settings that know their place: "S1=raise, deck=top".

What the names and positions mean is for circuit/ to say.
"""

import re
from collections.abc import Iterator
from typing import NamedTuple

from circuitcheck.plan.source import Place, PlanError, Problem, Source
from circuitcheck.plan.syntax import Word

STATE = "--state"
"""What the text is called where a problem lies in it."""

_SETTING = re.compile(r"\s*(?P<name>[^=]*?)\s*=\s*(?P<position>.*?)\s*", re.DOTALL)


class Setting(NamedTuple):
    """One name with the position that it is given."""

    name: Word
    position: Word


class StateText(NamedTuple):
    """The settings in order, and the text that they were read from."""

    settings: tuple[Setting, ...]
    source: Source


def read_state(text: str) -> StateText:
    """The settings of a text. Raises PlanError with all that is wrong with its form."""
    line = " ".join(text.splitlines())
    source = Source(STATE, (line,))
    problems: list[Problem] = []
    settings = tuple(_settings(line, problems))
    if problems:
        raise PlanError(tuple(problems), (source,))
    return StateText(settings, source)


def _settings(line: str, problems: list[Problem]) -> Iterator[Setting]:
    start = 0
    for piece in line.split(",") if line.strip() else ():
        found = _SETTING.fullmatch(piece)
        if found and found["name"] and found["position"]:
            name, position = (
                Word(" ".join(found[group].split()), _place(start + found.start(group), start + found.end(group)))
                for group in ("name", "position")
            )
            yield Setting(name, position)
        else:
            problems.append(_ill_formed(piece, start))
        start += len(piece) + 1


def _ill_formed(piece: str, start: int) -> Problem:
    text = " ".join(piece.split())
    if not text:
        return Problem(_place(start, start + 1), "nothing between two commas", "Take one of them away.")
    begin = start + len(piece) - len(piece.lstrip())
    place = _place(begin, begin + len(piece.strip()))
    words = [word for word in text.replace("=", " = ").split() if word not in ("=", "at")]
    if "=" in text or len(words) < 2:
        example = f"{words[0]}=POSITION" if words else "S1=raise"
        return Problem(place, f"{text} gives nothing a position", f"Write it like {example}.")
    return Problem(place, f"{text} has no =", f"Write it like {words[0]}={' '.join(words[1:])}.")


def _place(begin: int, end: int) -> Place:
    return Place(STATE, 1, begin + 1, 1, end + 1)
