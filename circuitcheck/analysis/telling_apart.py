"""Can two circuits be told apart by working both alike and looking at what they do?

A pair is a state of both circuits at once: the same switches, supplies, outside contacts and axes, each circuit's own
relays. A game decides: somebody works both boxes alike, one circuit's relays take some order, the other's may answer in
any order of theirs. A pair is *alike* where the other can always answer so that what is seen stays the same for ever:
the greatest set of pairs at rest with

    the same seen      every motor, lamp and common relay; whether a supply is shorted
    every move         a switch, a supply, an outside contact, an axis that both drive, and no move at all: wherever one
                       circuit's relays then come to rest, the other's can come to rest so that the pair is alike

This is weak bisimulation, relays' moves being silent, and it is worked out for all pairs at once, on sets. Timers run
out at any time while their circuit is at rest. Between the positions of a switch any number of relays may have moved
before the hand goes on; what is seen in that moment doesn't count.
"""

from typing import NamedTuple

from circuitcheck.analysis.resting import Step, following, leading_to, stepped
from circuitcheck.analysis.states import Space


class Side(NamedTuple):
    """One circuit of a pair. steps: of its relays, timers where they are at rest. shorted: not followed further.

    ends: where it may be when the next thing happens: at rest or shorted; anywhere while a switch is between positions.
    """

    steps: list[Step]
    ends: int
    shorted: int


class Game(NamedTuple):
    """moves: what is done to both while they are at rest, and where axes go that both drive. proper: no switch is
    between positions. beginning: power-up. free: (old's, new's) digits of latching relays that only one has, anyhow at
    power-up. seen_alike: the pairs in which the same is seen, and every pair between positions."""

    space: Space
    old: Side
    new: Side
    moves: list[Step]
    proper: int
    beginning: int
    free: tuple[tuple[int, ...], tuple[int, ...]]
    seen_alike: int


class Round(NamedTuple):
    """What one more move leads to: `started`, just after it; `ended`, where both have come to rest, new pairs only."""

    started: int
    ended: int


class Played(NamedTuple):
    """alike: the pairs that can't be told apart. same: none of power-up can. rounds: what is met on the way from
    power-up, each circuit answering the other as well as it can."""

    alike: int
    same: bool
    rounds: tuple[Round, ...]

    @property
    def met(self) -> int:
        """Every pair at rest that is met."""
        found = 0
        for one in self.rounds:
            found |= one.ended
        return found


def play(game: Game) -> Played:
    """Decides whether the circuits can be told apart, and what is met when somebody tries."""
    alike = _alike(game)
    answered = settling_alike(game, alike)
    lost = _lost_beginnings(game, answered)
    rounds, met = [], 0
    started = (game.beginning & answered) | lost
    while started:
        ended = settled(game, alike, started) & ~met
        rounds.append(Round(started, ended))
        met |= ended
        started = 0
        for step in game.moves:
            started |= stepped(game.space, ended, step)
    return Played(alike, not lost, tuple(rounds))


def settling_alike(game: Game, alike: int) -> int:
    """The pairs from which, wherever one circuit's relays come to rest, the other's can come to rest alike."""
    return _answered(game.space, game.old, game.new, alike) & _answered(game.space, game.new, game.old, alike)


def settled(game: Game, alike: int, started: int) -> int:
    """Where the circuits come to rest: one anyhow, the other alike if it can be, else anyhow too."""
    found = 0
    for one, other in ((game.old, game.new), (game.new, game.old)):
        arrived = following(game.space, one.steps, started) & one.ends
        answered = arrived & leading_to(game.space, other.steps, alike)
        found |= following(game.space, other.steps, answered) & alike
        found |= following(game.space, other.steps, arrived & ~answered) & other.ends
    return found


def _answered(space: Space, one: Side, other: Side, alike: int) -> int:
    lost = one.ends & ~leading_to(space, other.steps, alike)
    return space.full & ~leading_to(space, one.steps, lost)


def _alike(game: Game) -> int:
    """The greatest set, from above: pairs drop out until none does."""
    both_shorted = game.old.shorted & game.new.shorted
    alive = game.space.full & ~game.old.shorted & ~game.new.shorted
    alike = game.seen_alike & game.old.ends & game.new.ends & (alive | both_shorted)
    while True:
        answered = settling_alike(game, alike)
        kept = alike & (answered | (game.space.full & ~game.proper))
        for step in game.moves:
            back = Step(step.digit, step.end, step.start, game.space.full)
            there = game.space.where(step.digit, (step.end,))
            kept &= ~step.allowed | stepped(game.space, answered & there, back)
        if kept == alike:
            return alike
        alike = kept


def _lost_beginnings(game: Game, answered: int) -> int:
    """The pairs of power-up that are told apart. What only one circuit has may be chosen to fit the other."""
    fitting = game.beginning & answered
    lost = 0
    for digits in game.free:
        fits = fitting
        for digit in digits:
            fits = game.space.anyhow(fits, digit)
        lost |= game.beginning & ~fits
    return lost
