"""How much of a circuit is followed when it is asked how some digits behave.

The whole is all that has a say in them. Two narrower scopes stand in for it where that is too wide: loosened.py leaves
all that is far free, so what can't happen there can't happen; parking.py lets it stand still, so what happens there
happens.
"""

from collections.abc import Callable
from typing import TYPE_CHECKING, Final, NamedTuple

from circuitcheck.analysis.influence import cone_of_influence
from circuitcheck.analysis.states import States

if TYPE_CHECKING:
    from circuitcheck.analysis.behaviour import Behaviour
    from circuitcheck.analysis.facts import Facts


class Scope(NamedTuple):
    """seen: a set as it is in this scope. cone: the digits to follow, for those that are asked about. behave: how these
    behave. still: digits that stand still, with their values. sound: the box in whose operation this one comes about;
    None where it begins at power-up."""

    seen: Callable[[States], States]
    cone: "Callable[[Facts, frozenset[int]], frozenset[int]]"
    behave: "Callable[[Facts, frozenset[int]], Behaviour]"
    still: dict[int, int]
    sound: "Facts | None" = None


WHOLE: Final = Scope(
    seen=lambda states: states,
    cone=lambda facts, asked: cone_of_influence(asked, facts.depends_on),
    behave=lambda facts, cone: facts.behave(cone),
    still={},
)
