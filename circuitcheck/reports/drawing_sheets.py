"""On which sheets of paper a wiring drawing can be read."""

from typing import Final

from circuitcheck.drawing.boxes import LETTERS
from circuitcheck.drawing.drawing import Drawing

SHEETS: Final = {"A4": (297, 210), "A3": (420, 297), "A2": (594, 420), "A1": (841, 594), "A0": (1189, 841)}
"""Millimetres, by ISO 216."""
EDGE: Final = 20
"""Millimetres that both margins of a sheet take."""
LEGIBLE: Final = 1.3
"""The height of letters, in millimetres, that a builder reads at arm's length (common practice, no source)."""


def sheet_words(drawing: Drawing) -> str:
    """Which sheet the drawing needs where A4 is too small, in a sentence; "" where it suffices."""
    if _letters(drawing, SHEETS["A4"]) >= LEGIBLE:
        return ""
    name = next((name for name, sheet in SHEETS.items() if _letters(drawing, sheet) >= LEGIBLE), "")
    if not name:
        return "Too large to be read on any sheet: look at it on a screen, where it can be enlarged."
    return f"To be read on paper it needs {name} or larger."


def _letters(drawing: Drawing, sheet: tuple[int, int]) -> float:
    """How high letters are, whichever way the sheet lies."""
    long, short = (side - EDGE for side in sheet)
    ways = ((long, short), (short, long))
    # A plan without parts has a drawing without any extent.
    width, height = max(drawing.width, 1.0), max(drawing.height, 1.0)
    return LETTERS * max(min(across / width, down / height) for across, down in ways)
