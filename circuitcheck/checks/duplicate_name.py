"""Two parts that go by one name."""

from collections.abc import Iterator

from circuitcheck.analysis.facts import Facts
from circuitcheck.checks.check import Check, Evidence, Example

CHECK = Check(
    name="duplicate-name",
    severity="error",
    finds="Two parts of one kind that go by one name.",
    proves="Every part has a name of its own.",
    why="A wire to that name may be meant for either, and in the finished box nobody knows which is which.",
    how="Every name is looked up among those before it, in a module as well as in the plan.",
    remedy="Give the second one a name of its own, and look through the wires for those that are meant for it.",
    limits="All wires are taken to go to the first one, so the other findings may change once the names are apart. "
    "Two parts of different kinds with one name cannot be read as a circuit at all and are told before any check "
    "runs.",
    wrong=(
        Example(
            "two lamps of the curtain's cue light, both called L1",
            """
            supply PS 12 V 10 A
            fuse   F1 3 A
            button PB1 no
            lamp   L1 12 V 2 W
            lamp   L1 12 V 5 W                                   #! duplicate-name
            rung   PS.+, F1, PB1, L1, PS.-
            """,
        ),
    ),
    right=(
        Example(
            "the same lamps with a name each",
            """
            supply PS 12 V 10 A
            fuse   F1 3 A
            button PB1 no
            lamp   L1 12 V 2 W
            lamp   L2 12 V 5 W
            rung   PS.+, F1, PB1, L1, PS.-
            rung   PB1.14, L2, PS.-
            """,
        ),
    ),
)


def find(facts: Facts) -> Iterator[Evidence]:
    """One piece of evidence for each part that is described again."""
    for name, first, again in facts.circuit.repeated:
        yield Evidence(what=f"{name} is described twice", parts=(name,), places=(again, first))
