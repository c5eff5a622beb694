"""How long relays take to move, where the plan says so.

A plain diode straight across a coil (wires alone lead to both its ends) lets the coil's current last: then the longer
release time counts. A latching relay's reset is a coil's doing too, which no diode makes slower.
"""

from math import ceil, floor
from typing import Final, NamedTuple

from circuitcheck.analysis.network import joined_terminals
from circuitcheck.analysis.time_left import ANY_TIME, Range
from circuitcheck.circuit.model import Circuit

NANOSECONDS: Final = 10**9


class MoveTimes(NamedTuple):
    """From when a relay begins to want a move to when it makes it, if it goes on wanting it."""

    operate: Range
    release: Range


ANY_MOVE_TIMES: Final = MoveTimes(ANY_TIME, ANY_TIME)


def move_times(circuit: Circuit) -> dict[int, MoveTimes]:
    """The times of the relays that have any, by number."""
    timed = {
        number: relay for number, relay in enumerate(circuit.relays) if relay.operate_seconds or relay.release_seconds
    }
    if not timed:
        return {}
    slowed = coils_with_diode(circuit)
    return {
        number: MoveTimes(
            _nanoseconds(relay.operate_seconds),
            _nanoseconds(relay.release_with_diode_seconds if number in slowed else relay.release_seconds),
        )
        for number, relay in timed.items()
    }


def coils_with_diode(circuit: Circuit) -> frozenset[int]:
    """The relays, by number, whose release a plain diode straight across the coil makes slower."""
    nets = joined_terminals(circuit, frozenset({"wire"}))
    diodes = {frozenset((nets[one.a], nets[one.b])) for one in circuit.suppressors if one.kind == "diode"}
    coils = ((number, relay, circuit.loads[relay.coil.load]) for number, relay in enumerate(circuit.relays))
    return frozenset(
        number
        for number, relay, coil in coils
        if relay.reset is None and frozenset((nets[coil.a], nets[coil.b])) in diodes
    )


def _nanoseconds(seconds: tuple[float, float] | None) -> Range:
    """Whole ones, so that sums are exact; what isn't whole is taken wider."""
    if seconds is None:
        return ANY_TIME
    least, greatest = (round(one * NANOSECONDS, 3) for one in seconds)
    return floor(least), ceil(greatest)
