"""From a statement's text to its syntax, or to the problem that keeps it from being read."""

from typing import TYPE_CHECKING

from circuitcheck.plan.builder import Builder, Line
from circuitcheck.plan.grammar import load_parser
from circuitcheck.plan.lines import Statement
from circuitcheck.plan.slips import END_OF_LINE, Stumble, explain, found_at, unknown_statement
from circuitcheck.plan.source import Problem
from circuitcheck.plan.words import EXAMPLES

if TYPE_CHECKING:
    from lark import Lark, UnexpectedInput

_IN_WORDS = {
    "NAME": "a name",
    "TERMINAL": "a terminal such as K1.A1",
    "PASSAGE": "a passage such as K1.11-14",
    "KIND": "a kind of part such as relay",
    "NUMBER": "a quantity such as 12 V",
    "UNIT": "a unit such as V",
    "COLOUR": "a colour or a wire's number",
    "VALUE": "what it does, such as braked or pressed",
    "TEXT": "a text in quotes",
    "BRUSH": "+ or -",
    "BUILT_IN": "diode or resistor",
    "$END": END_OF_LINE,
}
"""The grammar's words in CAPITALS as a builder would say them; all others are written just so."""


class StatementParser:
    """Reads statements one after another; the grammar is loaded at the first."""

    def __init__(self) -> None:
        self._builder = Builder()
        self._parser: Lark | None = None

    def parse(self, statement: Statement) -> Line | Problem:
        """What the statement says, or where it can't be read on and why."""
        from lark import UnexpectedInput

        words = statement.text.split(None, 1)
        if words[0] not in EXAMPLES:
            return unknown_statement(statement)
        self._parser = self._parser or load_parser(self._builder)
        self._builder.statement = statement.place
        try:
            line: Line = self._parser.parse(statement.text)  # type: ignore[assignment]
        except UnexpectedInput as error:
            return explain(_stumble(self._parser, statement, error))
        return line


def _stumble(parser: "Lark", statement: Statement, error: "UnexpectedInput") -> Stumble:
    from lark import UnexpectedToken

    at_end = isinstance(error, UnexpectedToken) and error.token.type == "$END"
    start, end = _end_of(statement) if at_end else found_at(statement.text, error.pos_in_stream or 0)
    accepted = sorted(error.interactive_parser.accepts())  # type: ignore[attr-defined]
    words = tuple(_IN_WORDS[name] for name in _IN_WORDS if name in accepted)
    keywords = tuple(str(parser.get_terminal(name).pattern.value) for name in accepted if name not in _IN_WORDS)
    return Stumble(statement, start, end, words, keywords)


def _end_of(statement: Statement) -> tuple[int, int]:
    """The end of what is written, before a comment and blanks, as an empty stretch of the text."""
    lines = statement.text.split("\n")
    last = statement.place.end_line - statement.place.line
    position = sum(len(line) + 1 for line in lines[:last]) + statement.place.end_column - 1
    return position, position
