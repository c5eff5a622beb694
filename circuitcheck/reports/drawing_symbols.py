"""Graphics of IEC 60617 for what joins two terminals, each from its terminal a at the left to b at the right.

Every graphic lies between -15 and 15 across and between -10 and 10 high, and is turned and moved to where it belongs.
(The shapes are from memory.)
"""

from typing import Final

HALF: Final = 15
"""Half the length of a graphic, its leads included."""

_LEADS = '<path class="line" d="M-15 0H{0}M{1} 0H15"/>'
_COIL = '<rect class="line field" x="-6" y="-9" width="12" height="18"/>' + _LEADS.format(-6, 6)
_BODY = '<rect class="line field" x="-10" y="-4" width="20" height="8"/>'
_ROUND = '<circle class="line field" r="9"/>' + _LEADS.format(-9, 9)

GRAPHICS: Final = {
    "coil": _COIL,
    "input": _COIL,
    "solenoid": _COIL + '<path class="line" d="M-6 -9L6 9"/>',
    "lamp": _ROUND + '<path class="line" d="M-6.4 -6.4L6.4 6.4M-6.4 6.4L6.4 -6.4"/>',
    "motor": _ROUND,
    "buzzer": '<path class="line field" d="M-8 5A8 8 0 0 1 8 5Z"/><path class="line" d="M-15 0H-13V5H-4M15 0H13V5H4"/>',
    "resistor": _BODY + _LEADS.format(-10, 10),
    "varistor": _BODY + _LEADS.format(-10, 10) + '<path class="line" d="M-9 8H-5L6 -8"/>',
    "tvs": (
        '<path class="line" d="M-15 0H15M0 -6V6M-3 -6H3M-3 6H3"/>'
        '<path class="line full" d="M-9 -5V5L0 0ZM9 -5V5L0 0Z"/>'
    ),
    "rc": '<path class="line" d="M-15 0H-12M-2 0H5M9 0H15M5 -7V7M9 -7V7"/>'
    '<rect class="line field" x="-12" y="-4" width="10" height="8"/>',
    "fuse": _BODY + '<path class="line" d="M-15 0H15"/>',
    "diode": '<path class="line" d="M-15 0H15M5 -6V6"/><path class="line full" d="M-5 -6V6L5 0Z"/>',
    "pin": (
        '<path class="line" d="M-15 0H-2M3 0H15M3 -5A5 5 0 0 0 3 5"/><path class="line full" d="M-10 -2H-2V2H-10Z"/>'
    ),
    "bond": '<path class="line" d="M-15 0H15"/>',
    "contact": (
        _LEADS.format(-9, 9) + '<path class="line gap" d="M-9 0L8 -8"/><path class="line blade" d="M-9 0H10"/>'
    ),
    "break contact": (
        _LEADS.format(-9, 9)
        + '<path class="line" d="M9 0V-7"/>'
        + '<path class="line gap" d="M-9 0L8 -11"/><path class="line blade" d="M-9 0L11 -6"/>'
    ),
}
"""By the kind of what it shows. `gap` is seen while a contact is open, `blade` while it is closed."""
