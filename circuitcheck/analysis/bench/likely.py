"""Which faults are the likelier ones.

Open circuits come first: broken wires, open contacts and blown fuses are the likeliest failures (Lessons in Electric
Circuits vol. IV ch. 6). The order of the rest is common practice, no source: what moves and is knocked about before
what only carries current, contacts before coils, and windings or wires that short last.
"""

from typing import Final

from circuitcheck.analysis.faults.fault import Fault

ORDER: Final = (
    "wire open",
    "pin open",
    "contact does not close",
    "fuse blown",
    "supply lost",
    "limit torn off",
    "limit moved",
    "limit stuck",
    "switch stuck",
    "load open",
    "motor open",
    "contact does not open",
    "relay stuck released",
    "relay stuck operated",
    "coil open",
    "supply reversed",
    "diode shorted",
    "diode open",
    "pins touching",
    "terminals touching",
    "wire to frame",
    "brush to case",
    "motor shorted",
    "load shorted",
    "coil shorted",
    "suppressor shorted",
    "suppressor open",
    "both throws closed",
)
"""Kinds of faults, the likeliest first."""


def rank(fault: Fault) -> int:
    """The lower the likelier."""
    return ORDER.index(fault.kind)
