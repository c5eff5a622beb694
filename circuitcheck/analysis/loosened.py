"""A circuit of which only what is near a question is followed; all that is far may be anyhow at any moment.

More can happen then than does. So what can't happen even so is proved never to happen, in a space of a few digits,
however far interlocks reach. The other way round it proves nothing.

A rest is wherever the relays nearby may want nothing; that holds only where all relays surely come to rest
(calming.py).
"""

from functools import partial
from math import prod
from typing import Final

from circuitcheck.analysis.behaviour import Behaviour, behave_loosely
from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.influence import digits_of
from circuitcheck.analysis.once_broken import where_it_breaks
from circuitcheck.analysis.scopes import Scope
from circuitcheck.analysis.states import States, TooWide

NEARBY: Final = 1 << 17
"""States of what is followed, at most: 16 kB a set."""


def loosened(facts: Facts) -> Facts:
    """The facts with all that is far from a question left free. TooWide where even what is asked about is too much.

    A box that comes about in the operation of a sound one begins wherever that gets to, loosened too.
    """
    sound = facts.sound.loosened if facts.sound else None
    return facts.in_scope(Scope(lambda states: states, _near, partial(_behave, sound), {}))


def _near(facts: Facts, asked: frozenset[int]) -> frozenset[int]:
    """What is asked about, what has a say in that, what has a say in those … as long as it is few states."""
    near, wider = frozenset[int](), asked
    while near != wider and (states := prod(facts.spaces.radices[digit] for digit in wider)) <= NEARBY:
        near, wider = wider, wider.union(*map(facts.depends_on, wider))
    if not near:
        raise TooWide(tuple(sorted(asked)), states)
    return near


def _behave(sound: Facts | None, facts: Facts, near: frozenset[int]) -> Behaviour:
    def possibly(states: States) -> States:
        return states.at_some(digits_of(states) - near)

    space, moves = facts.spaces.of(near), facts.moves_of(near)
    rest = space.full
    for move in moves:
        if not move.timed:
            rest &= possibly(~move.wanted).over(space)
    # Where it is shorted nothing goes on, whatever relays want.
    rest |= possibly(facts.shorted).over(space)
    moves = [move._replace(wanted=possibly(move.wanted)) for move in moves]
    motors = [(number, does.seen(possibly)) for number, does in facts.motors_of(near)]
    beginning = None if sound is None else where_it_breaks(sound, near)
    return behave_loosely(facts.circuit, space, moves, motors, facts.shorted_within(near), rest, beginning)
