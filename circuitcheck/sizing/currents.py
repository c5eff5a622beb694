"""Running, starting and stall current of anything that carries loads' currents."""

from collections.abc import Iterable, Mapping
from typing import NamedTuple

from circuitcheck.analysis.routes import Share
from circuitcheck.circuit.model import Circuit
from circuitcheck.sizing.draws import Draw, Draws
from circuitcheck.sizing.greatest import Greatest, Part, Sums


class Currents(NamedTuple):
    """The most that flows, each with the loads that make it and a state in which they do.

    running: for as long as it likes. starting: for a moment, all that is fed starting at once. stalled: all running and
    one motor, the one for which it is most, held fast: after one fault.
    """

    running: Greatest
    starting: Greatest
    stalled: Greatest

    @property
    def lasting(self) -> float:
        """The most that can go on flowing, a stalled motor included."""
        return max(self.running.amount, self.stalled.amount)

    @property
    def exact(self) -> bool:
        """Are all three met in some state, rather than upper bounds?"""
        return all(one.exact for one in self)


def find_currents(circuit: Circuit, draws: Draws, sums: Sums, shares: Iterable[Share], limit: float = 0.0) -> Currents:
    """The currents of what carries these shares. limit: at which its supplies limit, 0 for no limit."""
    every = [(share, draws.of[share.load].at(circuit.loads[share.load], share)) for share in shares]
    starting = sums.greatest(
        [Part(share.load, draw.starting, share.states, share.side != "brake") for share, draw in every]
    )
    running = [_running(share, draw, draw.stalled) for share, draw in every]
    usual, held = sums.greatest(running), sums.greatest_held(running)
    stalled = max(usual, held, key=lambda one: one.amount)
    return Currents(usual.limited(limit), starting.limited(limit), stalled.limited(limit))


def lasting_if_guarded(
    circuit: Circuit, draws: Draws, sums: Sums, guarded: Mapping[Share, float], limit: float = 0.0
) -> float:
    """The most that goes on flowing if whatever is held fast draws no more than the amps that guard its share."""
    every = [(share, draws.of[share.load].at(circuit.loads[share.load], share)) for share in guarded]
    parts = [_running(share, draw, min(draw.stalled, guarded[share])) for share, draw in every]
    return max(one.limited(limit).amount for one in (sums.greatest(parts), sums.greatest_held(parts)))


def _running(share: Share, draw: Draw, stalled: float) -> Part:
    return Part(share.load, draw.running, share.states, held=max(0.0, stalled - draw.running))
