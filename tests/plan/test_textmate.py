"""Colours by pattern: the same words as the grammar, at the same places of every example."""

import json
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from circuitcheck.plan.lines import statements_of
from circuitcheck.plan.source import Source
from circuitcheck.plan.tokens import tokens_of
from tests.plan.textmate import FILE, textmate

PLANS = sorted((Path(__file__).parent.parent.parent / "examples").rglob("*.plan"))
PATTERNS = [(re.compile(one["match"]), one) for one in json.loads(FILE.read_text(encoding="utf-8"))["patterns"]]
NAMES = ("NAME", "TERMINAL", "PASSAGE", "VALUE", "COLOUR")
COLOURED = {"NUMBER": "constant.numeric", "UNIT": "keyword.other.unit", "TEXT": "string.quoted.double"}


def colours(line: str) -> Iterator[tuple[int, int, str]]:
    """What an editor makes of a line: at each place the first pattern of those that match earliest."""
    position = 0
    while position < len(line):
        found = [(match, one) for pattern, one in PATTERNS if (match := pattern.search(line, position))]
        if not found:
            return
        match, one = min(found, key=lambda pair: pair[0].start())
        if "name" in one:
            yield match.start(), match.end(), one["name"]
        for group, scope in one.get("captures", {}).items():
            if match[int(group)]:
                yield *match.span(int(group)), scope["name"]
        position = max(match.end(), position + 1)


def test_the_patterns_follow_from_the_grammar() -> None:
    """A word or unit that is new there is coloured too."""
    assert FILE.read_text(encoding="utf-8") == textmate(), "run: python -m tests.plan.textmate"


@pytest.mark.parametrize("path", PLANS, ids=lambda path: path.stem)
def test_every_word_of_an_example_has_the_colour_that_the_grammar_gives_it(path: Path) -> None:
    """Words of the language, numbers, units, texts; comments are comments to their end."""
    source = Source(path.name, tuple(path.read_text(encoding="utf-8").split("\n")))
    shown = [{(start, end): name for start, end, name in colours(line)} for line in source.lines]
    for statement in statements_of(source)[0]:
        for token in tokens_of(statement.text):
            place = statement.place_at(token.start, token.end)
            name = shown[place.line - 1].get((place.column - 1, place.end_column - 1), "")
            is_word = token.text[0].isalpha() and token.kind not in (
                *COLOURED,
                "NAME",
                "TERMINAL",
                "PASSAGE",
                "VALUE",
                "COLOUR",
            )
            expected = COLOURED.get(token.kind, "keyword." if is_word else "")
            assert name.startswith(expected), (token, name)
    for line, found in zip(source.lines, shown, strict=True):
        if line.lstrip().startswith("#"):
            assert list(found.values()) == ["comment.line.number-sign.circuitcheck"]
