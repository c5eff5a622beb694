"""Where in the text a current's path lies, part by part and wire by wire."""

from collections.abc import Sequence
from itertools import pairwise

from circuitcheck.circuit.model import Circuit, Terminal
from circuitcheck.plan.source import Place


def way_places(circuit: Circuit, path: Sequence[Terminal]) -> tuple[tuple[Place, str], ...]:
    """Each stretch of the path with its place and words: "F1.1-2", "the wire PS.+ to F1.1", "through M1".

    Where two terminals that follow each other aren't joined, one way ends and another begins.
    """
    joins: dict[frozenset[Terminal], tuple[Place, str]] = {}
    for load in circuit.loads:
        joins[frozenset((load.a, load.b))] = load.place, f"through {load.name}"
    for one in circuit.conductors:
        joins[frozenset((one.tail, one.head))] = one.place, one.name
    return tuple(joins[ends] for ends in map(frozenset, pairwise(path)) if ends in joins)
