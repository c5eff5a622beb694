"""A circuit of which only what is near a question moves; all that is far is parked.

A relay is parked by a control in a position that never lets it operate and always lets it release, whatever all else
does: a selector at off. It then stands still, and relays beyond it can have no say. What happens while others are
parked is a part of what can happen: a finding there is one of the whole. And from every state they can be parked with
controls alone, once relays surely come to rest (calming.py); so what leads home while they are parked leads home from
everywhere.
"""

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from circuitcheck.analysis.behaviour import Behaviour
from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.scopes import WHOLE, Scope
from circuitcheck.analysis.states import States

RELEASED = 0


class Parking(NamedTuple):
    """The relay with digit `relay` stays released while the control with digit `control` has this position."""

    relay: int
    control: int
    position: int


def parked(facts: Facts, digits: Iterable[int]) -> Iterator[Facts]:
    """The facts with every relay parked that can be, but those asked about and those that drive an axis asked about;
    then with one of the parked ones that border on what is left let go, each in turn."""
    axes = {axis.digit for axis in facts.circuit.axes}
    asked = frozenset(digits)
    asked = asked.union(*(facts.depends_on(digit) for digit in asked & axes))
    first = _parkings(facts, asked)
    yield _with_parked(facts, first)
    for one in first:
        yield _with_parked(facts, _parkings(facts, asked | {one.relay}))


def _parkings(facts: Facts, asked: frozenset[int]) -> list[Parking]:
    """The relays to park, so that what `asked` hangs on ends at them; by no control that has a say in it itself."""
    free = asked.union(*map(facts.depends_on, asked))
    followed: set[int] = set()
    found: dict[int, Parking] = {}
    positions: dict[int, int] = {}
    waiting = [*asked, *(supply.digit for supply in facts.circuit.supplies)]
    while waiting:
        digit = waiting.pop()
        if digit in followed or digit in found:
            continue
        for one in () if digit in asked else facts.parkings.get(digit, ()):
            if one.control not in free and positions.get(one.control, one.position) == one.position:
                found[digit], positions[one.control] = one, one.position
                break
        else:
            followed.add(digit)
            waiting.extend(facts.depends_on(digit))
    return list(found.values())


def _with_parked(facts: Facts, parkings: Iterable[Parking]) -> Facts:
    still: dict[int, int] = {}
    for one in parkings:
        still |= {one.relay: RELEASED, one.control: one.position}

    def seen(states: States) -> States:
        for digit in still.keys() & set(states.space.digits):
            states = states.given(digit, still[digit])
        return states.tight()

    return facts.in_scope(Scope(seen, WHOLE.cone, WHOLE.behave, still))


def standing_anyhow(facts: Facts, digits: Iterable[int]) -> Behaviour:
    """How some digits behave that begin wherever no relay wants to move, reached or not: so may what is near stand when
    all others have been parked."""
    cone = facts.cone(digits)
    space = facts.spaces.of(cone)
    standing = space.full
    for move in facts.moves_of(cone):
        if not move.timed:
            standing &= ~move.wanted.over(space)
    return facts.behave(cone, beginning=standing)


def ways_to_park(facts: Facts, relay: int) -> Iterator[Parking]:
    """The controls that park a relay (by number), each with such a position; off and released first."""
    if facts.circuit.relays[relay].function == "latching":
        return
    digit, moves = facts.circuit.relays[relay].digit, facts.moves[relay]
    operated = facts.spaces.where(digit, range(1, facts.circuit.digits[digit].radix))
    for control in sorted({number for move in moves for number in move.wanted.space.digits}):
        if facts.circuit.digits[control].kind != "control":
            continue
        values = facts.circuit.digits[control].values
        for position in sorted(range(len(values)), key=lambda value: values[value] not in ("off", "released")):
            wanted = {move: move.wanted.given(control, position) for move in moves}
            leaving = [states for move, states in wanted.items() if move.start == RELEASED]
            coming = [states for move, states in wanted.items() if move.end == RELEASED and not move.timed]
            if not any(leaving) and any(states.same_as(operated) for states in coming):
                yield Parking(digit, control, position)
