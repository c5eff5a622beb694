"""From a statement's text to its syntax, or to the problem that keeps it from being read."""

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

# What is only needed to tell of slips is imported there: most plans have none.


MOST_KNOWN = 10_000


class StatementParser:
    """Reads statements one after another; the grammar is loaded at the first.

    What it has read it knows again: plans of a library use the same files, and a plan that is being written is mostly
    what it was a moment ago.
    """

    def __init__(self) -> None:
        self._builder = Builder()
        self._parser: Lark | None = None
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
        parser = self._parser = self._parser or load_parser(self._builder)
        self._builder.statement = statement.place
        try:
            line = cast("Line", parser.parse(statement.text))
        except UnexpectedInput as error:
            return _explained(parser, statement, error)
        if isinstance(line, Part) and len(line.names) > 1:
            return attribute_as_name(line, _keywords(parser)) or line
        return line


def _keywords(parser: "Lark") -> list[str]:
    """The words that attributes begin with, or consist of."""
    literal = [str(terminal.pattern.value) for terminal in parser.terminals if terminal.pattern.type == "str"]
    return [word for word in literal if word not in EXAMPLES]


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
    keywords = tuple(str(parser.get_terminal(name).pattern.value) for name in accepted if name not in IN_WORDS)
    return explain(Stumble(statement, start, end, words, keywords))


def _end_of(statement: Statement) -> tuple[int, int]:
    """The end of what is written, before a comment and blanks, as an empty stretch of the text."""
    lines = statement.text.split("\n")
    last = statement.place.end_line - statement.place.line
    position = sum(len(line) + 1 for line in lines[:last]) + statement.place.end_column - 1
    return position, position
