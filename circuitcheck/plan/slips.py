"""What a person probably meant where a statement can't be read on.

The slips in `_SLIPS` are tried in order, each before those that would answer for it less exactly. What none of them
recognises is told in general: what was found, what was expected, the nearest word, an example.
"""

from collections.abc import Callable

from circuitcheck.plan import number_slips, sign_slips
from circuitcheck.plan.lines import Statement
from circuitcheck.plan.nearest import nearest
from circuitcheck.plan.source import Problem
from circuitcheck.plan.stumbles import (
    BUILT_IN,
    END_OF_LINE,
    KIND,
    NAME,
    QUANTITY,
    Slip,
    Stumble,
    found_at,
    shortened,
)
from circuitcheck.plan.words import EXAMPLES, KINDS

_MOST_LISTED = 6
_SPELT = {KIND: KINDS, BUILT_IN: ("diode", "resistor")}


def explain(stumble: Stumble) -> Problem:
    """The problem where a statement can't be read on, told as the slip it probably is."""
    slip = next((slip for recognise in _SLIPS if (slip := recognise(stumble))), None) or _in_general(stumble)
    place = slip.stumble.statement.place_at(slip.stumble.start, slip.stumble.end)
    return Problem(place, slip.what, slip.help)


def unknown_statement(statement: Statement) -> Problem:
    """The problem of a statement whose first word begins none."""
    start, end = found_at(statement.text, len(statement.text) - len(statement.text.lstrip()))
    word, following = statement.text[start:end], statement.text[end:].split(None, 1)
    near = nearest(word, EXAMPLES)
    if hidden := sign_slips.hidden_sign(statement.text[start : end + 1]):
        help = f"It holds a sign that can't be seen ({hidden}). Take it away."
    elif near:
        help = f"Nearest: {', '.join(near)}. Written like: {EXAMPLES[near[0]]}"
    elif following and following[0] in EXAMPLES:
        help = f"The kind comes before the name: {EXAMPLES[following[0]]}"
    else:
        help = f"A statement begins with one of: {', '.join(EXAMPLES)}."
    return Problem(statement.place_at(start, end), f"no statement begins with `{shortened(word)}`", help)


def _in_general(stumble: Stumble) -> Slip:
    keywords = [f"`{keyword}`" for keyword in stumble.keywords]
    attributes = len(keywords) > _MOST_LISTED
    expected = _either([*(NAME for word in stumble.words if word == NAME), "an attribute"] if attributes
                       else [*stumble.words, *keywords])  # fmt: skip
    example = f"Written like: {EXAMPLES[stumble.first_word]}"
    if not stumble.found:
        return Slip(stumble, f"the line ends where {expected} is expected", example)
    near = nearest(stumble.found, [*stumble.keywords, *(one for word in stumble.words for one in _SPELT.get(word, ()))])
    hint = f"Nearest: {', '.join(near)}. " if near else ""
    return Slip(stumble, f"`{stumble.shown}` where {expected} is expected", f"{hint}{example}")


def _either(words: list[str]) -> str:
    return " or ".join([", ".join(words[:-1]), words[-1]]) if len(words) > 1 else words[0]


def _no_name(stumble: Stumble) -> Slip | None:
    starts_wrong = stumble.found[:1].isdigit() or stumble.found[:1] == "_"
    if not starts_wrong or NAME not in stumble.words or QUANTITY in stumble.words:
        return None
    help = f"A name starts with a letter; then digits and _ may follow. Written like: {EXAMPLES[stumble.first_word]}"
    return Slip(stumble, f"`{stumble.shown}` where a name is expected", help)


def _single_item(stumble: Stumble) -> Slip | None:
    if stumble.first_word != "rung" or stumble.found or stumble.words:
        return None
    return Slip(stumble, "a rung of one item", f"A rung joins at least two: {EXAMPLES['rung']}")


def _third_end(stumble: Stumble) -> Slip | None:
    if stumble.first_word != "wire" or ":" not in stumble.keywords or not stumble.found[:1].isalnum():
        return None
    help = f"A wire joins two terminals; gauge and colour follow a colon: {EXAMPLES['wire']}"
    return Slip(stumble, f"`{stumble.shown}` after both ends of the wire", help)


def _after_label(stumble: Stumble) -> Slip | None:
    if stumble.words != (END_OF_LINE,) or not stumble.before.rstrip().endswith('"') or not stumble.found:
        return None
    return Slip(stumble, f"`{stumble.shown}` after the text in quotes", "The text in quotes comes last on its line.")


_SLIPS: tuple[Callable[[Stumble], Slip | None], ...] = (
    sign_slips.unseen,
    sign_slips.arrow,
    sign_slips.long_dash,
    sign_slips.curly_quote,
    number_slips.decimal_comma,
    number_slips.sign_or_bare_point,
    number_slips.too_many_digits,
    number_slips.missing_unit,
    number_slips.not_a_number,
    sign_slips.passage_as_end,
    sign_slips.terminal_without_point,
    sign_slips.point_apart,
    _no_name,
    sign_slips.comma_in_list,
    sign_slips.needless_sign,
    sign_slips.missing_comma,
    sign_slips.stray_bracket,
    _single_item,
    _third_end,
    _after_label,
)
