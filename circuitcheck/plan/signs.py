"""Signs of a text from a plan: what of it can be shown, and how wide it is."""

import unicodedata

_REPLACEMENT = "\ufffd"


def printable(text: str) -> str:
    """The text on one line: a tab as a blank, what a screen would act upon or hide as a sign that shows."""
    return text if text.isprintable() else "".join(_visible(sign) for sign in text)


def _visible(sign: str) -> str:
    if sign.isprintable():
        return sign
    return " " if sign == "\t" or unicodedata.category(sign) == "Zs" else _REPLACEMENT


def columns(text: str) -> int:
    """How many columns of a screen a printable text takes (Unicode Standard Annex 11: wide signs take two)."""
    return len(text) if text.isascii() else sum(sign_columns(sign) for sign in text)


def sign_columns(sign: str) -> int:
    """How many columns one printable sign takes."""
    if unicodedata.combining(sign):
        return 0
    return 2 if unicodedata.east_asian_width(sign) in "WF" else 1
