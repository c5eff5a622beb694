"""What each word of a draft is, for editors that colour by meaning."""

import re
from collections.abc import Iterator
from typing import Final, NamedTuple

from circuitcheck.editor.drafts import Draft
from circuitcheck.plan.tokens import Token

TYPES: Final = ("keyword", "variable", "property", "type", "enumMember", "number", "string", "comment", "operator")
"""The protocol's own words for what tokens are, in the order in which their numbers count."""

_OF_KIND: Final = {
    "TERMINAL": "variable", "PASSAGE": "variable", "VALUE": "enumMember", "COLOUR": "enumMember",
    "NUMBER": "number", "UNIT": "number", "TEXT": "string", "OPEN": "operator", "CLOSE": "operator",
    "COMMA": "operator", "VBAR": "operator", "COLON": "operator", "BRUSH": "operator",
}  # fmt: skip
_WORD: Final = re.compile(r"[a-z0-9-]+")


class Coloured(NamedTuple):
    """A stretch of one line, counted from 1 in code points. type: one of TYPES."""

    line: int
    column: int
    end_column: int
    type: str


def coloured(draft: Draft) -> Iterator[Coloured]:
    """Every word and comment of the draft in order; nothing of a statement from where it can't be read on."""
    tokens = _tokens(draft)
    for number, text in enumerate(draft.source.lines, 1):
        here = tokens.get(number, [])
        yield from here
        rest = here[-1].end_column - 1 if here else 0
        start = text.find("#", rest)
        if start >= 0 and '"' not in text[rest:start]:
            yield Coloured(number, start + 1, len(text) + 1, "comment")


def _tokens(draft: Draft) -> dict[int, list[Coloured]]:
    found: dict[int, list[Coloured]] = {}
    for statement in draft.statements:
        before = ""
        for token in draft.tokens(statement):
            place = statement.place_at(token.start, token.end)
            stretches = found.setdefault(place.line, [])
            for start, end, kind in _stretches(token, before):
                stretches.append(Coloured(place.line, place.column + start, place.column + end, kind))
            before = token.text
    return found


def _stretches(token: Token, before: str) -> Iterator[tuple[int, int, str]]:
    """A terminal's mark is coloured apart from its part: `K1` and `.11-14`."""
    kind = _OF_KIND.get(token.kind)
    if kind is None:
        kind = "keyword" if token.kind != "NAME" and _WORD.fullmatch(token.text) else "variable"
    if token.kind == "NAME" and before in ("as", "type", "module"):
        kind = "type"
    part, point, _ = token.text.rpartition(".")
    if kind == "variable" and point:
        yield 0, len(part), kind
        yield len(part), len(token.text), "property"
    else:
        yield 0, len(token.text), kind
