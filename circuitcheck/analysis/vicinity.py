"""Questions about more digits than can well be followed together, answered from what is near.

In a chain of interlocks everything has a say in everything. But mostly what is far decides nothing: what doesn't happen
with all of it left free (loosened.py) never happens, and what happens with all of it parked (parking.py) does happen.
Only what neither settles is asked of the whole.
"""

from collections.abc import Callable, Iterable, Iterator
from contextlib import suppress
from typing import TypeVar

from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.parking import parked
from circuitcheck.analysis.states import TooWide

Answer = TypeVar("Answer")


def is_ruled_out(facts: Facts, digits: Iterable[int], ask: Callable[[Facts], object]) -> bool:
    """Does `ask` find nothing about these digits even where all that is far from them may be anyhow? `ask` must be a
    question that finds only more where more can happen."""
    if not facts.is_wide(digits) or facts.loosened is None:
        return False
    try:
        return not ask(facts.loosened)
    except TooWide:
        return False


def first_found(facts: Facts, digits: Iterable[int], ask: Callable[[Facts], Answer]) -> Answer:
    """What `ask` finds of these digits with what is far parked, else what it finds of the whole."""
    return next((found for found in nearby(facts, digits, ask) if found), None) or ask(facts)


def nearby(facts: Facts, digits: Iterable[int], ask: Callable[[Facts], Answer]) -> Iterator[Answer]:
    """What `ask` answers with what is far from these digits parked, one way after the other, where there is too much of
    it to follow; nothing where there isn't. What is too wide even so is left out."""
    if facts.is_wide(digits) and facts.loosened is not None:
        for here in parked(facts, digits):
            with suppress(TooWide):
                if not here.is_wide(digits):
                    yield ask(here)
