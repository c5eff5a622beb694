"""Text with styles, and the laying out of it: what a report is made of until it is known where it goes."""

from collections.abc import Iterable
from typing import NamedTuple

from circuitcheck.reports.problems import columns, printable

MEASURE = 100
"""How many columns prose takes at most: wider lines are hard to read, however wide the screen."""


class Span(NamedTuple):
    """style: what the text is, in a word ("error", "label"); terminal.py says how that looks."""

    text: str
    style: str = ""


Line = tuple[Span, ...]

EMPTY: Line = ()


def line(text: str, style: str = "") -> Line:
    """A line of one style. Anything a screen would act upon is replaced."""
    return (Span(printable(text), style),)


def prose(text: str, width: int, style: str = "") -> list[Line]:
    """Wrapped text."""
    return [line(part, style) for part in wrapped(text.split(), " ", min(width, MEASURE))]


def labelled(label: str, items: Iterable[str], width: int, separator: str = " ", margin: int = 12) -> list[Line]:
    """Items after a label, wrapped between items; the text of further lines stands under that of the first.

    separator: between two items of a line; where the line ends, its blanks at the end are dropped.
    """
    parts = wrapped(list(items), separator, max(min(width, MEASURE) - margin, 20))
    first = printable(label).ljust(margin)
    head = first if columns(first) == margin else f"{first} "
    lines = [(Span(head, "label"), *line(part)) for part in parts[:1]]
    return lines + [(Span(" " * margin), *line(part)) for part in parts[1:]]


def wrapped(items: list[str], separator: str, width: int) -> list[str]:
    """Items put into lines of at most `width` columns; an item that is wider has a line to itself."""
    lines: list[str] = []
    room = width - columns(separator.rstrip())
    for item in items:
        longer = f"{lines[-1]}{separator}{item}" if lines else ""
        if lines and columns(longer) <= room:
            lines[-1] = longer
        else:
            if lines:
                lines[-1] += separator.rstrip()
            lines.append(item)
    return lines


def plain_text(lines: Iterable[Line]) -> str:
    """The lines without their styles, each with its line end."""
    return "".join("".join(span.text for span in one).rstrip() + "\n" for one in lines)
