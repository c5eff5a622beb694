"""What a person probably meant where a statement can't be read on.

A `Stumble` holds the facts: the statement, where the parser stopped, and what could have stood there. The slips in
`_SLIPS` are tried in order, likely and particular ones first; each answers only for what it recognises. What none
recognises is told in general: what was found, what was expected, the nearest word.
"""

import re
from collections.abc import Callable
from typing import NamedTuple

from circuitcheck.plan.lines import Statement
from circuitcheck.plan.nearest import nearest
from circuitcheck.plan.source import Problem
from circuitcheck.plan.words import EXAMPLES, named

END_OF_LINE = "the end of the line"

_WORD = re.compile(r"\w[\w.+-]*")
_PASSAGE = re.compile(r"[^\W\d_]\w*(\.\w+)*\.(\w+|[+-])-(\w+|[+-])")
_NUMBER = re.compile(r"[0-9][0-9.]*$")
_LONGEST_SHOWN = 40
_MOST_LISTED = 6
_DASHES = "–—−‑‒―"
_QUOTES = "“”„‟«»‘’'`"
_ARROWS = ("->", "=>", "→", "⇒", "-->")


class Stumble(NamedTuple):
    """Where a statement can't be read on.

    start, end: what was found there, as a stretch of the statement's text; both its end where the line ends.
    words: what could stand there, in people's words. keywords: those of them that are written just so.
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

    def expects(self, words: str) -> bool:
        """Whether that could stand there."""
        return words in self.words

    def stretch(self, back: int, length: int) -> "Stumble":
        """The same with what was found beginning `back` letters before, `length` letters long."""
        return self._replace(start=self.start - back, end=self.start - back + length)


class Slip(NamedTuple):
    """What is told of a recognised slip, about the stretch of `stumble`."""

    stumble: Stumble
    what: str
    help: str


def found_at(text: str, position: int) -> tuple[int, int]:
    """The stretch that a person would call the thing at that position: a whole word, or one sign."""
    start = position
    while 0 < start < len(text) and text[start].isalnum() and (text[start - 1].isalnum() or text[start - 1] == "_"):
        start -= 1
    word = _WORD.match(text, start)
    return start, word.end() if word else min(start + 1, len(text))


def explain(stumble: Stumble) -> Problem:
    """The problem where a statement can't be read on, told as the slip it probably is."""
    slip = next((slip for recognise in _SLIPS if (slip := recognise(stumble))), None) or _in_general(stumble)
    place = slip.stumble.statement.place_at(slip.stumble.start, slip.stumble.end)
    return Problem(place, slip.what, slip.help)


def unknown_statement(statement: Statement) -> Problem:
    """The problem of a statement whose first word begins none."""
    start = len(statement.text) - len(statement.text.lstrip())
    start, end = found_at(statement.text, start)
    word = statement.text[start:end]
    near = nearest(word, EXAMPLES)
    if hidden := _code_point_of_hidden(word):
        help = f"It holds a sign that can't be seen ({hidden}). Take it away."
    elif near:
        help = f"Nearest: {', '.join(near)}. Written like: {EXAMPLES[near[0]]}"
    else:
        help = f"A statement begins with one of: {', '.join(EXAMPLES)}."
    return Problem(statement.place_at(start, end), f"no statement begins with `{_shown(word)}`", help)


def _in_general(stumble: Stumble) -> Slip:
    words = list(stumble.words)
    if len(stumble.keywords) > _MOST_LISTED:
        words.append(f"an attribute such as `{stumble.keywords[0]}`")
    else:
        words += [f"`{keyword}`" for keyword in stumble.keywords]
    expected = " or ".join([", ".join(words[:-1]), words[-1]] if len(words) > 1 else words)
    near = nearest(stumble.found, stumble.keywords)
    hint = f"Nearest: {', '.join(near)}. " if near else ""
    example = EXAMPLES.get(stumble.first_word, "")
    if not stumble.found:
        return Slip(stumble, f"the line ends where {expected} is expected", f"Written like: {example}")
    what = f"`{_shown(stumble.found)}` where {expected} is expected"
    return Slip(stumble, what, f"{hint}Written like: {example}")


def _shown(text: str) -> str:
    return text if len(text) <= _LONGEST_SHOWN else f"{text[:_LONGEST_SHOWN]}…"


def _code_point_of_hidden(text: str) -> str:
    hidden = next((sign for sign in text if not sign.isprintable()), "")
    return f"U+{ord(hidden):04X}" if hidden else ""


def _hidden_sign(stumble: Stumble) -> Slip | None:
    if not (hidden := _code_point_of_hidden(stumble.found)):
        return None
    return Slip(stumble, f"a sign that can't be seen ({hidden})", "Take it away; it may have come with copied text.")


def _arrow(stumble: Stumble) -> Slip | None:
    arrow = next((arrow for arrow in _ARROWS if stumble.after.startswith(arrow)), "")
    if not arrow:
        return None
    example = EXAMPLES["rung" if stumble.first_word == "rung" else "wire"]
    return Slip(stumble.stretch(0, len(arrow)), f"an arrow `{arrow}`", f"It isn't needed: {example}")


def _dash(stumble: Stumble) -> Slip | None:
    if stumble.found not in tuple(_DASHES):
        return None
    return Slip(stumble, f"a long dash `{stumble.found}`", "Write the hyphen of the keyboard: -")


def _curly_quote(stumble: Stumble) -> Slip | None:
    if stumble.found not in tuple(_QUOTES):
        return None
    return Slip(stumble, f"the quote `{stumble.found}`", 'Write straight double quotes: "run".')


def _decimal_comma(stumble: Stumble) -> Slip | None:
    number = _NUMBER.search(stumble.before)
    rest = re.match(r",([0-9]+)\s*([^\W\d_]*2?)", stumble.after)
    if not number or not rest or not stumble.expects("a unit such as V"):
        return None
    whole = number[0] + "," + rest[1]
    point = f"{number[0]}.{rest[1]} {rest[2]}".strip()
    return Slip(stumble.stretch(len(number[0]), len(whole)), f"{whole} with a comma", f"Write a point: {point}.")


def _sign_or_bare_point(stumble: Stumble) -> Slip | None:
    quantity = re.match(r"([-+.])([0-9][0-9.]*)", stumble.after)
    if not quantity or not stumble.expects("a quantity such as 12 V"):
        return None
    written = f"0.{quantity[2]}" if quantity[1] == "." else quantity[2]
    return Slip(stumble.stretch(0, len(quantity[0])), f"the number {quantity[0]}", f"Write {written}.")


def _missing_unit(stumble: Stumble) -> Slip | None:
    number = re.search(r"[0-9][0-9.]*\s*$", stumble.before)
    if not number or not stumble.expects("a unit such as V"):
        return None
    if stumble.after[:1].isdigit() and not number[0][-1].isspace():
        whole = re.match(r"[0-9.]*", stumble.after)
        length = len(number[0]) + len(whole[0] if whole else "")
        return Slip(stumble.stretch(len(number[0]), length), "a number of more than 12 digits", "Choose a larger unit.")
    written = number[0].strip()
    if stumble.after[:1].isalnum() and not number[0][-1].isspace():
        return None
    return Slip(stumble.stretch(len(number[0]), len(written)), f"{written} with no unit", f"Write it after the number, like {written} V.")


def _passage_as_end(stumble: Stumble) -> Slip | None:
    if stumble.first_word not in ("wire", "fit") or stumble.after[:1] != "-":
        return None
    start = max(stumble.before.rfind(blank) for blank in " \t\n,:") + 1
    passage = _PASSAGE.match(stumble.statement.text, start)
    if not passage:
        return None
    part, _, _ = passage[0].rpartition("-")[0].rpartition(".")
    ends = f"{part}.{passage[2]} or {part}.{passage[3]}"
    what = f"the passage {_shown(passage[0])} as an end of a wire"
    help = f"A wire ends at one terminal: {ends}. A passage belongs in a rung."
    return Slip(stumble.stretch(stumble.start - start, len(passage[0])), what, help)


def _terminal_without_point(stumble: Stumble) -> Slip | None:
    name = re.search(r"[^\W\d_][\w.]*$", stumble.before)
    mark = re.match(r"[:/]([\w+-]+)", stumble.after)
    if not name or not mark or not stumble.expects("a terminal such as K1.A1"):
        return None
    whole = name[0] + mark[0]
    return Slip(stumble.stretch(len(name[0]), len(whole)), f"`{_shown(whole)}` where a terminal is expected",
                f"Write a point between part and mark: {_shown(name[0])}.{_shown(mark[1])}")  # fmt: skip


def _blank_in_terminal(stumble: Stumble) -> Slip | None:
    if stumble.found != "." or not re.match(r"\.\s*[\w+-]", stumble.after):
        return None
    return Slip(stumble, "a point apart from its part", "Part, point and mark stand together: K1.A1")


def _name_that_is_no_name(stumble: Stumble) -> Slip | None:
    starts_wrong = stumble.found[:1].isdigit() or stumble.found[:1] == "_"
    if not starts_wrong or not stumble.expects("a name") or stumble.expects("a quantity such as 12 V"):
        return None
    return Slip(stumble, f"`{_shown(stumble.found)}` where a name is expected", "A name starts with a letter, then letters, digits and _.")


def _comma_in_list(stumble: Stumble) -> Slip | None:
    if stumble.found != "," or not stumble.expects("a name") and not stumble.expects("a colour or a wire's number"):
        return None
    return Slip(stumble, "a comma between words", f"They stand without commas. Written like: {EXAMPLES[stumble.first_word]}")


def _equals_sign(stumble: Stumble) -> Slip | None:
    if stumble.found not in ("=", ":") or stumble.first_word in ("wire", "fit", "rung"):
        return None
    return Slip(stumble, f"the sign `{stumble.found}`", f"It isn't needed. Written like: {EXAMPLES[stumble.first_word]}")


def _missing_comma(stumble: Stumble) -> Slip | None:
    if "," not in stumble.keywords or not stumble.found[:1].isalpha() and stumble.found != "(":
        return None
    return Slip(stumble, f"no comma before {_shown(stumble.found)}", f"Written like: {EXAMPLES[stumble.first_word]}")


def _closing_bracket(stumble: Stumble) -> Slip | None:
    if stumble.found != ")" or stumble.before.count("(") > stumble.before.count(")"):
        return None
    return Slip(stumble, "a closing bracket that was never opened", "Take it away, or open it with `(`.")


def _third_end(stumble: Stumble) -> Slip | None:
    if stumble.first_word != "wire" or ":" not in stumble.keywords or not stumble.found[:1].isalnum():
        return None
    return Slip(stumble, f"`{_shown(stumble.found)}` after both ends of the wire",
                f"A wire joins two terminals; colour and gauge follow a colon: {EXAMPLES['wire']}")  # fmt: skip


def _after_label(stumble: Stumble) -> Slip | None:
    if stumble.words != (END_OF_LINE,) or not stumble.before.rstrip().endswith('"') or not stumble.found:
        return None
    return Slip(stumble, f"`{_shown(stumble.found)}` after the text in quotes", "The text in quotes comes last on its line.")


_SLIPS: tuple[Callable[[Stumble], Slip | None], ...] = (
    _hidden_sign,
    _arrow,
    _dash,
    _curly_quote,
    _decimal_comma,
    _sign_or_bare_point,
    _missing_unit,
    _passage_as_end,
    _terminal_without_point,
    _blank_in_terminal,
    _name_that_is_no_name,
    _comma_in_list,
    _equals_sign,
    _missing_comma,
    _closing_bracket,
    _third_end,
    _after_label,
)
