"""Where text goes: how wide that is, whether it takes colour, and the writing itself.

rich is asked for only where colour is wanted, so that a pipe doesn't wait for it.
"""

import os
import re
import sys
from collections.abc import Iterable, Mapping
from contextlib import suppress
from typing import TYPE_CHECKING, TextIO

from circuitcheck.reports.problems import WIDTH
from circuitcheck.reports.styled import Line, plain_text

if TYPE_CHECKING:
    from rich.console import Console

LEAST_WIDTH = 40

STYLES = {
    "error": "bold red",
    "warning": "bold yellow",
    "note": "bold cyan",
    "good": "bold green",
    "name": "bold",
    "label": "cyan",
    "quiet": "dim",
}


RIGHT_TO_LEFT = "\u0590-\u08ff\ufb1d-\ufdff\ufe70-\ufefe\U00010800-\U00010fff\U0001e800-\U0001efff"
"""The blocks of letters that are written from right to left, with their vowel signs (Unicode Standard Annex 9)."""

WORD = rf"\w*[{RIGHT_TO_LEFT}][\w{RIGHT_TO_LEFT}]*"


def screen_width(stream: TextIO) -> int | None:
    """The columns of the screen behind a stream (COLUMNS, where somebody set it); None for a pipe or a file."""
    named = os.environ.get("COLUMNS", "")
    if named.isascii() and named.isdigit() and int(named) > 0:
        return max(int(named), LEAST_WIDTH)
    try:
        found = os.get_terminal_size(stream.fileno()).columns
    except (OSError, ValueError):
        return None
    return max(found, LEAST_WIDTH) if found else None


def width_of(stream: TextIO) -> int:
    """The same, with WIDTH where there is no screen."""
    return screen_width(stream) or WIDTH


def takes_colour(choice: str, stream: TextIO, environment: Mapping[str, str]) -> bool:
    """Is colour wanted? choice: "always" or "never" decide; for "auto" NO_COLOR, then FORCE_COLOR, TERM, the stream."""
    if choice != "auto":
        return choice == "always"
    if environment.get("NO_COLOR"):
        return False
    forced = environment.get("FORCE_COLOR")
    if forced:
        return forced.lower() not in ("0", "false")
    return environment.get("TERM") != "dumb" and stream.isatty()


def in_reading_order(text: str, stream: TextIO) -> str:
    """With words that are written from right to left isolated where a screen shows them (Unicode Standard Annex 9).

    Else the mark of a terminal, or the next word of a list, would stand before the name that it follows. A file stays
    as it is: whoever searches it looks for the plan's own words.
    """
    if text.isascii() or not stream.isatty():
        return text
    return re.sub(f"{WORD}(?: {WORD})*", "\u2068\\g<0>\u2069", text)


def write_lines(lines: Iterable[Line], stream: TextIO, colour: bool) -> None:
    """Writes the lines as they are, however wide."""
    if colour:
        _write_coloured(lines, stream)
    else:
        stream.write(in_reading_order(plain_text(lines), stream))


def _write_coloured(lines: Iterable[Line], stream: TextIO) -> None:
    from rich.text import Text

    console = rich_console(stream, True, 100)
    for line in lines:
        parts = [(in_reading_order(span.text, stream), STYLES.get(span.style, "")) for span in line]
        console.print(Text.assemble(*parts), soft_wrap=True)


def rich_console(stream: TextIO, colour: bool, width: int) -> "Console":
    """rich's console on a stream, with everything off by which it would read a plan's text as its own markup."""
    from rich.console import Console

    return Console(
        file=stream,
        width=width,
        force_terminal=colour,
        color_system="standard" if colour else None,
        no_color=not colour,
        markup=False,
        emoji=False,
        highlight=False,
    )


def ready_streams() -> None:
    """A sign that can't be read, or that the screen's encoding lacks, is replaced by one that shows, and ends nothing.

    Where a stream was closed before the program began, there is nothing to read, and what is written goes nowhere.
    """
    for name, mode in (("stdin", "r"), ("stdout", "w"), ("stderr", "w")):
        if getattr(sys, name) is None:
            # It takes the stream's place for as long as the program runs, so nothing closes it.
            setattr(sys, name, open(os.devnull, mode, encoding="utf-8"))  # noqa: SIM115
        reconfigure = getattr(getattr(sys, name), "reconfigure", None)
        if reconfigure:
            # Who calls may have read some of it already.
            with suppress(OSError):
                reconfigure(errors="replace")
