"""Places in a plan and positions in the protocol.

A plan's places count from 1 and in code points. The protocol counts from 0, and in UTF-16 code units unless editor and
server agree on something else: a sign beyond the basic plane is two of them.
"""

from lsprotocol import types
from pygls.workspace import PositionCodec

from circuitcheck.plan.source import Place


def units(text: str, codec: PositionCodec) -> int:
    """How long a text is as the protocol counts. Nearly all are plain, and need no counting sign by sign."""
    return len(text) if text.isascii() else codec.client_num_units(text)


def range_of(place: Place, lines: tuple[str, ...], codec: PositionCodec) -> types.Range:
    """A place as the protocol counts it."""
    return types.Range(
        position(place.line, place.column, lines, codec), position(place.end_line, place.end_column, lines, codec)
    )


def position(line: int, column: int, lines: tuple[str, ...], codec: PositionCodec) -> types.Position:
    """A line and column of the plan as the protocol counts them; beyond the end of the text its end."""
    if line > len(lines):
        line, column = len(lines), len(lines[-1]) + 1
    return types.Position(line - 1, units(lines[line - 1][: column - 1], codec))


def line_and_column(asked: types.Position, lines: tuple[str, ...], codec: PositionCodec) -> tuple[int, int]:
    """The other way round: beyond the end of a line its end, below the last line the end of the text."""
    if asked.line >= len(lines):
        return len(lines), len(lines[-1]) + 1
    counted = 0
    for column, sign in enumerate(lines[asked.line], 1):
        if counted >= asked.character:
            return asked.line + 1, column
        counted += units(sign, codec)
    return asked.line + 1, len(lines[asked.line]) + 1


def whole_line(line: int, lines: tuple[str, ...], codec: PositionCodec) -> types.Range:
    """A line from its first sign that is no blank to its end."""
    text = lines[line - 1] if line <= len(lines) else ""
    return range_of(Place("", line, len(text) - len(text.lstrip()) + 1, line, len(text) + 1), lines, codec)


def replacement(old: tuple[str, ...], new: tuple[str, ...], codec: PositionCodec) -> types.TextEdit | None:
    """One edit that makes the old lines the new ones: only what is between those that both begin and end with."""
    if old == new:
        return None
    head = 0
    while head < min(len(old), len(new)) and old[head] == new[head]:
        head += 1
    tail = 0
    while tail < min(len(old), len(new)) - head and old[-1 - tail] == new[-1 - tail]:
        tail += 1
    if tail:
        text = "".join(f"{line}\n" for line in new[head : len(new) - tail])
        place = Place("", head + 1, 1, len(old) - tail + 1, 1)
    elif head:
        text = "".join(f"\n{line}" for line in new[head:])
        place = Place("", head, len(old[head - 1]) + 1, len(old), len(old[-1]) + 1)
    else:
        text, place = "\n".join(new), Place("", 1, 1, len(old), len(old[-1]) + 1)
    return types.TextEdit(range_of(place, old, codec), text)
