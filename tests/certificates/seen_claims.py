"""Whether a claim holds, as far as the judge sees."""

from tests.certificates import seen_combinations, seen_conduction, seen_operation
from tests.certificates.seen import Seen


def holds(seen: Seen, claim: str) -> bool:
    """Does it, in each state that the judge comes to?"""
    looks = [one for view in (seen_conduction, seen_combinations, seen_operation) for one in view.looks(seen).items()]
    return dict(looks)[claim]()
