"""The words and signs of a statement, as far as it can be read: for laying out, colouring and completing.

Reading a plan needs none of this: the parser makes syntax without a list of tokens in between.
"""

import re
from collections.abc import Collection
from functools import cache
from typing import TYPE_CHECKING, Final, NamedTuple

from circuitcheck.plan.grammar import load_parser

if TYPE_CHECKING:
    from lark import Lark
    from lark.parsers.lalr_interactive_parser import InteractiveParser


_ALTERNATIVES: Final = re.compile(r"\((?:\?:)?([\w+-]+(?:\|[\w+-]+)*)\)(?:\(\?!\\w\))?")


class Token(NamedTuple):
    """A word or sign. kind: its name in `grammar/plan.lark`, or the word itself in capitals.

    start, end: where in the statement's text, counted in code points.
    """

    kind: str
    text: str
    start: int
    end: int


def tokens_of(text: str) -> tuple[Token, ...]:
    """A statement's tokens, comments left out: all of them, or those up to where it can't be read on."""
    tokens, _ = _read(text)
    return tokens


def kinds_after(text: str) -> frozenset[str]:
    """The kinds of token that could follow this beginning of a statement, `$END` among them."""
    _, interactive = _read(text)
    return frozenset(interactive.accepts())  # type: ignore[no-untyped-call]


def words_of(kinds: Collection[str] | None = None) -> list[str]:
    """The words and signs that are always written just so, of these kinds of token or of all."""
    patterns = (one.pattern for one in _grammar().terminals if kinds is None or one.name in kinds)
    return sorted({word for one in patterns for word in _words(str(one.value), one.type == "str")})


@cache
def _grammar() -> "Lark":
    return load_parser(None)


def _read(text: str) -> tuple[tuple[Token, ...], "InteractiveParser"]:
    from lark import UnexpectedCharacters, UnexpectedToken

    interactive = _grammar().parse_interactive(text)
    tokens: list[Token] = []
    try:
        for one in interactive.iter_parse():
            start = one.start_pos or 0
            tokens.append(Token(one.type, str(one), start, start + len(one)))
    except UnexpectedToken as error:
        # It may have been handed out before it turned out not to fit.
        tokens = [one for one in tokens if one.start != error.token.start_pos]
    except UnexpectedCharacters:
        pass
    return tuple(tokens), interactive


def _words(pattern: str, is_one: bool) -> list[str]:
    """What a pattern stands for: itself, or each of its alternatives where they are all plain words; else nothing."""
    if is_one:
        return [pattern]
    found = _ALTERNATIVES.fullmatch(pattern.replace("\\-", "-").replace("\\+", "+"))
    return found[1].split("|") if found else []
