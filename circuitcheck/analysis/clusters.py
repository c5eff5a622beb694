"""Which digits have to be looked at together.

A relay's moves depend on some digits, an axis' on those that drive it, and what is shorted stops all that takes part.
Digits that hang together so are a cluster. Clusters share supplies only, so one can stand still at rest while another
is worked, and a state is reached exactly when each cluster's part of it is.
"""

from collections.abc import Iterable

from circuitcheck.analysis.states import States
from circuitcheck.circuit.model import Circuit


def cluster_digits(circuit: Circuit, coupled: Iterable[Iterable[int]]) -> tuple[frozenset[int], ...]:
    """The clusters: every digit but the supplies' in exactly one, those of one `coupled` group always together."""
    supplies = {supply.digit for supply in circuit.supplies}
    cluster_of = {digit: {digit} for digit in range(len(circuit.digits)) if digit not in supplies}
    for group in coupled:
        members = sorted(set(group) - supplies)
        merged: set[int] = set()
        for digit in members:
            merged |= cluster_of[digit]
        for digit in merged:
            cluster_of[digit] = merged
    return tuple(frozenset(cluster) for cluster in {id(one): one for one in cluster_of.values()}.values())


def digits_of(*sets: States) -> set[int]:
    """The digits that any of these sets stands over."""
    return {digit for states in sets for digit in states.space.digits}
