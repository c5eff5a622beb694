"""Every kind of part: its keyword in a plan → what may be said of it and how it becomes pieces of a circuit.

A new kind of part is one file of this folder, one line here and its keyword in the grammar.
"""

from circuitcheck.circuit.catalogue import (
    axes_and_limits,
    buttons,
    hand_switches,
    joining,
    loads,
    motors,
    outside,
    relays,
    supplies_and_fuses,
    suppression,
)
from circuitcheck.circuit.catalogue.pieces import Kind

KINDS: dict[str, Kind] = {
    **supplies_and_fuses.KINDS,
    **hand_switches.KINDS,
    **buttons.KINDS,
    **relays.KINDS,
    **suppression.KINDS,
    **loads.KINDS,
    **motors.KINDS,
    **axes_and_limits.KINDS,
    **joining.KINDS,
    **outside.KINDS,
}
