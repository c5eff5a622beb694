"""Do two circuits behave alike? Decided over all states, in two steps.

In every combination: with a relay that both have at the same position in both, everything that is seen, and what moves
each relay, is the same set of states in both. Then they are alike whatever anybody does to them.

In operation: where some of it differs, what hangs together with that is played through from power-up
(telling_apart.py), each circuit with relays of its own. Circuits are alike where nobody who works both in the same way
can tell them apart by what is seen while they are at rest.
"""

from collections.abc import Iterator
from typing import NamedTuple

from circuitcheck.analysis.both_boxes import BothBoxes
from circuitcheck.analysis.differing import Apart, differing_devices
from circuitcheck.analysis.side_by_side import side_by_side
from circuitcheck.analysis.telling_apart import play
from circuitcheck.circuit.model import Circuit, Digit


class Delay(NamedTuple):
    """A timing relay that takes another time; seconds, 0 for one that doesn't wait."""

    relay: str
    old: float
    new: float


class Comparison(NamedTuple):
    """digits: those of both circuits. everywhere: they are alike in every combination. unreached: devices that do
    something else only where operation doesn't get to."""

    digits: tuple[Digit, ...]
    apart: tuple[Apart, ...]
    delays: tuple[Delay, ...]
    everywhere: bool
    unreached: tuple[str, ...]

    @property
    def same(self) -> bool:
        """Is the behaviour the same?"""
        return not self.apart and not self.delays


def compare_behaviour(old: Circuit, new: Circuit, parts: dict[str, str]) -> Comparison:
    """parts: from match_parts. TooWide or TooManyCases where there is no exact answer within reach."""
    together = BothBoxes(side_by_side(old, new, parts, relays_together=True), parts)
    doubtful = together.doubtful()
    delays = tuple(_delays(old, new, together.laid.relays))
    if not doubtful:
        return Comparison(together.laid.old.digits, (), delays, together.no_relay_alone, ())
    boxes = BothBoxes(side_by_side(old, new, parts, relays_together=False), parts)
    apart: list[Apart] = []
    for names in boxes.groups(doubtful):
        game, seen = boxes.game(names)
        played = play(game)
        if not played.same:
            apart.append(differing_devices(boxes.laid.old, boxes.facts[0].spaces, game, played, seen))
    told = {device.name for one in apart for device in one.devices}
    unreached = (one.name for one in together.seen if one.kind != "axis" and not one.same and one.name not in told)
    return Comparison(boxes.laid.old.digits, tuple(apart), delays, False, tuple(unreached))


def _delays(old: Circuit, new: Circuit, relays: tuple[tuple[int, int], ...]) -> Iterator[Delay]:
    for left, right in relays:
        one, other = old.relays[left], new.relays[right]
        if one.delay_seconds != other.delay_seconds:
            yield Delay(one.name, one.delay_seconds, other.delay_seconds)
