"""Texts to put through the tool: statements drawn from the grammar, and plans of the examples with some change.

Small plans are drawn more often: they are examined in a few milliseconds, and what a change does to one of them it does
to a large one. Statements drawn for a plan speak of what stands in it, so that the plan mostly stays one.
"""

import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from random import Random
from typing import Any

from lark import Lark

from circuitcheck.checks.registry import all_checks
from circuitcheck.plan.grammar import grammar_file
from circuitcheck.plan.words import EXAMPLES

FOLDER = Path(__file__).parent.parent.parent / "examples"
WORD = re.compile(r'"[^"\n]*"|[\w.]+(?:-[\w+-]+)?|[^\s\w]')
JOINING = re.compile(r"(?m)^[ ]*(wire|rung) .*$|, *[\w.+-]+(?=,)")
ODD_WORDS = (
    *("0", "999999999999", "0.000000000001", "1..0", "-5..5", "1..2..3", "K1.", "K1..A1", "K1.A1-A1", "PS.+-", "end"),
    *("(", ")", "|", ",", ":", '"', "#", "\0", "–", "²", "½", "é", "\u202e", "𝕂1", "=" * 300, "x" * 300, "not", "on"),
)
DEEPEST = 12
UNWEIGHED = 0.02
OWN_WORDS = 0.8
WITHIN = ("part", "axis", "conditions", "wire", "rung", "fit", "promise", "require", "accept")


@cache
def plans() -> tuple[str, ...]:
    """Those of the examples and of the checks' pages."""
    texts = [file.read_text(encoding="utf-8") for file in sorted(FOLDER.rglob("*.plan"))]
    pages = [example for one in all_checks() for example in (*one.check.wrong, *one.check.right)]
    return (*texts, *(example.plan for example in pages))


@cache
def large(text: str) -> bool:
    """Whether a plan takes many times as long as others of its length: one that has every fault supposed."""
    return "require" in text


def plan(chance: Random) -> str:
    """One of them, mostly a small one."""
    if chance.random() < UNWEIGHED:
        return chance.choice(plans())
    return min(chance.choices(plans(), k=3), key=lambda text: (large(text), len(text)))


@cache
def lines() -> tuple[str, ...]:
    """Single statements that are right."""
    return tuple(line for text in plans() for line in text.split("\n") if line.strip()) + tuple(EXAMPLES.values())


@cache
def words() -> tuple[str, ...]:
    """Whatever stands in them, and odd ones."""
    return (*sorted({word for line in lines() for word in WORD.findall(line.partition("#")[0])}), *ODD_WORDS)


@cache
def grammar() -> Lark:
    """The grammar of a statement, without the tool's own reading of it."""
    return Lark(grammar_file().read_text(encoding="utf-8"), parser="lalr", lexer="contextual")


@cache
def expansions() -> dict[str, list[list[Any]]]:
    """What each rule of the grammar may consist of."""
    found: dict[str, list[list[Any]]] = {}
    for rule in grammar().rules:
        found.setdefault(str(rule.origin.name), []).append(list(rule.expansion))
    return found


@cache
def spellings(terminal: str) -> tuple[str, ...]:
    """Words that a terminal of the grammar may be."""
    pattern = grammar().get_terminal(terminal).pattern
    if pattern.type == "str":
        return (pattern.value,)
    fitting = re.compile(pattern.to_regexp())
    return tuple(word for word in words() if fitting.fullmatch(word)) or ("K1",)


@cache
def own_spellings(terminal: str, text: str) -> tuple[str, ...]:
    """Those that stand in a plan, where it has any."""
    own = {word for line in text.split("\n") for word in WORD.findall(line.partition("#")[0])}
    return tuple(word for word in spellings(terminal) if word in own) or spellings(terminal)


def statement(chance: Random) -> str:
    """One that the grammar allows."""
    return " ".join(_expanded("start", chance, 0, ""))


def fitting_statement(chance: Random, text: str) -> str:
    """One that may stand anywhere in a plan, mostly in that plan's words."""
    return " ".join(_expanded(chance.choice(WITHIN), chance, 0, text))


def _expanded(symbol: str, chance: Random, depth: int, text: str) -> Iterator[str]:
    choices = expansions()[symbol]
    chosen = min(choices, key=len) if depth > DEEPEST else chance.choice(choices)
    for part in chosen:
        if part.is_term:
            own = chance.random() < OWN_WORDS
            yield chance.choice(own_spellings(part.name, text) if own else spellings(part.name))
        else:
            yield from _expanded(part.name, chance, depth + 1, text)


def drawn(chance: Random) -> str:
    """A text of statements that the grammar allows, among some that belong together."""
    count = chance.randint(1, 12)
    return "\n".join(statement(chance) if chance.random() < 0.6 else chance.choice(lines()) for _ in range(count))


def grown(chance: Random) -> str:
    """A plan with a few statements more."""
    text = plan(chance)
    return "\n".join((text, *(fitting_statement(chance, text) for _ in range(chance.choice((1, 1, 2, 3))))))


def mutated(chance: Random) -> str:
    """A plan with a few words, lines or signs of it changed."""
    text = plan(chance)
    for _ in range(chance.choice((1, 2, 2, 3, 4, 5))):
        text = chance.choice(CHANGES)(text, chance)
    return text


def _another_word(text: str, chance: Random) -> str:
    found = list(WORD.finditer(text))
    if not found:
        return chance.choice(words())
    one = chance.choice(found)
    return text[: one.start()] + chance.choice(words()) + text[one.end() :]


def _words_swapped(text: str, chance: Random) -> str:
    found = WORD.findall(text)
    if len(found) < 2:
        return text
    one, other = chance.sample(found, 2)
    return text.replace(one, other, 1) if chance.random() < 0.5 else text.replace(one, other)


def _line_gone(text: str, chance: Random) -> str:
    all_lines = text.split("\n")
    all_lines[chance.randrange(len(all_lines))] = ""
    return "\n".join(all_lines)


def _joining_gone(text: str, chance: Random) -> str:
    """A wire or a rung, or what stands in a rung between two commas: it stays a plan."""
    found = list(JOINING.finditer(text))
    if not found:
        return text
    one = chance.choice(found)
    return text[: one.start()] + text[one.end() :]


def _line_more(text: str, chance: Random) -> str:
    all_lines = text.split("\n")
    line = chance.choice((chance.choice(all_lines), chance.choice(lines()), fitting_statement(chance, text)))
    all_lines.insert(chance.randrange(len(all_lines) + 1), line)
    return "\n".join(all_lines)


def _another_sign(text: str, chance: Random) -> str:
    place = chance.randrange(len(text) + 1)
    sign: str = chance.choice((*'(),|:"#.-+0 \n', chr(chance.randrange(1, 0x3000))))
    return text[:place] + sign + text[place + 1 :]


def _another_number(text: str, chance: Random) -> str:
    numbers = list(re.finditer(r"\d+(\.\d+)?", text))
    if not numbers:
        return text
    one = chance.choice(numbers)
    number = chance.choice(("0", "1", "2", "20", "40", "1000", "999999999999", "0.001", "5..6", "6..5"))
    return text[: one.start()] + number + text[one.end() :]


def _another_terminal(text: str, chance: Random) -> str:
    """One of the same plan: mostly it stays a plan, and is wired otherwise."""
    terminals = list(re.finditer(r"\b[A-Z]\w*\.[\w+-]+", text))
    if not terminals:
        return text
    one = chance.choice(terminals)
    return text[: one.start()] + chance.choice(terminals).group() + text[one.end() :]


CHANGES = (
    *(_another_word, _words_swapped, _line_gone, _line_more, _another_sign, _another_number),
    *(*[_another_terminal] * 11, *[_joining_gone] * 4),
)
"""Those that leave a plan more often, since others are mostly refused before anything is examined."""


def any_text(chance: Random) -> str:
    """One of these kinds."""
    return chance.choices((drawn, grown, mutated), (1, 2, 7))[0](chance)
