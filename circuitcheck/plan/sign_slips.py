"""Slips of the hand with signs between words. Each function answers only for the slip that it recognises."""

import re

from circuitcheck.plan.stumbles import COLOUR, NAME, TERMINAL, Slip, Stumble, shortened
from circuitcheck.plan.words import EXAMPLES

_PASSAGE = re.compile(r"[^\W\d_]\w*(\.\w+)*\.(\w+|[+-])-(\w+|[+-])")
_DASHES = tuple("–—−‑‒―")
_QUOTES = tuple("“”„‟«»‘’'`")
_ARROWS = ("-->", "->", "=>", "→", "⇒")


def hidden_sign(text: str) -> str:
    """The first sign in it that can't be seen, by its code point ("U+200B"), or ""."""
    hidden = next((sign for sign in text if not sign.isprintable() and sign not in "\n\t"), "")
    return f"U+{ord(hidden):04X}" if hidden else ""


def unseen(stumble: Stumble) -> Slip | None:
    """A blank of no width, which came with copied text."""
    if not (hidden := hidden_sign(stumble.after[:2])):
        return None
    where = stumble.stretch(0 if hidden_sign(stumble.after[:1]) else -1, 1)
    return Slip(where, f"a sign that can't be seen ({hidden})", "Take it away; it may have come with copied text.")


def arrow(stumble: Stumble) -> Slip | None:
    """`wire PS.+ -> F1.1`"""
    found = next((arrow for arrow in _ARROWS if stumble.after.startswith(arrow)), "")
    if not found:
        return None
    example = EXAMPLES["rung" if stumble.first_word == "rung" else "wire"]
    return Slip(stumble.stretch(0, len(found)), f"an arrow `{found}`", f"It isn't needed. Written like: {example}")


def long_dash(stumble: Stumble) -> Slip | None:
    """`K1.11–14`"""
    if stumble.found not in _DASHES:
        return None
    return Slip(stumble, f"a long dash `{stumble.found}`", "Write the hyphen of the keyboard: -")


def curly_quote(stumble: Stumble) -> Slip | None:
    """`“run”`"""
    if stumble.found not in _QUOTES:
        return None
    return Slip(stumble, f"the quote `{stumble.found}`", 'Write straight double quotes: "run".')


def passage_as_end(stumble: Stumble) -> Slip | None:
    """`wire K1.A1-A2 PS.-`"""
    if stumble.first_word not in ("wire", "fit") or stumble.after[:1] != "-":
        return None
    start = max(stumble.before.rfind(blank) for blank in " \t\n,:") + 1
    passage = _PASSAGE.match(stumble.statement.text, start)
    if not passage:
        return None
    part = passage[0].rpartition("-")[0].rpartition(".")[0]
    what = f"the passage {shortened(passage[0])} as an end of a wire"
    ends = f"{part}.{passage[2]} or {part}.{passage[3]}"
    help = f"A wire ends at one terminal: {shortened(ends)}. A passage belongs in a rung."
    return Slip(stumble.stretch(stumble.start - start, len(passage[0])), what, help)


def terminal_without_point(stumble: Stumble) -> Slip | None:
    """`wire K1:A1 F1.1`"""
    name = re.search(r"[^\W\d_][\w.]*$", stumble.before)
    mark = re.match(r"[:/]([\w+-]+)", stumble.after)
    if not name or not mark or TERMINAL not in stumble.words:
        return None
    whole = name[0] + mark[0]
    help = f"Write a point between part and mark: {shortened(f'{name[0]}.{mark[1]}')}"
    return Slip(stumble.stretch(len(name[0]), len(whole)), f"`{shortened(whole)}` where {TERMINAL} is expected", help)


def point_apart(stumble: Stumble) -> Slip | None:
    """`K1. A1`"""
    if stumble.found != "." or not re.match(r"\.\s*[\w+-]", stumble.after):
        return None
    return Slip(stumble, "a point apart from its part or mark", "They stand together: K1.A1")


def comma_in_list(stumble: Stumble) -> Slip | None:
    """`relay K1, K2 spdt`"""
    if stumble.found != "," or not {NAME, COLOUR} & set(stumble.words):
        return None
    return Slip(stumble, "a comma between words", f"They stand without commas. Written like: {_example(stumble)}")


def needless_sign(stumble: Stumble) -> Slip | None:
    """`coil=12 V`"""
    if stumble.found not in ("=", ":") or stumble.first_word in ("wire", "fit", "rung"):
        return None
    return Slip(stumble, f"the sign `{stumble.found}`", f"It isn't needed. Written like: {_example(stumble)}")


def missing_comma(stumble: Stumble) -> Slip | None:
    """`rung F1.2 D1`"""
    if "," not in stumble.keywords or (not stumble.found[:1].isalnum() and stumble.found != "("):
        return None
    return Slip(stumble, f"no comma before {stumble.shown}", f"Written like: {_example(stumble)}")


def stray_bracket(stumble: Stumble) -> Slip | None:
    """`rung F1.2, PB1 )`"""
    if stumble.found != ")" or stumble.before.count("(") > stumble.before.count(")"):
        return None
    return Slip(stumble, "a closing bracket that was never opened", "Take it away, or open it with `(`.")


def _example(stumble: Stumble) -> str:
    return EXAMPLES[stumble.first_word]
