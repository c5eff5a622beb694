"""Do two circuits behave alike? Decided over all states, in two steps.

In every combination: with a relay that both have at the same position in both, everything that is seen, and what moves
each relay, is the same set of states in both. Then they are alike whatever anybody does to them.

In operation: where some of it differs, what hangs together with that is played through from power-up
(telling_apart.py), each circuit with relays of its own. Circuits are alike where nobody who works both in the same way
can tell them apart by what is seen while they are at rest.
"""

from collections.abc import Iterator
from typing import NamedTuple

from circuitcheck.analysis.facts import Facts, analyse
from circuitcheck.analysis.influence import cone_of_influence, digits_of
from circuitcheck.analysis.pairs import game_of, seen_alike
from circuitcheck.analysis.seen import Seen, seen_devices
from circuitcheck.analysis.side_by_side import SideBySide, side_by_side
from circuitcheck.analysis.states import States
from circuitcheck.analysis.telling_apart import Game, Played, play
from circuitcheck.analysis.telling_stories import Parting, shortest_parting
from circuitcheck.circuit.model import Circuit, Digit, Relay


class Differing(NamedTuple):
    """A device that does something else. words: (in old, in new) → the combinations of inputs in which that is met.

    agreeing: those in which it is met, by another way, that both do the same.
    """

    name: str
    kind: str
    words: dict[tuple[str, str], States]
    agreeing: States


class Apart(NamedTuple):
    """Devices that hang together, and a way to see one of them differ; `ended`: its (name, in old, in new) in the end."""

    devices: tuple[Differing, ...]
    parting: Parting
    ended: tuple[tuple[str, str, str], ...]


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
    together = _Pair(side_by_side(old, new, parts, relays_together=True), parts)
    doubtful = together.doubtful()
    delays = tuple(_delays(old, new, together.laid.relays))
    if not doubtful:
        return Comparison(old.digits, (), delays, together.no_relay_alone, ())
    apart = _Pair(side_by_side(old, new, parts, relays_together=False), parts)
    found: list[Apart] = []
    for names in apart.groups(doubtful):
        game, seen = apart.game(names)
        played = play(game)
        if not played.same:
            found.append(_told(apart, game, played, seen))
    told = {device.name for one in found for device in one.devices}
    unreached = tuple(one.name for one in together.seen if not one.same and one.name not in told)
    return Comparison(apart.laid.old.digits, tuple(found), delays, False, unreached)


class _Pair:
    """Two circuits laid side by side, and what holds of them."""

    def __init__(self, laid: SideBySide, parts: dict[str, str]) -> None:
        self.laid = laid
        self.facts = analyse(laid.old), analyse(laid.new)
        self.seen = seen_devices(*self.facts, parts, laid.relays)
        names = {axis.name: number for number, axis in enumerate(laid.new.axes)}
        self.axes = [
            (number, names[parts[axis.name]])
            for number, axis in enumerate(laid.old.axes)
            if parts.get(axis.name) in names and axis.digit == laid.new.axes[names[parts[axis.name]]].digit
        ]
        self._depending = dict(self._dependencies())

    @property
    def no_relay_alone(self) -> bool:
        """Has each relay its counterpart?"""
        return len(self.laid.relays) == len(self.laid.old.relays) == len(self.laid.new.relays)

    def doubtful(self) -> frozenset[str]:
        """What is not seen to be the same by the sets of states alone, relays standing together."""
        moved = {
            digit for left, right in self.laid.relays if not self._moves_alike(left, right) for digit in self._digits(left, right)
        }
        moved |= {one for facts in self.facts for one in self._alone(facts)}
        moved |= {axis.digit for one in self.seen if one.kind == "axis" and not one.same
                  for facts in self.facts for axis in facts.circuit.axes if facts.circuit.digits[axis.digit].name == one.name}  # fmt: skip
        return frozenset(one.name for one in self.seen if not one.same or self.cone(one.digits) & moved or self._is_moved(one, moved))

    def _is_moved(self, seen: Seen, moved: set[int]) -> bool:
        return seen.kind == "relay" and bool(seen.digits & moved)

    def _digits(self, left: int, right: int) -> tuple[int, int]:
        return self.laid.old.relays[left].digit, self.laid.new.relays[right].digit

    def _alone(self, facts: Facts) -> Iterator[int]:
        paired = {digit for pair in self.laid.relays for digit in self._digits(*pair)}
        return (relay.digit for relay in facts.circuit.relays if relay.digit not in paired)

    def _moves_alike(self, left: int, right: int) -> bool:
        moves = self.facts[0].moves[left], self.facts[1].moves[right]
        same_kinds = [move[1:3] + move[4:] for move in moves[0]] == [move[1:3] + move[4:] for move in moves[1]]
        functions = self.laid.old.relays[left].function == self.laid.new.relays[right].function
        return same_kinds and functions and all(a.wanted.same_as(b.wanted) for a, b in zip(*moves, strict=True))

    def cone(self, digits: frozenset[int]) -> frozenset[int]:
        """The digits with all that have a say in them in either circuit."""
        return cone_of_influence(digits, lambda digit: self._depending.get(digit, frozenset()))

    def _dependencies(self) -> Iterator[tuple[int, frozenset[int]]]:
        found: dict[int, frozenset[int]] = {}
        for facts in self.facts:
            for relay, moves in zip(facts.circuit.relays, facts.moves, strict=True):
                found[relay.digit] = found.get(relay.digit, frozenset()) | digits_of(*(move.wanted for move in moves))
        for left, right in self.laid.relays:
            one, other = self._digits(left, right)
            found[one], found[other] = found[one] | {other}, found[other] | {one}
        for seen in self.seen:
            if seen.kind == "axis":
                for facts in self.facts:
                    digits = (axis.digit for axis in facts.circuit.axes if facts.circuit.digits[axis.digit].name == seen.name)
                    found.update((digit, found.get(digit, frozenset()) | seen.digits) for digit in digits)
        return iter(found.items())

    def groups(self, names: frozenset[str]) -> Iterator[tuple[str, ...]]:
        """What is doubtful, in groups that share nothing but inputs."""
        moving = {number for number, digit in enumerate(self.laid.old.digits) if digit.kind in ("relay", "axis")}
        groups: list[tuple[list[str], frozenset[int]]] = []
        for one in self.seen:
            if one.name in names:
                own = self.cone(one.digits)
                touching = [group for group in groups if group[1] & own & moving]
                groups = [group for group in groups if group not in touching]
                joined = [name for group in touching for name in group[0]]
                groups.append(([*joined, one.name], own.union(*(group[1] for group in touching))))
        return (tuple(group[0]) for group in groups)

    def game(self, names: tuple[str, ...]) -> tuple[Game, tuple[Seen, ...]]:
        """The game over all that some devices depend on, and what is seen of it."""
        asked = frozenset(digit for one in self.seen if one.name in names for digit in one.digits)
        space = self.facts[0].spaces.of(self.cone(asked))
        seen = tuple(one for one in self.seen if one.name in names or (one.kind != "supply" and one.digits <= set(space.digits)))
        axes = [pair for pair in self.axes if self.laid.old.axes[pair[0]].digit in space.digits]
        relays = [pair for pair in self.laid.relays if self._digits(*pair)[0] in space.digits]
        return game_of(*self.facts, space, seen, axes, relays), seen


def _delays(old: Circuit, new: Circuit, relays: tuple[tuple[int, int], ...]) -> Iterator[Delay]:
    for left, right in relays:
        one, other = old.relays[left], new.relays[right]
        if one.delay_seconds != other.delay_seconds:
            yield Delay(one.name, one.delay_seconds, other.delay_seconds)


def _told(pair: _Pair, game: Game, played: Played, seen: tuple[Seen, ...]) -> Apart:
    sides = game.old, game.new
    apart = (sides[0].shorted ^ sides[1].shorted) | ~game.seen_alike
    parting = shortest_parting(game, played, apart & game.space.full)
    state = 1 << game.space.number(parting.state)
    devices, ended = [], []
    shorts = Seen("supplies", "supply", *({"shorted": _over(pair, game, side.shorted), "not shorted": _over(pair, game, game.space.full ^ side.shorted)} for side in sides))
    for one in (*(one for one in seen if one.kind != "supply"), shorts):
        words = dict(_words(game, one, one.kind == "supply"))
        ended += [(one.name, *both) for both, bits in words.items() if bits & state and both[0] != both[1]]
        met = {both: bits & played.met & game.proper for both, bits in words.items()}
        differing = {both: _inputs(pair, game, bits) for both, bits in met.items() if bits and both[0] != both[1]}
        if differing:
            same = 0
            for both, bits in met.items():
                same |= bits if both[0] == both[1] else 0
            devices.append(Differing(one.name, one.kind, differing, _inputs(pair, game, same)))
    return Apart(tuple(devices), parting, tuple(ended))


def _over(pair: _Pair, game: Game, bits: int) -> States:
    return pair.facts[0].spaces.over(game.space, bits)


def _words(game: Game, seen: Seen, shorted_too: bool) -> Iterator[tuple[tuple[str, str], int]]:
    """For each two words the pairs in which the one holds in old and the other in new."""
    alive = game.space.full if shorted_too else game.space.full & ~game.old.shorted & ~game.new.shorted
    for left, in_old in seen.old.items():
        for right, in_new in seen.new.items():
            bits = in_old.over(game.space) & in_new.over(game.space) & alive
            if bits:
                yield (left, right), bits


def _inputs(pair: _Pair, game: Game, bits: int) -> States:
    """The combinations of inputs, whatever relays do, as a set over what it depends on; moments count as a first
    position, since only positions are told apart."""
    states = pair.facts[0].spaces.over(game.space, bits)
    digits = pair.laid.old.digits
    for digit in game.space.digits:
        if digits[digit].kind == "relay":
            states = states.turned(digit)
    states = states.tight()
    space, bits = states.space, states.bits
    for digit in space.digits:
        for moment in range(len(digits[digit].values), digits[digit].radix):
            bits |= space.moved(bits, digit, 0, moment)
    return pair.facts[0].spaces.over(space, bits).tight()
