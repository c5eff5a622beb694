"""A box in which a wire breaks at some moment of operation.

What it had brought about by then stays: a relay that sealed itself in over a contact doesn't release when a wire to
that contact breaks. So the box without the contact begins wherever operation of the sound one leads, power-up included.
"""

from collections.abc import Iterable

from circuitcheck.analysis.behaviour import Behaviour
from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.scopes import WHOLE, Scope
from circuitcheck.analysis.supposed import never_closing


def once_broken(facts: Facts, conductor: int) -> Facts:
    """The facts of the circuit from the moment on, whichever it is, at which a conductor (by its index) opens for good.

    What has a say in a digit in either box is followed in both, so both behave over the same digits.
    """

    def behave(broken: Facts, cone: frozenset[int]) -> Behaviour:
        return broken.behave(cone, beginning=where_it_breaks(facts, cone))

    broken = facts.of_other(never_closing(facts.circuit, frozenset({conductor})))
    return broken.in_scope(Scope(WHOLE.seen, WHOLE.cone, behave, {}, facts))


def broken_at_rest(sound: Facts, broken: Facts, digits: Iterable[int]) -> Behaviour:
    """How these digits go on where the wire breaks at a rest: then somebody can pull it off, to see what comes."""
    usual = sound.behaviour(digits)
    return broken.behave(frozenset(usual.space.digits), beginning=usual.reached & usual.rest & usual.proper)


def where_it_breaks(sound: Facts, digits: frozenset[int]) -> int:
    """All that operation of the sound box reaches, on the way between two rests too: bits over the space of these
    digits."""
    behaviour = sound.behaviour(digits)
    reached = sound.spaces.over(behaviour.space, behaviour.reached)
    return reached.at_some(set(behaviour.space.digits) - digits).over(sound.spaces.of(digits))
