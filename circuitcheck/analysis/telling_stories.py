"""How two circuits are told apart, step by step: one of the shortest ways, for people to follow."""

from collections.abc import Iterator
from typing import NamedTuple

from circuitcheck.analysis.resting import Step, leading_to, stepped
from circuitcheck.analysis.telling_apart import Game, Played, settled


class Happening(NamedTuple):
    """Digit number `digit` goes to `value`. side: "old" or "new" for a relay of one circuit, "" for what both see."""

    side: str
    digit: int
    value: int


class Parting(NamedTuple):
    """beginning: a value for each digit of the game's space. state: what holds in the end."""

    beginning: dict[int, int]
    happenings: tuple[Happening, ...]
    state: dict[int, int]


def shortest_parting(game: Game, played: Played, seen: int) -> Parting:
    """The way to one of the pairs in `seen` that takes the fewest moves. LookupError where none is met."""
    number = next((number for number, one in enumerate(played.rounds) if one.ended & seen), None)
    if number is None:
        raise LookupError("no such pair is met")
    pair = _lowest(played.rounds[number].ended & seen)
    end = game.space.values(pair.bit_length() - 1)
    told: list[Happening] = []
    while True:
        start = _start_of(game, played, number, pair)
        told = [*_relays_from(game, start, pair), *told]
        if number == 0:
            return Parting(game.space.values(start.bit_length() - 1), tuple(told), end)
        pair, step = _before(game, played, number, start)
        told = [Happening("", step.digit, step.end), *told]
        number -= 1


def _start_of(game: Game, played: Played, number: int, pair: int) -> int:
    """The pair, just after a move, from which both come to rest in `pair`."""
    both = game.old.steps + game.new.steps
    candidates = leading_to(game.space, both, pair) & played.rounds[number].started
    while candidates:
        candidate = _lowest(candidates)
        if settled(game, played.alike, candidate) & pair:
            return candidate
        candidates ^= candidate
    raise LookupError("nothing comes to rest there")


def _before(game: Game, played: Played, number: int, start: int) -> tuple[int, Step]:
    """The pair at rest, a round earlier, from which a move leads to `start`."""
    for step in game.moves:
        back = Step(step.digit, step.end, step.start, game.space.full)
        at_end = start & game.space.where(step.digit, (step.end,))
        before = stepped(game.space, at_end, back) & step.allowed & played.rounds[number - 1].ended
        if before:
            return before, step
    raise LookupError("no move leads there")


def _relays_from(game: Game, start: int, end: int) -> Iterator[Happening]:
    """The relays' moves, the old circuit's first: neither depends on the other's."""
    middle = _with_digits_of(game, start, end)
    yield from (Happening("old", step.digit, step.end) for step in _way(game, game.old.steps, start, middle))
    yield from (Happening("new", step.digit, step.end) for step in _way(game, game.new.steps, middle, end))


def _with_digits_of(game: Game, start: int, end: int) -> int:
    """The pair `start` with the old circuit's relays as in `end`."""
    values, others = game.space.values(start.bit_length() - 1), game.space.values(end.bit_length() - 1)
    moving = {step.digit for step in game.old.steps}
    return 1 << game.space.number(values | {digit: others[digit] for digit in moving})


def _way(game: Game, steps: list[Step], start: int, end: int) -> list[Step]:
    """A shortest chain of steps from one pair to another."""
    rounds = [start]
    reached = start
    while not rounds[-1] & end:
        found = 0
        for step in steps:
            found |= stepped(game.space, rounds[-1], step)
        rounds.append(found & ~reached)
        reached |= found
        if not rounds[-1]:
            raise LookupError("no steps lead there")
    chain: list[Step] = []
    for earlier in reversed(rounds[:-1]):
        end, step = next(_stepped_from(game, steps, earlier, end))
        chain.insert(0, step)
    return chain


def _stepped_from(game: Game, steps: list[Step], earlier: int, end: int) -> Iterator[tuple[int, Step]]:
    for step in steps:
        back = Step(step.digit, step.end, step.start, game.space.full)
        before = stepped(game.space, end & game.space.where(step.digit, (step.end,)), back) & step.allowed & earlier
        if before:
            yield _lowest(before), step


def _lowest(states: int) -> int:
    return states & -states
