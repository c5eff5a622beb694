"""What holds of two circuits side by side, and what of it hangs together."""

from collections.abc import Iterator

from circuitcheck.analysis.facts import analyse
from circuitcheck.analysis.influence import cone_of_influence, digits_of
from circuitcheck.analysis.pairs import game_of
from circuitcheck.analysis.seen import Seen, seen_devices
from circuitcheck.analysis.side_by_side import SideBySide
from circuitcheck.analysis.telling_apart import Game


class BothBoxes:
    """Two circuits laid side by side, the facts of each, and what is seen of them.

    axes: (old's number, new's) of those that are one digit.
    """

    def __init__(self, laid: SideBySide, parts: dict[str, str]) -> None:
        self.laid = laid
        self.facts = analyse(laid.old), analyse(laid.new)
        self.seen = seen_devices(*self.facts, parts, laid.relays)
        numbers = {axis.digit: number for number, axis in enumerate(laid.new.axes)}
        self.axes = [(number, numbers[one.digit]) for number, one in enumerate(laid.old.axes) if one.digit in numbers]
        self._relays = [(laid.old.relays[left].digit, laid.new.relays[right].digit) for left, right in laid.relays]
        self._depends_on = self._dependencies()

    @property
    def no_relay_alone(self) -> bool:
        """Has each relay its counterpart?"""
        return len(self.laid.relays) == len(self.laid.old.relays) == len(self.laid.new.relays)

    def doubtful(self) -> frozenset[str]:
        """What is not seen to be the same by its sets of states, and those of all that it depends on."""
        moved = {
            digit for one in self.seen if one.kind == "axis" and not one.same for digit in self._axes_named(one.name)
        }
        for (left, right), digits in zip(self.laid.relays, self._relays, strict=True):
            if not self._move_alike(left, right):
                moved.update(digits)
        paired = {digit for pair in self._relays for digit in pair}
        for facts in self.facts:
            moved |= {relay.digit for relay in facts.circuit.relays} - paired
        return frozenset(one.name for one in self.seen if not one.same or self._cone(one.digits) & moved)

    def groups(self, names: frozenset[str]) -> list[tuple[str, ...]]:
        """Some devices, in groups that share nothing but inputs."""
        moving = {number for number, digit in enumerate(self.laid.old.digits) if digit.kind in ("relay", "axis")}
        groups: list[tuple[tuple[str, ...], frozenset[int]]] = []
        for one in self.seen:
            if one.name in names:
                cone = self._cone(one.digits) & moving
                touching = [group for group in groups if group[1] & cone]
                groups = [group for group in groups if not group[1] & cone]
                together = tuple(name for group in touching for name in group[0])
                groups.append(((*together, one.name), cone.union(*(group[1] for group in touching))))
        return [group[0] for group in groups]

    def game(self, names: tuple[str, ...]) -> tuple[Game, tuple[Seen, ...]]:
        """The game over all that some devices depend on, and what is seen of it."""
        asked = frozenset(digit for one in self.seen if one.name in names for digit in one.digits)
        space = self.facts[0].spaces.of(self._cone(asked))
        inside = frozenset(space.digits)
        seen = tuple(
            one for one in self.seen if one.name in names or (one.kind in ("relay", "axis") and one.digits <= inside)
        )
        axes = [pair for pair in self.axes if self.laid.old.axes[pair[0]].digit in inside]
        return game_of(*self.facts, space, seen, axes, self.laid.relays), seen

    def _move_alike(self, left: int, right: int) -> bool:
        """Do two relays want to move in the same states?"""
        if self.laid.old.relays[left].function != self.laid.new.relays[right].function:
            return False
        pairs = zip(self.facts[0].moves[left], self.facts[1].moves[right], strict=True)
        return all(one.wanted.same_as(other.wanted) for one, other in pairs)

    def _cone(self, digits: frozenset[int]) -> frozenset[int]:
        """The digits with all that have a say in them in either circuit."""
        return cone_of_influence(digits, lambda digit: self._depends_on.get(digit, frozenset()))

    def _dependencies(self) -> dict[int, frozenset[int]]:
        """A relay that both have is looked at in both: where one moves, the other must."""
        found: dict[int, frozenset[int]] = {}
        for facts in self.facts:
            for relay, moves in zip(facts.circuit.relays, facts.moves, strict=True):
                wanted = digits_of(*(move.wanted for move in moves))
                found[relay.digit] = found.get(relay.digit, frozenset()) | wanted
        for one, other in self._relays:
            found[one] |= {other}
            found[other] |= {one}
        for seen in self.seen:
            if seen.kind == "axis":
                found.update(
                    (digit, found.get(digit, frozenset()) | seen.digits) for digit in self._axes_named(seen.name)
                )
        return found

    def _axes_named(self, name: str) -> Iterator[int]:
        axes = (axis for facts in self.facts for axis in facts.circuit.axes)
        return (axis.digit for axis in axes if self.laid.old.digits[axis.digit].name == name)
