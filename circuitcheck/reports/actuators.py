"""What works a contact, as IEC 60617 draws it (from memory of its part 7): pressed, hit, turned, run against.

Each stands above a line that runs from left to right through the contact, in ladders and in wiring drawings alike.
"""

from typing import Final

ACTUATORS: Final = {
    "button": '<path class="thin" d="M0 -5V-14M-5 -11V-14H5V-11"/>',
    "estop": '<path class="thin" d="M0 -5V-14M-6 -14H6A6 5 0 0 0 -6 -14"/>',
    "switch": '<path class="thin" d="M0 -5V-14M-5 -11V-14H5V-17"/>',
    "limit": '<path class="thin" d="M-1 -5L5 -8V-14Z"/>',
    "cam": '<path class="thin" d="M-1 -5L5 -8V-14Z"/>',
}
"""By the kind of the part. A relay's contacts have nothing: its coil works them."""
