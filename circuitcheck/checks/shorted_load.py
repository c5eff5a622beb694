"""A load with both ends on the same wire."""

from collections.abc import Iterator

from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.unfed import always_joined
from circuitcheck.checks.check import Check, Evidence, Example
from circuitcheck.circuit.wording import listed

CHECK = Check(
    name="shorted-load",
    severity="error",
    finds="A load whose two ends are joined by conductors in every combination of contacts.",
    proves="No load has its ends joined in every combination.",
    why="It never gets any volts, and where it is switched on, whatever feeds it is shorted past it.",
    how="In every combination it is asked whether closed contacts, wires and diodes lead from one end to the other "
    "and back.",
    remedy="Take away the wire that runs past the load, or lead one of its ends elsewhere.",
    limits="A motor that is shorted only at rest is braked, and that is as it should be.",
    wrong=(
        Example(
            "both ends of the trapdoor lantern were soldered to the return",
            """
            supply PS 12 V 10 A
            fuse   F1 3 A
            button PB1 no
            lamp   L1 12 V 2 W
            lamp   L2 12 V 2 W                                   #! shorted-load
            rung   PS.+, F1, PB1, L1, PS.-
            rung   L1.2, L2, PS.-
            """,
        ),
    ),
    right=(
        Example(
            "the second lamp in series, not past the first",
            """
            supply PS 12 V 10 A
            fuse   F1 3 A
            button PB1 no
            lamp   L1 L2 6 V 2 W
            rung   PS.+, F1, PB1, L1, L2, PS.-
            """,
        ),
        Example(
            "a curtain motor that the resting contact shorts is braked",
            """
            supply PS 12 V 10 A
            fuse   F1 5 A
            button PB1 spdt
            motor  M1 12 V stall 5 A may coast
            rung   PS.+, F1, PB1.14-11, M1, PS.-
            wire   PB1.12 PS.-
            """,
        ),
    ),
)


def find(facts: Facts) -> Iterator[Evidence]:
    """One piece of evidence for all loads between the same two nets that are always joined."""
    circuit, nets = facts.circuit, facts.conduction.network.nets
    groups: dict[frozenset[int], list[str]] = {}
    for number, load in enumerate(circuit.loads):
        if always_joined(facts, number):
            groups.setdefault(frozenset((nets[load.a], nets[load.b])), []).append(load.part)
    for group in groups.values():
        parts = tuple(dict.fromkeys(group))
        have = "has its" if len(parts) == 1 else "have their"
        yield Evidence(
            what=f"{listed(parts, 'and')} {have} ends joined in every combination",
            parts=parts,
        )
