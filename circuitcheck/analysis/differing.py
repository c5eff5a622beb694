"""What two circuits that can be told apart do differently, and when."""

from collections.abc import Iterator
from typing import NamedTuple

from circuitcheck.analysis.seen import SUPPLIES, Seen
from circuitcheck.analysis.states import Spaces, States
from circuitcheck.analysis.telling_apart import Game, Played
from circuitcheck.analysis.telling_stories import Parting, shortest_parting
from circuitcheck.circuit.model import Circuit

Both = tuple[str, str]
"""What a device does in old, and what it does in new."""


class Differing(NamedTuple):
    """A device that does something else. words: the combinations of inputs in which that is met.

    agreeing: those in which it is met, by another way, that both do the same.
    """

    name: str
    kind: str
    words: dict[Both, States]
    agreeing: States


class Apart(NamedTuple):
    """Devices that hang together, and a way to see one of them differ; `ended`: each that does, in the end of it."""

    devices: tuple[Differing, ...]
    parting: Parting
    ended: tuple[tuple[str, Both], ...]


def differing_devices(circuit: Circuit, spaces: Spaces, game: Game, played: Played, seen: tuple[Seen, ...]) -> Apart:
    """All that is met in a game that was lost. circuit: for the digits, which both circuits have."""
    told = (*(one for one in seen if one.kind != "supply"), _supplies(game, spaces))
    words = [(one, dict(_words(game, one))) for one in told]
    parting = shortest_parting(game, played, _most_telling(game, played, words))
    state = 1 << game.space.number(parting.state)
    devices: list[Differing] = []
    ended: list[tuple[str, Both]] = []
    for one, pairs in words:
        ended += [(one.name, both) for both, bits in pairs.items() if bits & state and both[0] != both[1]]
        met = {both: bits & played.met & game.proper for both, bits in pairs.items()}
        differing = {
            both: _inputs(circuit, spaces, game, bits) for both, bits in met.items() if bits and both[0] != both[1]
        }
        if differing:
            same = 0
            for both, bits in met.items():
                same |= bits if both[0] == both[1] else 0
            devices.append(Differing(one.name, one.kind, differing, _inputs(circuit, spaces, game, same)))
    return Apart(tuple(devices), parting, tuple(ended))


def _supplies(game: Game, spaces: Spaces) -> Seen:
    """Whether something in the game is shorted, also while a switch is between positions."""
    cells = [
        {"shorted": spaces.over(game.space, bits), "not shorted": spaces.over(game.space, game.space.full ^ bits)}
        for bits in (game.old.shorted, game.new.shorted)
    ]
    return Seen(SUPPLIES, "supply", cells[0], cells[1])


def _most_telling(game: Game, played: Played, words: list[tuple[Seen, dict[Both, int]]]) -> int:
    """The pairs in which what is worst differs: a short, else a motor, else a lamp, else a relay."""
    met = played.met
    for kinds in (("supply",), ("motor",), ("lamp", "buzzer", "solenoid"), ("relay", "axis")):
        found = 0
        for one, pairs in words:
            for both, bits in pairs.items():
                if one.kind in kinds and both[0] != both[1]:
                    found |= bits & (game.space.full if one.kind == "supply" else game.proper)
        if found & met:
            return found
    raise LookupError("nothing differs that is seen")


def _words(game: Game, seen: Seen) -> Iterator[tuple[Both, int]]:
    """For each two words the pairs in which the one holds in old and the other in new."""
    alive = game.space.full & ~game.old.shorted & ~game.new.shorted
    for left, in_old in seen.old.items():
        for right, in_new in seen.new.items():
            bits = in_old.over(game.space) & in_new.over(game.space)
            bits &= game.space.full if seen.kind == "supply" else alive
            if bits:
                yield (left, right), bits


def _inputs(circuit: Circuit, spaces: Spaces, game: Game, bits: int) -> States:
    """The combinations of inputs, whatever relays do, as a set over what it depends on; moments count as a first
    position, since only positions are told apart."""
    states = spaces.over(game.space, bits)
    for digit in game.space.digits:
        if circuit.digits[digit].kind == "relay":
            states = states.turned(digit)
    states = states.tight()
    space, bits = states.space, states.bits
    for digit in space.digits:
        for moment in range(len(circuit.digits[digit].values), circuit.digits[digit].radix):
            bits |= space.moved(bits, digit, 0, moment)
    return spaces.over(space, bits).tight()
