"""A terminal that the part can't do without, and no wire at it."""

from collections.abc import Iterator

from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.wired import unwired_terminals, wired_terminals
from circuitcheck.checks.check import Check, Evidence, Example
from circuitcheck.circuit.wording import listed

CHECK = Check(
    name="unwired-terminal",
    severity="warning",
    finds="A terminal that must have a wire and has none, or a part with no wire at all.",
    proves="Every terminal that must have a wire has one.",
    why="Either a wire is missing from the plan, or the part is, and whoever solders by the plan leaves it out.",
    how="The ends of all wires are gathered, those that rungs make included; no combination of contacts plays a part.",
    remedy="Draw the wire, or take the part out of the plan.",
    limits="Throws that a changeover contact leaves unused need no wire, nor do spare contacts of a part that has "
    "several, nor spare pins and ways. Whether a wire leads anywhere is for dead-part.",
    wrong=(
        Example(
            "the lighthouse lamp was forgotten on its return side",
            """
            supply PS 12 V 10 A
            fuse   F1 3 A
            switch S1 spst positions off on
            lamp   L1 12 V 5 W                                   #! unwired-terminal
            rung   PS.+, F1, S1, L1.1
            lamp   L2 12 V 5 W
            rung   S1.on, L2, PS.-
            """,
        ),
        Example(
            "a second fuse that nothing is wired to",
            """
            supply PS 12 V 10 A
            fuse   F1 3 A
            fuse   F2 3 A                                        #! unwired-terminal
            button PB1 no
            lamp   L1 12 V 5 W
            rung   PS.+, F1, PB1, L1, PS.-
            """,
        ),
    ),
    right=(
        Example(
            "a changeover switch with one throw left over, and a connector with a spare way",
            """
            supply PS 12 V 10 A
            fuse   F1 3 A
            switch S1 spdt positions dark bright
            connector J1 3 ways
            lamp   L1 12 V 5 W
            rung   PS.+, F1, S1.com-bright, J1.p1-s1, L1, J1.s2-p2, PS.-
            """,
        ),
    ),
)


def find(facts: Facts) -> Iterator[Evidence]:
    """One piece of evidence for each part that lacks a wire."""
    wired = wired_terminals(facts.circuit)
    for part in facts.circuit.parts.values():
        bare = unwired_terminals(part, wired)
        if bare:
            whole = len(bare) == len(part.terminals)
            what = f"{part.name} has no wire at all" if whole else f"{listed(bare, 'and')} {_has(bare)} no wire"
            yield Evidence(what=what, parts=(part.name,))


def _has(terminals: tuple[str, ...]) -> str:
    return "has" if len(terminals) == 1 else "have"
