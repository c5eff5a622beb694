"""Rows put into columns: blocks with one blank line between them, each with its columns aligned.

keyword   seven columns, so that what is described or wired begins at the same place in every line
wire      both ends, then what is said of the wire: as wide as the widest of the wires in a row
type      name, kind, then the rest: likewise
comment   two blanks behind the widest line of its block that has one
"""

from collections.abc import Iterator
from itertools import groupby, pairwise
from typing import Final

from circuitcheck.layout.rows import Row

KEYWORD_COLUMNS: Final = 6
BESIDE_COLUMNS: Final = ("plan", "use", "module", "end")
"""Statements that stand by themselves: nothing of theirs is in line with the parts and rungs around them. Types are
in line with these, but not where a block holds nothing else."""
WIDEST_ALIGNED: Final = 80
"""A line that is wider doesn't push the comments of its neighbours out of sight."""


def in_columns(rows: list[Row]) -> list[str]:
    """The lines of the file, blank ones between blocks."""
    lines: list[str] = []
    for block in _blocks(rows):
        lines += [""] if lines else []
        lines += _block_lines(block)
    return lines


def _blocks(rows: list[Row]) -> Iterator[list[Row]]:
    block: list[Row] = []
    breaks = _breaks(rows)
    for number, row in enumerate(rows):
        if block and number in breaks:
            yield block
            block = []
        block.append(row)
    if block:
        yield block


def _breaks(rows: list[Row]) -> set[int]:
    """The numbers of the rows that a blank line stands above: as in the plan, and around title, uses and modules."""
    breaks = {number for number, row in enumerate(rows) if row.apart}
    firsts = [number for number, row in enumerate(rows) if row.first]
    for before, after in pairwise(firsts):
        between = next((number for number in range(before + 1, after) if not rows[number].cells), after)
        keyword, following = rows[before].keyword, rows[after].keyword
        if keyword == "module" or following == "end":
            breaks -= {between if keyword == "module" else after}
        elif _is_parted(keyword, following) and breaks.isdisjoint(range(before + 1, after + 1)):
            breaks.add(between)
    return breaks


def _is_parted(keyword: str, following: str) -> bool:
    return keyword in ("plan", "end") or following == "module" or (keyword == "use") != (following == "use")


def _runs(block: list[Row]) -> Iterator[list[Row]]:
    """Lines that follow one another and belong to statements of one keyword."""
    return (list(run) for _, run in groupby(block, key=lambda row: row.keyword))


def _block_lines(block: list[Row]) -> Iterator[str]:
    others = {row.keyword for row in block} - {"", "type", *BESIDE_COLUMNS}
    beside = BESIDE_COLUMNS if others else (*BESIDE_COLUMNS, "type")
    coded = [_code(row, widths, beside) for run in _runs(block) for widths in (_widths(run),) for row in run]
    commented = [len(code) for row, code in zip(block, coded, strict=True) if code and row.comment]
    column = max((width for width in commented if width <= WIDEST_ALIGNED), default=0)
    for row, code in zip(block, coded, strict=True):
        if not row.comment:
            yield code
        elif code:
            yield f"{code:<{column}}  {row.comment}"
        else:
            yield _margin(row) + row.comment


def _code(row: Row, widths: dict[int, int], beside: tuple[str, ...]) -> str:
    if not row.cells or not any(row.cells):
        return ""
    keyword, *cells = row.cells
    head = keyword if row.keyword in beside and row.first else keyword.ljust(KEYWORD_COLUMNS)
    padded = [cell.ljust(widths.get(number, 0) if row.first else 0) for number, cell in enumerate(cells)]
    indent = "  " if _is_indented(row) else ""
    return (indent + " ".join([head, *padded])).rstrip()


def _widths(run: list[Row]) -> dict[int, int]:
    """How wide each column after the keyword is: as its widest cell that has another one behind it."""
    widths: dict[int, int] = {}
    for row in run:
        for number, cell in enumerate(row.cells[1:-1]):
            widths[number] = max(widths.get(number, 0), len(cell))
    return widths


def _margin(row: Row) -> str:
    """What stands before a comment that has a line to itself: as much as before the lines that it is among."""
    within = " " * (KEYWORD_COLUMNS + 1) if row.keyword and not row.first else ""
    return ("  " if _is_indented(row) else "") + within


def _is_indented(row: Row) -> bool:
    return row.inside and row.keyword not in ("module", "end")
