"""What is wrong with a plan's text, laid out for reading.

drawbridge.plan:14:6: no terminal K1.15
   14 | wire K1.15 M1.+ : 1.5 mm2
      |      ^^^^^
K1 is a dpdt relay with A1 A2 11 12 14 21 22 24. Nearest: K1.14, K1.12.
"""

from circuitcheck.plan.signs import columns as columns
from circuitcheck.plan.signs import printable as printable
from circuitcheck.plan.signs import sign_columns
from circuitcheck.plan.source import Place, PlanError, Problem, Source

WIDTH = 100
"""How many columns a shown line may take where the reader's screen is not known."""

_CUT = "…"
_LEAST_SHOWN = 20


def problems_text(error: PlanError, width: int = WIDTH) -> str:
    """Every problem with the line that it stands in, in order, a blank line between two.

    width: columns for a line of the plan with its number; a longer one is cut around the problem's place.
    """
    return "\n\n".join(problem_text(problem, error.sources, width) for problem in error.problems) + "\n"


def problem_text(problem: Problem, sources: tuple[Source, ...], width: int = WIDTH) -> str:
    """One problem, and the other places that belong to it, each with its own sentence."""
    lines = [f"{where(problem.place)}: {printable(problem.what)}", *excerpt(problem.place, sources, width)]
    for place, sentence in problem.also:
        lines += [f"{where(place)}: {printable(sentence)}", *excerpt(place, sources, width)]
    return "\n".join([*lines, printable(problem.help)])


def where(place: Place) -> str:
    """ "drawbridge.plan:14:6" """
    return f"{printable(place.file)}:{place.line}:{place.column}"


def excerpt(place: Place, sources: tuple[Source, ...], width: int = WIDTH) -> list[str]:
    """The first line of a place with its number, and carets under it; nothing where no such line was read."""
    source = next((source for source in sources if source.file == place.file), None)
    if source is None or not 1 <= place.line <= len(source.lines):
        return []
    line = source.lines[place.line - 1]
    start = min(place.column - 1, len(line))
    end = len(line.rstrip()) if place.end_line > place.line else min(place.end_column - 1, len(line))
    margin = max(5, len(str(place.line)) + 3)
    shown, before, marked = _cut_around(line, start, max(start, end), max(width - margin - 3, _LEAST_SHOWN))
    return [f"{place.line:>{margin}} | {shown}".rstrip(), f"{'':>{margin}} | {' ' * before}{'^' * max(1, marked)}"]


def _cut_around(line: str, start: int, end: int, width: int) -> tuple[str, int, int]:
    """The line cut to at most `width` columns around the stretch from `start` to `end`.

    Returns what is shown, the columns before the stretch, and the columns of the stretch as far as it is shown.
    """
    # A sign takes at most two columns and combining ones none, so that this much of a very long line is enough.
    first, last = max(0, start - 2 * width), min(len(line), start + 2 * width)
    before, marked, after = (printable(line[i:j]) for i, j in ((first, start), (start, min(end, last)), (end, last)))
    if first == 0 and last == len(line) and columns(before + marked + after) <= width:
        return before + marked + after, columns(before), columns(marked)
    room = width - 2
    marked = _head(marked, room)
    before = _tail(before, (room - columns(marked)) // 2) if columns(before + marked) > room else before
    after = _head(after, room - columns(before + marked)) if marked == printable(line[start : min(end, last)]) else ""
    opening = _CUT if first + len(before) < start else ""
    closing = _CUT if start + len(marked) + len(after) < len(line) else ""
    return f"{opening}{before}{marked}{after}{closing}", len(opening) + columns(before), columns(marked)


def _head(text: str, columns: int) -> str:
    taken = 0
    for position, sign in enumerate(text):
        taken += sign_columns(sign)
        if taken > columns:
            return text[:position]
    return text


def _tail(text: str, columns: int) -> str:
    return _head(text[::-1], columns)[::-1]
