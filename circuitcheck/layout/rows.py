"""A plan's file taken apart into rows: what will be a line of it, and what belongs above and below a blank line.

A row is a comment, the first line of a statement, or a further line of one. Where a statement goes on in the next line
is its writer's choice and stays so.
"""

from itertools import pairwise
from typing import Final, NamedTuple

from circuitcheck.plan.lines import Statement
from circuitcheck.plan.source import Source
from circuitcheck.plan.tokens import Token, tokens_of

COLUMNS_OF: Final = {"wire": 3, "type": 3}
"""Statements that are read down as well as across: how many of their words stand in columns."""


class Row(NamedTuple):
    """One line. cells: the stretches that stand in columns, the statement's keyword first; none for a comment alone.

    keyword: of its statement, "" for a comment that belongs to none. first: the statement begins here. inside: it
    belongs to a module. apart: a blank line stands above it in the plan.
    """

    cells: tuple[str, ...]
    comment: str
    keyword: str
    first: bool
    inside: bool
    apart: bool


def rows_of(source: Source, statements: list[Statement]) -> list[Row]:
    """Every line of the file that isn't blank, in order."""
    rows: list[Row] = []
    next_line, inside = 1, False
    for statement in statements:
        rows += _between(source, next_line, statement.place.line, inside)
        keyword = statement.text.split(None, 1)[0]
        inside = inside and keyword != "end"
        apart = statement.place.line > 1 and not source.lines[statement.place.line - 2].strip()
        rows += _statement_rows(statement, tokens_of(statement.text), keyword, inside, apart)
        inside = inside or keyword == "module"
        next_line = statement.place.line + statement.text.count("\n") + 1
    return rows + _between(source, next_line, len(source.lines) + 1, inside)


def _between(source: Source, start: int, end: int, inside: bool) -> list[Row]:
    """The comments on the lines from `start` up to `end`."""
    rows = []
    for number in range(start, end):
        written = source.lines[number - 1].strip()
        if written:
            apart = number > 1 and not source.lines[number - 2].strip()
            rows.append(Row((), written, "", False, inside, apart))
    return rows


def _statement_rows(
    statement: Statement, tokens: tuple[Token, ...], keyword: str, inside: bool, apart: bool
) -> list[Row]:
    rows: list[Row] = []
    start = 0
    for line in statement.text.split("\n"):
        end = start + len(line)
        here = [token for token in tokens if start <= token.start < end]
        rest = (here[-1].end if here else start) - start
        comment = line[rest:].strip()
        if here or comment:
            first = not rows
            cells = _cells(here, keyword) if first else ("", _spaced(here, keyword))
            rows.append(Row(cells, comment, keyword, first, inside, apart and first))
        start = end + 1
    return rows


def _cells(tokens: list[Token], keyword: str) -> tuple[str, ...]:
    count = COLUMNS_OF.get(keyword, 1)
    rest = tokens[count:]
    return (*(token.text for token in tokens[:count]), *([_spaced(rest, keyword)] if rest else []))


def _spaced(tokens: list[Token], keyword: str) -> str:
    """One blank between all, but none before a comma, a degree sign or the second half of 50:1, and none inside a
    promise's brackets."""
    in_rung = keyword == "rung"
    text = "".join(token.text for token in tokens[:1])
    for before, token in pairwise(tokens):
        ratio = token.kind == "UNIT" and token.text.startswith(":")
        close = token.text in (",", "°") or ratio or (not in_rung and (before.text == "(" or token.text == ")"))
        text += token.text if close else f" {token.text}"
    return text
