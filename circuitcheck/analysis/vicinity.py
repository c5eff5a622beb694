"""Questions about more digits than can well be followed together, answered from what is near.

In a chain of interlocks everything has a say in everything. But mostly what is far decides nothing: what doesn't happen
with all of it left free (loosened.py) never happens, and what happens with all of it parked (parking.py) does happen.
Only what neither settles is asked of the whole.
"""

from collections.abc import Callable, Iterable, Iterator

from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.parking import parked
from circuitcheck.analysis.states import TooWide


def is_ruled_out(facts: Facts, digits: Iterable[int], ask: Callable[[Facts], object]) -> bool:
    """Does `ask` find nothing about these digits even where all that is far from them may be anyhow? `ask` must be a
    question that finds only more where more can happen."""
    if not facts.is_wide(digits) or facts.loosened is None:
        return False
    try:
        return not ask(facts.loosened)
    except TooWide:
        return False


def with_others_parked(facts: Facts, digits: Iterable[int]) -> Iterator[Facts]:
    """The facts with what is far from these digits parked, where there is too much of it to follow."""
    if facts.is_wide(digits) and facts.loosened is not None:
        yield from (here for here in parked(facts, digits) if not here.is_wide(digits))
