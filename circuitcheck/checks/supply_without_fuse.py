"""A way from + to − that no fuse guards."""

from collections.abc import Iterator

from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.states import States
from circuitcheck.analysis.unfused import Step, unfused_way
from circuitcheck.checks.check import Check, Evidence, Example
from circuitcheck.circuit.model import Supply

CHECK = Check(
    name="supply-without-fuse",
    severity="warning",
    finds="A way from + to − of a supply, through loads and contacts, on which there is no fuse.",
    proves="Every way from + to − of every supply leads through a fuse.",
    why="When a wire chafes through or a motor jams on that way, nothing breaks the current before something burns.",
    how="A shortest way past all fuses is looked for, with every contact closed and diodes in their direction.",
    remedy="Put the fuse first after + of the supply, so that every way leads through it.",
    limits="One way is told for each supply; there may be more. Whether the fuse suits the wires is not looked at "
    "here, nor what the supply limits by itself.",
    wrong=(
        Example(
            "the lighthouse lamp is wired straight to the battery, past the fuse",
            """
            supply PS 12 V 10 A                                  #! supply-without-fuse
            fuse   F1 3 A
            button PB1 PB2 no
            lamp   L1 L2 12 V 5 W
            rung   PS.+, F1, PB1, L1, PS.-
            rung   PS.+, PB2, L2, PS.-
            """,
        ),
    ),
    right=(
        Example(
            "a fuse in the return guards the same lamp",
            """
            supply PS 12 V 10 A
            fuse   F1 F2 3 A
            button PB1 PB2 no
            lamp   L1 L2 12 V 5 W
            rung   PS.+, F1, PB1, L1, PS.-
            rung   PS.+, PB2, L2, F2, PS.-
            """,
        ),
    ),
)


def find(facts: Facts) -> Iterator[Evidence]:
    """One piece of evidence for each supply with a way past the fuses."""
    for supply in facts.circuit.supplies:
        way = unfused_way(facts.circuit, supply)
        if not way:
            continue
        parts = tuple(dict.fromkeys(step.part for step in way if step.part))
        through = f"through {', '.join(parts)}" if parts else "over wires alone"
        yield Evidence(
            what=f"{supply.name} feeds a way that has no fuse, {through}",
            parts=(supply.name, *parts),
            states=_states_on(facts, supply, way),
            way=_stretches((supply.plus, *(step.end for step in way))),
            through=tuple(step.load for step in way if step.load is not None),
        )


def _states_on(facts: Facts, supply: Supply, way: tuple[Step, ...]) -> States | None:
    """The states in which the way is closed. None where operation gets to none of them: the fuse is missing anyway."""
    states = facts.spaces.where(supply.digit, (1,))
    for step in way:
        if step.closed is not None:
            states = states & facts.spaces.where(step.closed.digit, step.closed.values)
    return states if facts.reached(facts.possible(states)) else None


def _stretches(terminals: tuple[str, ...]) -> tuple[tuple[str, str], ...]:
    """The way in pairs, so that it is followed as it is and not by a shorter way over a fuse."""
    last = len(terminals) - 1
    return tuple((terminals[place], terminals[min(place + 1, last)]) for place in range(0, last + 1, 2))
