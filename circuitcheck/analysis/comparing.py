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
from circuitcheck.analysis.matching import match_words
from circuitcheck.analysis.side_by_side import side_by_side
from circuitcheck.analysis.telling_apart import play
from circuitcheck.circuit.model import Circuit, Digit


class Delay(NamedTuple):
    """A timing relay that takes another time; seconds, 0 for one that doesn't wait."""

    relay: str
    old: float
    new: float


class Position(NamedTuple):
    """A position that a switch has only in `side`, "old" or "new"; in the other circuit it counts as all open."""

    control: str
    word: str
    side: str


class Comparison(NamedTuple):
    """digits: those of both circuits. apart, delays, positions: what differs. everywhere: they are alike in every
    combination. unreached: devices that do something else only where operation doesn't get to."""

    digits: tuple[Digit, ...]
    apart: tuple[Apart, ...]
    delays: tuple[Delay, ...]
    positions: tuple[Position, ...]
    everywhere: bool
    unreached: tuple[str, ...]

    @property
    def same(self) -> bool:
        """Is the behaviour the same?"""
        return not (self.apart or self.delays or self.positions)


def compare_behaviour(old: Circuit, new: Circuit, parts: dict[str, str]) -> Comparison:
    """parts: from match_parts. TooWide or TooManyCases where there is no exact answer within reach."""
    together = BothBoxes(side_by_side(old, new, parts, relays_together=True), parts)
    doubtful = together.doubtful()
    delays = tuple(_delays(old, new, together.laid.relays))
    positions = tuple(_positions(old, new, parts))
    if not doubtful:
        everywhere = together.no_relay_alone and not delays and not positions
        return Comparison(together.laid.old.digits, (), delays, positions, everywhere, ())
    boxes = BothBoxes(side_by_side(old, new, parts, relays_together=False), parts)
    apart: list[Apart] = []
    for names in boxes.groups(doubtful):
        game, seen = boxes.game(names)
        played = play(game)
        if not played.same:
            apart.append(differing_devices(boxes.laid.old, boxes.facts[0].spaces, game, played, seen))
    told = {device.name for one in apart for device in one.devices}
    unreached = (one.name for one in together.seen if one.kind != "axis" and not one.same and one.name not in told)
    return Comparison(boxes.laid.old.digits, tuple(apart), delays, positions, False, tuple(unreached))


def _delays(old: Circuit, new: Circuit, relays: tuple[tuple[int, int], ...]) -> Iterator[Delay]:
    for left, right in relays:
        one, other = old.relays[left], new.relays[right]
        if one.delay_seconds != other.delay_seconds:
            yield Delay(one.name, one.delay_seconds, other.delay_seconds)
        if one.pause_seconds != other.pause_seconds:
            yield Delay(one.name, one.pause_seconds, other.pause_seconds)


def _positions(old: Circuit, new: Circuit, parts: dict[str, str]) -> Iterator[Position]:
    others = {digit.name: digit for digit in new.digits}
    for digit in old.digits:
        other = others.get(parts.get(digit.name, ""))
        if other is not None and digit.kind == other.kind == "control":
            words = match_words(digit.values, other.values)
            for word in digit.values:
                if word not in words:
                    yield Position(digit.name, word, "old")
            for word in other.values:
                if word not in words.values():
                    yield Position(digit.name, word, "new")
