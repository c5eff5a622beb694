"""Where text goes: how wide that is, whether it takes colour, and the writing itself.

rich is asked for only where colour is wanted, so that a pipe doesn't wait for it.
"""

import os
import sys
from collections.abc import Iterable, Mapping
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


def write_lines(lines: Iterable[Line], stream: TextIO, colour: bool) -> None:
    """Writes the lines as they are, however wide."""
    if colour:
        _write_coloured(lines, stream)
    else:
        stream.write(plain_text(lines))


def _write_coloured(lines: Iterable[Line], stream: TextIO) -> None:
    from rich.text import Text

    console = rich_console(stream, True, 100)
    for line in lines:
        parts = [(span.text, STYLES.get(span.style, "")) for span in line]
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


def replace_what_cannot_be_written() -> None:
    """A sign that the screen's encoding lacks becomes a question mark, and ends nothing."""
    for stream in (sys.stdout, sys.stderr):
        reconfigure = getattr(stream, "reconfigure", None)
        if reconfigure:
            reconfigure(errors="replace")
