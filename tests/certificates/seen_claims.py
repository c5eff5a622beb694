"""Whether a claim holds, as far as the judge sees."""

from tests.certificates import seen_conduction, seen_faults, seen_operation
from tests.certificates.seen import Seen


def holds(seen: Seen, claim: str) -> bool:
    """Does it, in each state that the judge comes to?"""
    looks = [*seen_conduction.looks(seen).items(), *seen_operation.looks(seen).items()]
    looks += seen_faults.looks(seen).items()
    return dict(looks)[claim]()
