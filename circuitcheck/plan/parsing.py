"""From a statement's text to its syntax, or to the problem that keeps it from being read."""

import re
from functools import cache
from typing import TYPE_CHECKING, cast

from circuitcheck.plan.builder import Builder, Line
from circuitcheck.plan.grammar import load_parser
from circuitcheck.plan.lines import Statement
from circuitcheck.plan.part_names import attribute_as_name
from circuitcheck.plan.source import Problem
from circuitcheck.plan.syntax import Part
from circuitcheck.plan.words import EXAMPLES

if TYPE_CHECKING:
    from lark import Lark, UnexpectedInput
    from lark.lexer import TerminalDef

# What is only needed to tell of slips is imported there: most plans have none.


MOST_KNOWN = 10_000


class StatementParser:
    """Reads statements one after another; the grammar is loaded at the first that a process reads.

    What it has read it knows again: plans of a library use the same files, and a plan that is being written is mostly
    what it was a moment ago.
    """

    def __init__(self) -> None:
        self._keywords: list[str] = []
        self._known: dict[Statement, Line | Problem] = {}

    def parse(self, statement: Statement) -> Line | Problem:
        """What the statement says, or where it can't be read on and why."""
        found = self._known.get(statement)
        if found is None:
            if len(self._known) >= MOST_KNOWN:
                self._known.clear()
            found = self._known[statement] = self._read(statement)
        return found

    def _read(self, statement: Statement) -> Line | Problem:
        from lark import UnexpectedInput

        if statement.text.split(None, 1)[0] not in EXAMPLES:
            return _unknown(statement)
        parser, builder = _grammar()
        builder.statement = statement.place
        try:
            line = cast("Line", parser.parse(statement.text))
        except UnexpectedInput as error:
            return _explained(parser, statement, error)
        # No attribute has a digit where a name may have one: K2 is a name.
        if isinstance(line, Part) and any(name.text.isalpha() for name in line.names[1:]):
            self._keywords = self._keywords or _keywords(parser)
            return attribute_as_name(line, self._keywords) or line
        return line


@cache
def _grammar() -> "tuple[Lark, Builder]":
    """The parser, and what it makes of a statement, which has to be told first where that stands.

    Loading it takes as long as reading a plan does, so all plans of a library have one.
    """
    builder = Builder()
    return load_parser(builder), builder


def _keywords(parser: "Lark") -> list[str]:
    """The words that attributes begin with, or consist of."""
    from circuitcheck.plan.stumbles import IN_WORDS

    # Words of other statements and second words of an attribute, as `slow`, may well be names.
    after_name = parser.parse_interactive("lamp L1")
    after_name.exhaust_lexer()
    accepted = sorted(after_name.accepts())  # type: ignore[no-untyped-call]
    return [word for name in accepted if name not in IN_WORDS for word in _spelt(parser.get_terminal(name))]


def _spelt(terminal: "TerminalDef") -> list[str]:
    """The words that a word of the grammar stands for: one, or those of a list like `(fast|slow)`."""
    text = str(terminal.pattern.value)
    return [text] if terminal.pattern.type == "str" else re.findall(r"[\w-]+", text.partition(")")[0])


def _unknown(statement: Statement) -> Problem:
    from circuitcheck.plan.slips import unknown_statement

    return unknown_statement(statement)


def _explained(parser: "Lark", statement: Statement, error: "UnexpectedInput") -> Problem:
    from lark import UnexpectedToken

    from circuitcheck.plan.slips import explain
    from circuitcheck.plan.stumbles import IN_WORDS, Stumble, found_at

    at_end = isinstance(error, UnexpectedToken) and error.token.type == "$END"
    start, end = _end_of(statement) if at_end else found_at(statement.text, error.pos_in_stream or 0)
    accepted = sorted(error.interactive_parser.accepts())  # type: ignore[no-untyped-call]
    words = tuple(IN_WORDS[name] for name in IN_WORDS if name in accepted)
    keywords = tuple(word for name in accepted if name not in IN_WORDS for word in _spelt(parser.get_terminal(name)))
    return explain(Stumble(statement, start, end, words, keywords))


def _end_of(statement: Statement) -> tuple[int, int]:
    """The end of what is written, before a comment and blanks, as an empty stretch of the text."""
    lines = statement.text.split("\n")
    last = statement.place.end_line - statement.place.line
    position = sum(len(line) + 1 for line in lines[:last]) + statement.place.end_column - 1
    return position, position
