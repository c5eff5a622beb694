"""How long relays and contacts take, for how far a motor turns meanwhile.

Where the plan gives no times, these stand in, and whoever reads the result is told so. Release: at most 5 ms (Omron G5Q
data sheet) to 10 ms (Panasonic automotive relays); with a diode across the coil three times as long (Finder 99.01
module; a measured cube relay began to open after 8 ms and its current took 25 to 30 ms to die). Operate: at most 10 ms
(both), 15 ms (Omron G2R, from memory). The way of a contact from one side to the other: common practice, no source.
"""

from typing import Final, NamedTuple

from circuitcheck.analysis.move_times import NANOSECONDS, coils_with_diode, move_times
from circuitcheck.analysis.time_left import ANY_TIME, Range
from circuitcheck.circuit.figures import Span
from circuitcheck.circuit.model import Circuit

USUAL_OPERATE: Final = (0.003, 0.015)
USUAL_RELEASE: Final = (0.001, 0.010)
USUAL_RELEASE_WITH_DIODE: Final = (0.003, 0.030)
TRANSFER: Final = (0.001, 0.005)
"""From when a contact leaves one side to when it touches the other; the motor's leads are open meanwhile."""


class ContactTimes(NamedTuple):
    """Of one relay, in seconds. told: is it the plan's own? slowed: does a diode across the coil slow its release?"""

    operate: Span
    release: Span
    operate_told: bool
    release_told: bool
    slowed: bool


def contact_times(circuit: Circuit) -> dict[int, ContactTimes]:
    """Of every relay, by number."""
    given, slowed = move_times(circuit), coils_with_diode(circuit)
    times = {}
    for number in range(len(circuit.relays)):
        operate, release = given.get(number, (ANY_TIME, ANY_TIME))
        usual = USUAL_RELEASE_WITH_DIODE if number in slowed else USUAL_RELEASE
        times[number] = ContactTimes(
            _seconds(operate, USUAL_OPERATE),
            _seconds(release, usual),
            operate != ANY_TIME,
            release != ANY_TIME,
            number in slowed,
        )
    return times


def _seconds(given: Range, usual: Span) -> Span:
    return usual if given == ANY_TIME else (given[0] / NANOSECONDS, given[1] / NANOSECONDS)
