"""A question looked at first with all that is far from it left free.

Steps are kept of the digits nearby alone, each allowed wherever it is at some setting of all others: more can happen
than really does, so what cannot happen even then never happens. Behind a chain of interlocks that settles most
questions in a space of a few digits; only what it leaves open pays for the whole chain.
"""

from collections.abc import Iterable
from typing import NamedTuple

from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.influence import digits_of
from circuitcheck.analysis.resting import Step
from circuitcheck.analysis.space import Space
from circuitcheck.analysis.states import States


class Nearby(NamedTuple):
    """whole: the space of all that has a say; space: that of the digits nearby."""

    facts: Facts
    whole: Space
    space: Space

    def somewhere(self, bits: int) -> int:
        """The states nearby that belong to a set of the whole at some setting of all others."""
        far = [digit for digit in self.whole.digits if digit not in self.space.digits]
        return self.facts.spaces.over(self.whole, bits).at_some(far).over(self.space)

    def steps(self, steps: Iterable[Step]) -> list[Step]:
        """What can happen nearby; steps of other digits change nothing there."""
        return [
            step._replace(allowed=self.somewhere(step.allowed)) for step in steps if step.digit in self.space.digits
        ]


def nearby(facts: Facts, whole: Space, *sets: States) -> Nearby | None:
    """The digits that the sets hang on, and those that have a say in their steps. None where looking there first would
    save nothing: where integers hold the whole, or not even what is near."""
    digits = digits_of(*sets)
    space = facts.spaces.of(digits.union(*map(facts.depends_on, digits)))
    return Nearby(facts, whole, space) if whole.has_diagrams and not space.has_diagrams else None
