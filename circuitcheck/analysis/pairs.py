"""The game of two circuits (telling_apart.py) over some of their digits."""

from collections.abc import Iterator

from circuitcheck.analysis.devices import RelayMove
from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.influence import digits_of
from circuitcheck.analysis.resting import Step, resting_states
from circuitcheck.analysis.seen import Seen
from circuitcheck.analysis.states import Space, union
from circuitcheck.analysis.telling_apart import Game, Side
from circuitcheck.analysis.travel import driven
from circuitcheck.circuit.model import Digit


def game_of(
    old: Facts,
    new: Facts,
    space: Space,
    seen: tuple[Seen, ...],
    axes: list[tuple[int, int]],
    relays: tuple[tuple[int, int], ...],
) -> Game:
    """The game over a space. seen: what is looked at, all within the space. axes: (old's number, new's) of those that
    both circuits have within it; relays: of all that both have."""
    digits = old.circuit.digits
    proper = space.full
    for digit in space.digits:
        proper &= space.where(digit, range(len(digits[digit].values)))
    sides = _side(old, new, space, proper), _side(new, old, space, proper)
    alive = space.full & ~sides[0].shorted & ~sides[1].shorted
    calm = alive & proper & sides[0].ends & sides[1].ends
    moves = [move for digit in space.digits for move in _control_moves(space, digit, digits[digit], calm, alive)]
    moves += _axis_moves(old, new, space, calm, axes)
    alike = space.full
    for one in seen:
        alike &= seen_alike(space, sides, one)
    beginning, free = _beginning(old, new, space, relays)
    moves = [move for move in moves if move.allowed]
    return Game(space, sides[0], sides[1], moves, proper, beginning, free, alike | (space.full & ~proper))


def seen_alike(space: Space, sides: tuple[Side, Side], seen: Seen) -> int:
    """The pairs in which a device does the same in both; shorted ones are told by the supplies."""
    both = sides[0].shorted & sides[1].shorted
    for word in seen.old.keys() & seen.new.keys():
        both |= seen.old[word].over(space) & seen.new[word].over(space) & ~sides[0].shorted & ~sides[1].shorted
    return both


def _side(facts: Facts, other: Facts, space: Space, proper: int) -> Side:
    within = frozenset(space.digits)
    shorts = (short.states for short in facts.shorts if digits_of(short.states) <= within)
    shorted = union(shorts, facts.spaces.none())
    relays = [number for number, relay in enumerate(facts.circuit.relays) if relay.digit in within]
    moves = [move for relay in relays for move in facts.moves[relay]]
    # Where relays rest doesn't depend on the other circuit's: worked out without them it is far fewer states.
    own = facts.spaces.of(within - {relay.digit for relay in other.circuit.relays})
    fast = [_relay_step(facts, own, move, shorted.over(own)) for move in moves if not move.timed]
    rest = facts.spaces.over(own, resting_states(own, fast, shorted.over(own))).over(space)
    stopped = shorted.over(space)
    steps = [
        _relay_step(facts, space, move, stopped | (space.full & ~(rest & proper)) if move.timed else stopped)
        for move in moves
    ]
    return Side([step for step in steps if step.allowed], rest | (space.full & ~proper), stopped)


def _relay_step(facts: Facts, space: Space, move: RelayMove, stopped: int) -> Step:
    return Step(facts.circuit.relays[move.relay].digit, move.start, move.end, move.wanted.over(space) & ~stopped)


def _control_moves(space: Space, number: int, digit: Digit, calm: int, alive: int) -> Iterator[Step]:
    """Every position to every other, by way of the moment between them where there is one."""
    if digit.kind in ("relay", "axis"):
        return
    by_way: set[tuple[int, int]] = set()
    for place, moment in enumerate(digit.moments, len(digit.values)):
        by_way |= moment.moves
        for start in sorted({start for start, _ in moment.moves}):
            yield Step(number, start, place, calm & space.where(number, (start,)))
        for end in sorted({end for _, end in moment.moves}):
            yield Step(number, place, end, alive & space.where(number, (place,)))
    for start in range(len(digit.values)):
        for end in range(len(digit.values)):
            if start != end and (start, end) not in by_way:
                yield Step(number, start, end, calm & space.where(number, (start,)))


def _axis_moves(old: Facts, new: Facts, space: Space, calm: int, axes: list[tuple[int, int]]) -> Iterator[Step]:
    """An axis that both have goes where both drive it; one that only one has goes where that one drives it."""
    common = {old.circuit.axes[left].digit for left, _ in axes}
    for direction in (1, -1):
        for left, right in axes:
            both = driven(old, left, direction) & driven(new, right, direction)
            yield from _zones(space, old, left, both.over(space) & calm, direction)
        for facts in (old, new):
            for number, axis in enumerate(facts.circuit.axes):
                if axis.digit in space.digits and axis.digit not in common:
                    allowed = driven(facts, number, direction).over(space) & calm
                    yield from _zones(space, facts, number, allowed, direction)


def _zones(space: Space, facts: Facts, number: int, allowed: int, direction: int) -> Iterator[Step]:
    axis = facts.circuit.axes[number]
    zones = space.radices[space.index(axis.digit)]
    for zone in range(zones):
        onward = (zone + direction) % zones if axis.turning else zone + direction
        if 0 <= onward < zones:
            yield Step(axis.digit, zone, onward, allowed & space.where(axis.digit, (zone,)))


def _beginning(
    old: Facts, new: Facts, space: Space, relays: tuple[tuple[int, int], ...]
) -> tuple[int, tuple[tuple[int, ...], tuple[int, ...]]]:
    """Power-up: relays released, axes within their range, all else anyhow. A latching relay stands anyhow, one
    that both have alike in both."""
    states = space.full
    for number in space.digits:
        states &= space.where(number, range(len(old.circuit.digits[number].values)))
    latching = [
        {relay.digit for relay in facts.circuit.relays if relay.function == "latching" and relay.digit in space.digits}
        for facts in (old, new)
    ]
    for facts, own in zip((old, new), latching, strict=True):
        for axis in facts.circuit.axes:
            if axis.digit in space.digits:
                states &= space.where(axis.digit, range(axis.range[0], axis.range[1] + 1))
        for relay in facts.circuit.relays:
            if relay.digit in space.digits and relay.digit not in own:
                states &= space.where(relay.digit, (0,))
    for left, right in relays:
        digits = old.circuit.relays[left].digit, new.circuit.relays[right].digit
        if digits[0] in latching[0] and digits[1] in latching[1]:
            states &= _equal(space, *digits)
            latching[0].remove(digits[0])
            latching[1].remove(digits[1])
    return states, (tuple(sorted(latching[0])), tuple(sorted(latching[1])))


def _equal(space: Space, left: int, right: int) -> int:
    both = 0
    for value in (0, 1):
        both |= space.where(left, (value,)) & space.where(right, (value,))
    return both
