"""What could stand at a place of a draft: words of the language that fit there, and names that are known.

The grammar says what kind of word can follow what is written; the catalogue which attributes a kind of part takes; the
draft which parts, terminals, types and places there are.
"""

import os
import re
from collections.abc import Iterable, Iterator
from typing import Final, NamedTuple

from circuitcheck.checks.check import Finding
from circuitcheck.checks.registry import check_names
from circuitcheck.circuit.catalogue.kinds import KINDS as PART_KINDS
from circuitcheck.circuit.units import UNITS
from circuitcheck.circuit.wire_words import COLOURS
from circuitcheck.circuit.wording import article
from circuitcheck.editor.drafts import Draft
from circuitcheck.editor.known import Known
from circuitcheck.plan.syntax import Module
from circuitcheck.plan.tokens import Token, kinds_after, tokens_of, words_of
from circuitcheck.plan.words import EXAMPLES

_WORD: Final = re.compile(r"[\w.+°-]*\Z")
_GOES_ON: Final = re.compile(r'(?:[,|(:]|\([^()"]*)\s*(?:#.*)?\Z')
_USE: Final = re.compile(r'\s*use\s+"([^"]*)\Z')
_MOST_SHOWN: Final = 400
_BETWEEN_NAMES: Final = ("as", "at", "to", "from", "toward")
_HALF_SAID: Final = ("MAY", "CASE", "CARTRIDGE", "BRAKES")
"""Attributes of two words, of which a second one has to follow: any that the grammar has there."""


class Suggestion(NamedTuple):
    """What could stand in the place of the word that is being written. kind: "keyword", "part", "terminal", "type",
    "module", "place", "value", "unit" or "colour". detail: what it is, in a few words."""

    text: str
    kind: str
    detail: str = ""


class Completion(NamedTuple):
    """column: where the word that is being written begins."""

    column: int
    suggestions: tuple[Suggestion, ...]


def completion(draft: Draft, line: int, column: int, findings: tuple[Finding, ...] = ()) -> Completion:
    """What could stand where the cursor is. findings: those of the plan when it was last whole."""
    before = draft.source.lines[line - 1][: column - 1]
    path = _USE.match(before)
    if path:
        return Completion(path.start(1) + 1, tuple(_files(draft)))
    word = _WORD.search(before)
    start = word.start() if word else len(before)
    if "#" in before or before.count('"') % 2:
        return Completion(column, ())
    head = _statement_head(draft.source.lines, line, before[:start])
    typed = before[start:]
    found = _suggestions(draft, line, head, typed, findings)
    return Completion(start + 1, tuple(found)[:_MOST_SHOWN])


def _statement_head(lines: tuple[str, ...], line: int, before: str) -> str:
    """The statement that the cursor is in, up to the word that is being written."""
    head = before
    number = line - 1
    while number > 0 and _GOES_ON.search(lines[number - 1]) and not lines[number - 1].lstrip().startswith("#"):
        head = f"{lines[number - 1]}\n{head}"
        number -= 1
    return head


def _suggestions(draft: Draft, line: int, head: str, typed: str, findings: tuple[Finding, ...]) -> Iterator[Suggestion]:
    if not head.strip():
        yield from (Suggestion(word, "keyword", example) for word, example in EXAMPLES.items())
        return
    tokens = tokens_of(head)
    rest = head[tokens[-1].end :] if tokens else head
    if rest.partition("#")[0].strip():
        return
    accepted = kinds_after(head)
    module = draft.module_at(line)
    if tokens[0].kind == "ACCEPT" and accepted <= {"VALUE", "TERMINAL"}:
        yield from (
            _checks(findings) if "VALUE" in accepted else _found_on(draft.known(module), tokens[1].text, findings)
        )
        return
    if tokens[-1].kind == "WHEN" and "NOT" not in accepted:
        yield Suggestion("power", "keyword", "when power returns")
    if accepted & {"TERMINAL", "PASSAGE"}:
        known = draft.known(module)
        wired = tokens[0].text in ("rung", "wire", "fit")
        yield from _terminals(known, typed, "PASSAGE" in accepted, wired)
    if accepted & {"VALUE"} and tokens:
        yield from (Suggestion(one, "value") for one in draft.known(module).words(tokens[-1].text))
    if "NAME" in accepted:
        yield from _names(draft, module, tokens)
    if "UNIT" in accepted:
        yield from (Suggestion(unit, "unit", dimension) for unit, (dimension, _) in UNITS.items())
    if "COLOUR" in accepted:
        yield from (Suggestion(one, "colour") for one in COLOURS)
    if tokens[-1].kind != "NUMBER":
        yield from (Suggestion(one, "keyword") for one in _keywords(tokens, accepted))


def _checks(findings: tuple[Finding, ...]) -> Iterator[Suggestion]:
    """Those with findings that nobody has accepted yet go first."""
    found = {one.check: one.parts[0] for one in reversed(findings) if one.parts and not one.accepted}
    for name in sorted(check_names(), key=lambda name: name not in found):
        yield Suggestion(name, "value", f"on {found[name]}" if name in found else "")


def _found_on(known: Known, check: str, findings: tuple[Finding, ...]) -> Iterator[Suggestion]:
    """All parts, first those that the check finds something of."""
    about = [name for one in findings if one.check == check for name in one.parts]
    for name in dict.fromkeys([*about, *known.names.parts]):
        part = known.names.parts.get(name)
        yield Suggestion(name, "part", check if name in about else part.kind if part else "")


def _files(draft: Draft) -> Iterator[Suggestion]:
    """Files that the plan may use, as the way from its own folder; those with nothing but types and modules."""
    here = os.path.dirname(draft.file)
    for other in draft.beside():
        if other.contents.types or other.contents.modules:
            text = os.path.relpath(other.file, here).replace(os.sep, "/")
            yield Suggestion(text, "module", " ".join(one.name.text for one in other.contents.types))


def _terminals(known: Known, typed: str, ways: bool, wired: bool) -> Iterator[Suggestion]:
    """Parts, or once a part's name and a point are written its terminals, and in a rung the ways through it.

    wired: a wire is meant to end there, so that axes are out of place.
    """
    part_name, point, _ = typed.rpartition(".")
    part = known.names.parts.get(part_name)
    if point and part:
        for way in known.ways(part) if ways else ():
            yield Suggestion(f"{part_name}.{way}", "terminal", f"through {article(part.kind)}")
        for mark in part.marks:
            yield Suggestion(f"{part_name}.{mark}", "terminal", f"terminal of {article(part.kind)}")
        return
    for name, one in known.names.parts.items():
        if (one.marks or not wired) and (not point or name.startswith(f"{part_name}.")):
            yield Suggestion(name, "part", " ".join(filter(None, (*one.features[:1], one.kind, one.label))))


def _names(draft: Draft, module: Module | None, tokens: tuple[Token, ...]) -> Iterator[Suggestion]:
    """Names of what is described already, where one can stand; a new name is the builder's to find."""
    words = [token.text for token in tokens]
    last, keyword = words[-1], words[0]
    known = draft.known(module)
    if last == "as":
        types = draft.plan.types.values()
        yield from (Suggestion(one.name.text, "type", one.kind.text) for one in types if one.kind.text == keyword)
    elif last == "on" or last == "drives":
        yield from (Suggestion(name, "part", "axis") for name in known.axes)
    elif last in ("at", "past", "toward", "from", "to") and keyword != "axis":
        # The axis stands before: on deck at, on deck from bottom to, drives deck toward, deck stops at.
        axis = next((word for word in reversed(words) if word in known.axes), "")
        yield from (Suggestion(one, "place", f"on {axis}") for one in _places(known, axis))
    elif keyword == "fit" and len(words) == 2:
        yield from (Suggestion(name, "module") for name in draft.plan.modules)
    elif keyword == "fit" and last in (":", ",") and words[2] in draft.plan.modules:
        ports = draft.plan.modules[words[2]].ports
        yield from (Suggestion(port.text, "terminal", "port") for port in ports if port.text not in words)


def _places(known: Known, axis: str) -> tuple[str, ...]:
    return known.axes[axis].places if axis else ()


def _keywords(tokens: tuple[Token, ...], accepted: frozenset[str]) -> Iterator[str]:
    """The words of the language that the grammar has there; of a part's attributes those that its kind takes."""
    words = [word for word in words_of(accepted) if word[0].isalpha() or word[0].isdigit()]
    kind = _part_kind(token.text for token in tokens)
    if kind is None or tokens[-1].kind in _HALF_SAID:
        return iter(words)
    takes = PART_KINDS[kind].takes
    built_in = words_of({"BUILT_IN"}) if "BUILT_IN" in accepted else ()
    return (word for word in words if word in takes or word in _BETWEEN_NAMES or word in built_in)


def _part_kind(words: Iterable[str]) -> str | None:
    first, *rest = words
    kind = rest[1] if first == "type" and len(rest) > 1 else first
    return kind if kind in PART_KINDS else None
