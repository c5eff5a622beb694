"""A way from + to − that no fuse guards."""

from collections.abc import Iterator

from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.states import States
from circuitcheck.analysis.unfused import Passed, unfused_ways
from circuitcheck.checks.check import Check, Evidence, Example
from circuitcheck.circuit.model import Supply

CHECK = Check(
    name="supply-without-fuse",
    severity="warning",
    finds="A way from + to − of a supply, through loads and contacts, on which there is no fuse.",
    proves="Every way from + to − of every supply leads through a fuse.",
    why="When a wire chafes through or a motor jams on that way, nothing breaks the current before something burns.",
    how="A way past all fuses through as few parts as possible is looked for, with every contact closed and diodes in "
    "their direction.",
    remedy="Put the fuse first after + of the supply, so that every way leads through it.",
    limits="One way is told for each supply, with the parts on others that pass as few; there may be longer ones. "
    "Whether the fuse suits the wires is not looked at here, nor what the supply limits by itself.",
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
        found = unfused_ways(facts.circuit, supply)
        if found is None:
            continue
        passed = [step.through for step in found.way if step.through is not None]
        parts = tuple(dict.fromkeys(one.part for one in passed))
        beside = tuple(dict.fromkeys(one.part for one in found.every if one.part not in parts))
        through = f"through {', '.join(parts)}" if parts else "over wires alone"
        others = f"; others that pass as few parts lead through {', '.join(beside)}" if beside else ""
        yield Evidence(
            what=f"{supply.name} feeds a way that has no fuse, {through}{others}",
            parts=(supply.name, *parts, *beside),
            states=_states_on(facts, supply, passed),
            way=_stretches((supply.plus, *(step.end for step in found.way))),
            through=tuple(one.load for one in passed if one.load is not None),
        )


def _states_on(facts: Facts, supply: Supply, passed: list[Passed]) -> States | None:
    """The states in which the way is closed. None where operation gets to none of them: the fuse is missing anyway."""
    states = facts.spaces.where(supply.digit, (1,))
    for one in passed:
        if one.closed is not None:
            states = states & facts.spaces.where(one.closed.digit, one.closed.values)
    return states if facts.reached(facts.possible(states)) else None


def _stretches(terminals: tuple[str, ...]) -> tuple[tuple[str, str], ...]:
    """The way in pairs, so that it is followed as it is and not by a shorter way over a fuse."""
    last = len(terminals) - 1
    return tuple((terminals[place], terminals[min(place + 1, last)]) for place in range(0, last + 1, 2))
