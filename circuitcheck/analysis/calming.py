"""Whether relays always come to rest, shown relay by relay.

Let no move of one kind (say operating) ever bring about a wish to make one of the other (releasing). Then from any
state let relays release until none wants to: each can do so only so often. Then let one operate after the other: none
comes to want to release by it, and each can operate only so often. So from every state some order of moves leads to
one in which no relay wants to move, and no relays go round for ever.

Where it can't be shown so, they may come to rest all the same.
"""

from collections.abc import Iterable

from circuitcheck.analysis.devices import RelayMove
from circuitcheck.analysis.facts import Facts


def surely_calm(facts: Facts) -> bool:
    """Do all relays of the circuit come to rest from every state while all else stands still? False where it isn't
    plain. Timers aside, which count as resting while they run."""
    moves = [move for move in facts.relay_moves if move.wanted and not move.timed]
    rising = [move for move in moves if move.end > move.start]
    falling = [move for move in moves if move.end < move.start]
    return _never_bring_about(facts, rising, falling) or _never_bring_about(facts, falling, rising)


def _never_bring_about(facts: Facts, moves: list[RelayMove], others: list[RelayMove]) -> bool:
    touching: dict[int, list[RelayMove]] = {}
    for other in others:
        for digit in other.wanted.space.digits:
            touching.setdefault(digit, []).append(other)
    digits = (facts.circuit.relays[move.relay].digit for move in moves)
    return not any(
        _brings_about(facts, digit, move, touching.get(digit, ())) for digit, move in zip(digits, moves, strict=True)
    )


def _brings_about(facts: Facts, digit: int, move: RelayMove, others: Iterable[RelayMove]) -> bool:
    """After the move, is another one wanted that was not wanted before it?"""
    after = move.wanted.given(digit, move.start) & facts.spaces.where(digit, (move.end,))
    return any(after & other.wanted - other.wanted.given(digit, move.start) for other in others)
