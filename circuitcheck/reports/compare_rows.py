"""In which combinations of inputs which device does what else, merged into rows like those of the truth table."""

from itertools import product
from math import prod
from typing import NamedTuple

from circuitcheck.analysis.comparing import Comparison
from circuitcheck.analysis.differing import Apart, Differing
from circuitcheck.analysis.states import States
from circuitcheck.analysis.table import MOST_ROWS, TooManyRows
from circuitcheck.reports.table_rows import ANY, MOST_COMBINATIONS, merged

ARROW = " → "
OR_AS_BEFORE = " or as before"


class Row(NamedTuple):
    """given: input to position, or ANY. devices: by name, each "in old → in new", "" where it does the same."""

    given: dict[str, str]
    devices: dict[str, str]


def shown_devices(apart: Apart) -> list[Differing]:
    """Those that rows tell of; where an axis goes is told by its motors."""
    motors = any(one.kind == "motor" for one in apart.devices)
    return [one for one in apart.devices if one.kind != "axis" or not motors]


def compare_rows(comparison: Comparison, apart: Apart) -> list[Row]:
    """The rows, in order of their inputs. TooManyRows where there are more than anybody would read."""
    devices = shown_devices(apart)
    inputs = sorted(
        {digit for one in devices for states in (*one.words.values(), one.agreeing) for digit in states.space.digits}
    )
    digits = [comparison.digits[number] for number in inputs]
    sizes = tuple(len(digit.values) for digit in digits)
    if prod(sizes) > MOST_COMBINATIONS:
        raise TooManyRows
    columns = [_column(one, inputs, sizes) for one in devices]
    words = tuple(zip(*columns, strict=True)) if columns else ()
    rows = []
    for pattern, cells in merged(words, sizes) if words else ():
        if cells is not None and any(cells):
            given = {
                digit.name: ANY if at is None else digit.values[at] for digit, at in zip(digits, pattern, strict=True)
            }
            order = [-1 if at is None else at for at in pattern]
            rows.append((order, Row(given, {one.name: cell for one, cell in zip(devices, cells, strict=True)})))
        if len(rows) > MOST_ROWS:
            raise TooManyRows
    return [row for _, row in sorted(rows, key=lambda one: one[0])]


def _column(device: Differing, inputs: list[int], sizes: tuple[int, ...]) -> list[str]:
    """The device's cell in each combination, the first input changing slowest."""
    told = [(f"{old}{ARROW}{new}", _members(states, inputs, sizes)) for (old, new), states in device.words.items()]
    agreeing = _members(device.agreeing, inputs, sizes)
    cells = []
    for number, alike in enumerate(agreeing):
        here = [text for text, inside in told if inside[number]]
        cells.append(" or ".join(here) + (OR_AS_BEFORE if here and alike else ""))
    return cells


def _members(states: States, inputs: list[int], sizes: tuple[int, ...]) -> list[bool]:
    space, bits = states.space, states.bits
    strides = [space.strides[space.index(digit)] if digit in space.digits else 0 for digit in inputs]
    positions = product(*map(range, sizes))
    return [bool(bits >> sum(map(int.__mul__, position, strides)) & 1) for position in positions]
