"""Ranges in words, each with its unit."""

from collections.abc import Callable
from math import ceil, floor, isclose, isinf, log10
from typing import Final

from circuitcheck.analysis.motion.constants import RAD_PER_DEGREE
from circuitcheck.analysis.motion.rooms import shaft_metres
from circuitcheck.circuit.figures import Span
from circuitcheck.circuit.model import Axis

DEGREES: Final = 1 / RAD_PER_DEGREE
MILLIMETRES: Final = 1e3


def span_words(span: Span, factor: float, unit: str = "") -> str:
    """ "5.01..19.7 deg": the least rounded down, the greatest up, so that nothing falls outside."""
    least, greatest = span[0] * factor, span[1] * factor
    if isinf(least):
        return "no end"
    if isclose(least, greatest):
        return f"{least:.3g} {unit}".rstrip()
    return f"{_rounded(least, floor)}..{_rounded(greatest, ceil)} {unit}".rstrip()


def _rounded(value: float, toward: Callable[[float], int]) -> str:
    if isinf(value):
        return "no end"
    if abs(value) < 1e-9:
        return "0"
    scale = 10.0 ** ((2 if abs(value) >= 10 else 1) - floor(log10(abs(value))))
    return f"{toward(round(value * scale, 6)) / scale:g}"


def turn_words(axis: Axis | None, turns: Span) -> str:
    """How far, in what the axis is measured in: degrees of the output shaft, or mm of what its drum winds."""
    metres = axis and shaft_metres(axis)
    if metres:
        return span_words((turns[0] * metres[0], turns[1] * metres[1]), MILLIMETRES, "mm")
    return span_words(turns, DEGREES, "deg")
