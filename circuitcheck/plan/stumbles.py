"""Where a statement can't be read on: the facts, before anybody says what was meant."""

import re
from typing import NamedTuple

from circuitcheck.plan.lines import Statement

NAME = "a name"
KIND = "a kind of part"
BUILT_IN = "`diode` or `resistor`"
TERMINAL = "a terminal such as K1.A1"
QUANTITY = "a quantity such as 12 V"
TEMPERATURE = "a temperature such as 25 °C"
UNIT = "a unit such as V"
COLOUR = "a colour or a wire's number"
END_OF_LINE = "the end of the line"

IN_WORDS = {
    "NAME": NAME,
    "TERMINAL": TERMINAL,
    "PASSAGE": "a passage such as K1.11-14",
    "KIND": KIND,
    "NUMBER": QUANTITY,
    "SIGNED": TEMPERATURE,
    "UNIT": UNIT,
    "COLOUR": COLOUR,
    "VALUE": "what it does, such as braked or pressed",
    "TEXT": "a text in quotes",
    "BRUSH": "`+` or `-`",
    "BUILT_IN": BUILT_IN,
    "$END": END_OF_LINE,
}
"""The grammar's words in CAPITALS as a builder would say them; all others are written just so."""

_THING = re.compile(r'"[^"\n]*"|\w[\w.+-]*')
_LONGEST_SHOWN = 40


class Stumble(NamedTuple):
    """Where a statement can't be read on.

    start, end: what was found there, as a stretch of the statement's text; both its end where the line ends.
    words: what could stand there, in people's words. keywords: what could, and is written just so.
    """

    statement: Statement
    start: int
    end: int
    words: tuple[str, ...]
    keywords: tuple[str, ...]

    @property
    def found(self) -> str:
        """What was found, "" at the end of the line."""
        return self.statement.text[self.start : self.end]

    @property
    def shown(self) -> str:
        """What was found, short enough for a message."""
        return shortened(self.found)

    @property
    def before(self) -> str:
        """The statement up to what was found."""
        return self.statement.text[: self.start]

    @property
    def after(self) -> str:
        """The statement from what was found on."""
        return self.statement.text[self.start :]

    @property
    def first_word(self) -> str:
        """The word that the statement begins with."""
        return self.statement.text.split(None, 1)[0]

    def stretch(self, back: int, length: int) -> "Stumble":
        """The same with what was found beginning `back` letters before, `length` letters long."""
        return self._replace(start=self.start - back, end=self.start - back + length)


class Slip(NamedTuple):
    """What is told of a recognised slip. `stumble` has the stretch of the statement that it is about."""

    stumble: Stumble
    what: str
    help: str


def found_at(text: str, position: int) -> tuple[int, int]:
    """The stretch that a person would call the thing at that position: a whole word, a quoted text, or one sign."""
    start = position
    while 0 < start < len(text) and text[start].isalnum() and (text[start - 1].isalnum() or text[start - 1] == "_"):
        start -= 1
    thing = _THING.match(text, start)
    return start, thing.end() if thing else min(start + 1, len(text))


def shortened(text: str) -> str:
    """The text, its end cut off if it is long."""
    return text if len(text) <= _LONGEST_SHOWN else f"{text[:_LONGEST_SHOWN]}…"
