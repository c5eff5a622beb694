"""Graphic symbols of a ladder in SVG, after IEC 60617 (from memory of its parts 2 to 8), lying in a line that runs from
left to right through their middle; every contact as it is with nothing worked.

A bar straight through a contact (`bridge`) is shown only where its group has the class `closed`.
"""

from typing import Final

HALF: Final = 14
"""How far a symbol reaches to the left and to the right of its middle."""

MAKE = '<path d="M-14 0H-8L9 -9M8 0H14"/>'
BREAK = '<path d="M-14 0H-8L11 -8M8 0V-9M8 0H14"/>'
BRIDGE = '<path class="bridge" d="M-14 0H14"/>'
ROUND = '<path d="M-14 0H-11M11 0H14"/><circle r="11" fill="none"/>'

SHAPES: Final = {
    "make": MAKE + BRIDGE,
    "break": BREAK + BRIDGE,
    "fuse": '<path d="M-14 0H14M-12 -5H12V5H-12Z"/>',
    "diode": '<path d="M-14 0H14M-6 -7V7L6 0ZM6 -7V7"/>',
    "diode back": '<path d="M-14 0H14M6 -7V7L-6 0ZM-6 -7V7"/>',
    "point": '<circle r="3.5" class="paper"/>',
    "coil": '<path d="M-14 0H-9M9 0H14M-9 -10H9V10H-9Z"/>',
    "motor": ROUND + '<path class="letter" d="M-4 5V-5L0 1L4 -5V5"/>',
    "lamp": ROUND + '<path d="M-7.8 -7.8L7.8 7.8M-7.8 7.8L7.8 -7.8"/>',
    "buzzer": '<path d="M-14 0H-8M8 0H14M-10 0A10 10 0 0 1 10 0ZM-8 0V4M8 0V4"/>',
    "resistor": '<path d="M-14 0H-12M12 0H14M-12 -5H12V5H-12Z"/>',
    "solenoid": '<path d="M-14 0H-9M9 0H14M-9 -10H9V10H-9ZM-9 10L9 -10"/>',
}
