"""How many combinations a circuit has, and how many of them operation reaches: told beside the findings."""

from typing import Final, NamedTuple

from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.states import TooWide

COUNTED: Final = 1 << 96
"""Combinations up to which those that are reached are counted: about a second."""


class Counts(NamedTuple):
    """How many states there are in all, how many operation reaches, and how many of those are settled.

    reachable and settled are None where all digits together are too many to count them; every finding and every proof
    is exact all the same, each over the digits that it depends on. engine: what the sets were kept as.
    """

    combinations: int
    reachable: int | None
    settled: int | None
    engine: str


def count_states(facts: Facts) -> Counts:
    """Counts over all digits of the circuit at once."""
    combinations = 1
    for digit in facts.circuit.digits:
        combinations *= len(digit.values)
    if combinations > COUNTED:
        return Counts(combinations, None, None, facts.spaces.engine)
    try:
        behaviour = facts.behaviour(range(len(facts.circuit.digits)))
    except TooWide:
        # What checks ask is narrower, and mostly needs none of this.
        facts.spaces.begin_counting()
        return Counts(combinations, None, None, facts.spaces.engine)
    reached = behaviour.reached & behaviour.proper
    settled = reached & behaviour.settled
    return Counts(combinations, reached.bit_count(), settled.bit_count(), facts.spaces.engine)
