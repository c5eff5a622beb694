"""Whether a claim holds, as far as the judge sees."""

from collections.abc import Callable

from tests.certificates import (
    seen_combinations,
    seen_conduction,
    seen_faults,
    seen_figures,
    seen_moving,
    seen_operation,
    seen_promises,
    seen_pulses,
    seen_sneaks,
    seen_stops,
)
from tests.certificates.seen import Seen

TOPICS: tuple[Callable[[Seen], dict[str, Callable[[], bool]]], ...] = (
    seen_combinations.looks,
    seen_conduction.looks,
    seen_faults.looks,
    seen_figures.looks,
    seen_moving.looks,
    seen_operation.looks,
    seen_promises.looks,
    seen_pulses.looks,
    seen_sneaks.looks,
    seen_stops.looks,
)


def holds(seen: Seen, claim: str) -> bool:
    """Does it, in each state that the judge comes to?"""
    (look,) = (found[claim] for topic in TOPICS if claim in (found := topic(seen)))
    return look()
