"""By what a finding is known again in a later run, though lines were moved and files renamed meanwhile."""

from collections import Counter
from collections.abc import Iterable

from circuitcheck.checks.check import Finding


def fingerprints(found: Iterable[tuple[str, Finding]]) -> tuple[str, ...]:
    """One for each finding of a run, 32 hexadecimal digits; no two are the same.

    found: all findings of the run in its order, each with its plan's own name ("" where the plan has none). What is
    said of a finding, its lines and its file play no part: the plan's name, the check, the parts and how it is reached
    do. Findings that these don't tell apart are numbered, so that it is their count that is known again.
    """
    counted: Counter[tuple[str, ...]] = Counter()
    made = []
    for plan, finding in found:
        key = (plan, finding.check, finding.reached, *sorted(finding.parts))
        counted[key] += 1
        made.append(_hash((*key, str(counted[key]))))
    return tuple(made)


def _hash(words: tuple[str, ...]) -> str:
    from hashlib import sha256

    # Names hold no line ends, so that no two lists of words make one text.
    return sha256("\n".join(words).encode("utf-8", "surrogatepass")).hexdigest()[:32]
