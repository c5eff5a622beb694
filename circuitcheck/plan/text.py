"""From a file's bytes to lines of text, or to the reason why not."""

import sys
from pathlib import Path

from circuitcheck.plan.source import Place, Problem, Source

MOST_BYTES = 2_000_000
_BYTE_ORDER_MARK = "\ufeff"
_ZERO_BYTE = "It holds a zero byte, as programs and pictures do. Name a plan."
_OTHER_ENCODINGS = {b"\xff\xfe": "UTF-16", b"\xfe\xff": "UTF-16"}


def whole_file(file: str) -> Place:
    """The place of what concerns a file as a whole: its very start."""
    return Place(file, 1, 1, 1, 1)


def read_source(path: Path, file: str) -> Source | Problem:
    """The lines of the file at `path`, which the user calls `file`."""
    if not file:
        return Problem(whole_file(file), "a file without a name", "Name a plan, like drawbridge.plan.")
    try:
        if path.is_dir():
            return Problem(whole_file(file), f"{file} is a folder", "Name a file in it, ending in .plan.")
        if not path.exists():
            return Problem(whole_file(file), f"no file {file}", near_files(path))
        if not path.is_file():
            return Problem(whole_file(file), f"{file} is not a file", "Name a file of text, ending in .plan.")
        with path.open("rb") as opened:
            content = opened.read(MOST_BYTES + 1)
    except (OSError, ValueError) as error:
        reason = (getattr(error, "strerror", "") or str(error)).lower()
        return Problem(whole_file(file), f"{file} can't be read: {reason}", "See whether you may read this file.")
    return source_of_bytes(file, content)


def read_standard_input() -> Source | Problem:
    """The lines of what is piped in, of which no more is read than a plan may hold: a pipe need not end."""
    return source_of_bytes("standard input", sys.stdin.buffer.read(MOST_BYTES + 1))


def near_files(path: Path) -> str:
    """Which plans in its folder a file's name may have meant, as a sentence."""
    from circuitcheck.plan.nearest import nearest

    try:
        there = sorted(other.name for other in path.parent.glob("*.plan"))
    except OSError:
        there = []
    near = nearest(path.name, there) or tuple(there[:4])
    if near:
        return f"Nearest in that folder: {', '.join(near)}."
    return "There is no plan in that folder." if path.parent.is_dir() else f"There is no folder {path.parent.name}."


def source_of_bytes(file: str, content: bytes) -> Source | Problem:
    """The lines of a file whose bytes are `content`."""
    if len(content) > MOST_BYTES:
        help = "Keep types and modules in files of their own, or make a plan for each control box."
        return Problem(whole_file(file), f"{file} is over 2 MB", help)
    for mark, encoding in _OTHER_ENCODINGS.items():
        if content.startswith(mark):
            return Problem(whole_file(file), f"{file} is saved as {encoding}", "Save it as UTF-8.")
    try:
        text = content.decode("utf-8")
    except UnicodeDecodeError as error:
        return _not_utf8(file, content, error.start)
    return source_of_text(file, text)


def source_of_text(file: str, text: str) -> Source | Problem:
    """The lines of a text; a mark of byte order is dropped, every kind of line end counts as one."""
    lines = _lines(text)
    if "\0" in text:
        number = next(number for number, line in enumerate(lines, 1) if "\0" in line)
        column = lines[number - 1].index("\0") + 1
        place = Place(file, number, column, number, column + 1)
        return Problem(place, f"{file} is no text", _ZERO_BYTE)
    if not any(line.strip() for line in lines):
        return Problem(whole_file(file), f"{file} is empty", 'A plan begins like: plan Drawbridge "Raises the deck".')
    return Source(file, lines)


def _lines(text: str) -> tuple[str, ...]:
    return tuple(text.removeprefix(_BYTE_ORDER_MARK).replace("\r\n", "\n").replace("\r", "\n").split("\n"))


def _not_utf8(file: str, content: bytes, position: int) -> Problem:
    if b"\0" in content:
        return Problem(whole_file(file), f"{file} is no text", _ZERO_BYTE)
    before = _lines(content[:position].decode("utf-8"))
    place = Place(file, len(before), len(before[-1]) + 1, len(before), len(before[-1]) + 2)
    what = f"the byte {content[position]:02X} is not UTF-8"
    return Problem(place, what, "Save the file as UTF-8: editors offer it beside the name when saving.")
