"""Reads a ladder drawn in text, sign by sign."""

import re
from collections.abc import Iterator

from tests.ladder.reading import Joints, Shown, Way

GLYPH = re.compile(
    r"(?P<contact>\|[ =~#/]\|)|(?P<fuse>\[[-=~#]\](?=[-=~#]))|(?P<diode>>\||\|<)"
    r"|(?P<load>\([ =~#MXB]\)|\[[ =~#Y]\])|(?P<point>o)"
)
DRAWN = re.compile(
    r"[-=~#+|](\|[ =~#/]\||\[[-=~# Y]\]|\([ =~#MXB]\))[-=~#+]|[-=~#]o|o[-=~#]|[-=~#](>\||\|<)[-=~#]|\+[-=~#]+\+"
)
LINE = "-=~#+"
MARGIN = 4


def ways_of(text: str) -> list[Way]:
    """Every way of every rung."""
    rows = text.splitlines()
    found: list[Way] = []
    for number, row in enumerate(rows):
        if re.match(r"\d+ +\S", row):
            found += _ways(rows, number + 1)
    return found


def _ways(rows: list[str], start: int) -> Iterator[Way]:
    """The ways that follow a rung's title: a head with the rails' names, then rows in threes."""
    at = start
    while at + 2 < len(rows) and rows[at].strip() and not (_is_drawn(rows[at + 1]) or _is_drawn(rows[at + 2])):
        # A long title goes on over several rows.
        at += 1
    while at + 2 < len(rows) and _is_drawn(rows[at + 2]) and not _is_drawn(rows[at + 1]):
        head, at = rows[at][MARGIN:], at + 1
        drawn: list[str] = []
        while at + 1 < len(rows) and _is_drawn(rows[at + 1]):
            drawn += [row[MARGIN:] for row in rows[at : at + 3]]
            at += 3
        yield _read(head, drawn)


def _is_drawn(row: str) -> bool:
    """Prose begins at the edge."""
    return row.startswith(" " * MARGIN) and bool(DRAWN.search(row))


def _read(head: str, rows: list[str]) -> Way:
    width = max(map(len, rows))
    grid = [row.ljust(width) for row in rows]
    joints, shown, taken = Joints(), [], set()
    left, right = _rails(head, rows)
    for row in range(1, len(grid), 3):
        for glyph in GLYPH.finditer(grid[row], 1, width):
            first, last = glyph.start(), glyph.end() - 1
            beside = grid[row][first - 1], grid[row][last + 1 : last + 2]
            if not any(sign and sign in LINE for sign in beside):
                continue
            taken |= {(row, column) for column in range(first, last + 1)}
            name, marks = _beside(grid[row - 1], first, last), _beside(grid[row + 1], first, last)
            ends = (row, first - 1), (row, last + 1)
            if glyph["point"]:
                joints.join((row, first), name)
                for end in ends:
                    if grid[row][end[1] : end[1] + 1] in tuple(LINE):
                        joints.join((row, first), end)
            else:
                shown.append((*ends, _load(glyph["load"] or ""), name, marks))
    _join(grid, taken, joints)
    for name, column in ((left, 0), (right, width - 1)):
        for row in range(1, len(grid), 3):
            inward = 1 if column == 0 else column - 1
            if name and grid[row][inward] in LINE:
                joints.join((row, inward), name)
    rails = {name: joints.root(name) for name in (left, right) if name}
    return Way(tuple(Shown(joints.root(one), joints.root(other), *rest) for one, other, *rest in shown), rails)


def _load(glyph: str) -> str:
    """A resistor's box is empty, or lit throughout."""
    return "" if not glyph else "resistor" if glyph[0] == "[" and glyph[1] != "Y" else "other"


def _rails(head: str, rows: list[str]) -> tuple[str, str]:
    """The names at both ends of the head, where a rail runs down below them."""
    width = max(map(len, rows))
    left = head.split("  ")[0].strip() if all(row[:1] == "|" for row in rows) else ""
    right = head.rstrip().rsplit("  ", 1)[-1].strip() if all(row[width - 1 :] == "|" for row in rows) else ""
    return left, right


def _join(grid: list[str], taken: set[tuple[int, int]], joints: Joints) -> None:
    """Signs of a line that stand side by side, and bars down from corner to corner."""
    for row in range(1, len(grid), 3):
        for column, sign in enumerate(grid[row]):
            spot = row, column
            if sign not in LINE or spot in taken:
                continue
            if grid[row][column + 1 : column + 2] in tuple(LINE) and (row, column + 1) not in taken:
                joints.join(spot, (row, column + 1))
            below = row + 1
            while sign == "+" and below < len(grid) and grid[below][column] == "|":
                below += 1
            if sign == "+" and row + 1 < below < len(grid) and grid[below][column] == "+":
                joints.join(spot, (below, column))


def _beside(row: str, first: int, last: int) -> str:
    """The words over or under a symbol."""
    words = [word for word in re.finditer(r"[^\s|]+(?: [^\s|]+)*", row) if word.start() <= last and word.end() > first]
    return " ".join(word[0] for word in words)
