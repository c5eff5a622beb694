"""Direct-current volts of a small network of resistors, diodes and sources, by modified nodal analysis.

Unknown are the volts of each net and the current of each source. A diode is off, or stands for 0.7 V with 10 milliohm
in series; which it is, is found by turning round the first diode that contradicts its own volts or current until none
does (Murty's least-index rule for a linear complementarity problem, which ends for such networks).
"""

from typing import Final, NamedTuple

DIODE_VOLTS: Final = 0.7
DIODE_OHMS: Final = 0.01
LEAK_SIEMENS: Final = 1e-12
"""Joins every net to ground, so that one which nothing else holds has volts at all."""
SOURCE_OHMS: Final = 1e-6
"""Keeps two equal supplies side by side from being a riddle."""
SLACK: Final = 1e-9


class Branch(NamedTuple):
    """kind "resistor" (value in ohms), "diode" (from `a` to `b`) or "source" (value in volts, `a` its plus)."""

    a: int
    b: int
    kind: str
    value: float


class NoOperatingPoint(Exception):
    """The network has no state in which all diodes agree with their volts: it is beyond this model."""


def solve_network(branches: list[Branch], joined: list[tuple[int, int]]) -> dict[int, float]:
    """The volts of each net against some ground; `joined` nets are one. NoOperatingPoint where there is none."""
    place = _places(branches, joined)
    diodes = [number for number, branch in enumerate(branches) if branch.kind == "diode"]
    conducting: set[int] = set()
    for _ in range(4 * 2 ** min(len(diodes), 12)):
        volts = _solve(branches, place, conducting)
        wrong = [number for number in diodes if _contradicts(branches[number], place, volts, number in conducting)]
        if not wrong:
            return {net: volts[position] for net, position in place.items()}
        conducting ^= {wrong[0]}
    raise NoOperatingPoint


def _places(branches: list[Branch], joined: list[tuple[int, int]]) -> dict[int, int]:
    """A row of the equations for each net; joined nets share one."""
    place: dict[int, int] = {}
    for branch in branches:
        for net in (branch.a, branch.b):
            place.setdefault(net, len(place))
    for a, b in joined:
        place.setdefault(a, len(place))
        place.setdefault(b, len(place))
        old, new = place[b], place[a]
        place = {net: new if position == old else position for net, position in place.items()}
    order = {position: number for number, position in enumerate(sorted(set(place.values())))}
    return {net: order[position] for net, position in place.items()}


def _contradicts(diode: Branch, place: dict[int, int], volts: list[float], conducts: bool) -> bool:
    across = volts[place[diode.a]] - volts[place[diode.b]] - DIODE_VOLTS
    return across < -SLACK if conducts else across > SLACK


def _solve(branches: list[Branch], place: dict[int, int], conducting: set[int]) -> list[float]:
    nets = len(set(place.values()))
    sources = [branch for branch in branches if branch.kind == "source"]
    size = nets + len(sources)
    matrix = [[0.0] * (size + 1) for _ in range(size)]
    for row in range(nets):
        matrix[row][row] = LEAK_SIEMENS
    for number, branch in enumerate(branches):
        a, b = place[branch.a], place[branch.b]
        if branch.kind == "resistor":
            _conduct(matrix, a, b, 1 / branch.value, 0.0)
        elif number in conducting:
            _conduct(matrix, a, b, 1 / DIODE_OHMS, DIODE_VOLTS)
    for row, source in enumerate(sources, nets):
        a, b = place[source.a], place[source.b]
        for net, sign in ((a, 1.0), (b, -1.0)):
            matrix[net][row] += sign
            matrix[row][net] += sign
        matrix[row][row] = -SOURCE_OHMS
        matrix[row][size] = source.value
    return _eliminate(matrix)[:nets]


def _conduct(matrix: list[list[float]], a: int, b: int, siemens: float, drop: float) -> None:
    for net, other, sign in ((a, b, 1.0), (b, a, -1.0)):
        matrix[net][net] += siemens
        matrix[net][other] -= siemens
        matrix[net][-1] += sign * siemens * drop


def _eliminate(matrix: list[list[float]]) -> list[float]:
    """Solves the augmented system by Gauss-Jordan elimination with partial pivoting."""
    size = len(matrix)
    for column in range(size):
        pivot = max(range(column, size), key=lambda row: abs(matrix[row][column]))
        if abs(matrix[pivot][column]) < 1e-30:
            raise NoOperatingPoint
        matrix[column], matrix[pivot] = matrix[pivot], matrix[column]
        top = matrix[column]
        scale = 1 / top[column]
        matrix[column] = top = [value * scale for value in top]
        for row in range(size):
            factor = matrix[row][column]
            if row != column and factor:
                matrix[row] = [value - factor * high for value, high in zip(matrix[row], top, strict=True)]
    return [row[-1] for row in matrix]
