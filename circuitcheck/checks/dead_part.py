"""A part that no current ever flows through."""

from collections.abc import Iterator

from circuitcheck.analysis.dead_ends import dead_ends
from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.unfed import unfed_loads
from circuitcheck.checks.check import Check, Evidence, Example
from circuitcheck.circuit.wording import listed

CHECK = Check(
    name="dead-part",
    severity="warning",
    finds="A part that no current can flow through, however the contacts stand, though it is wired.",
    proves="Current can flow through every part that is wired.",
    why="A part is there to do something; one that can't is miswired, or a wire to it is missing.",
    how="Parts that no loop through a supply runs through, all contacts taken as closed, are found first. Then every "
    "load that has no volts in any combination of contacts, diodes in their direction.",
    remedy="Follow the part's way to + and to − and draw the wire that is missing, or turn the diode round that is in "
    "the way.",
    limits="Parts that are dead together are told in one finding. Where one of them lacks a wire outright, "
    "unwired-terminal tells it and nothing is said here. A contact of a part that is otherwise alive is for "
    "idle-contact. A resistor across a motor counts as a brake and needs no volts of its own.",
    wrong=(
        Example(
            "the curtain lamp's return goes to a way of the strip from which nothing goes on",
            """
            supply PS 12 V 10 A
            fuse   F1 3 A
            button PB1 PB2 no
            lamp   L1 12 V 5 W
            lamp   L2 12 V 5 W                                   #! dead-part
            strip  X1 2 ways
            rung   PS.+, F1, PB1, L1, X1.1, PS.-
            rung   F1.2, PB2, L2, X1.2
            """,
        ),
        Example(
            "a diode the wrong way round keeps the drawbridge relay from ever being fed",
            """
            supply PS 12 V 10 A
            fuse   F1 3 A
            switch S1 spdt positions raise lower
            diode  D1 D2
            relay  K1 K2 no coil 12 V 160 ohm with diode         #! dead-part
            lamp   L1 L2 12 V 2 W
            rung   PS.+, F1, S1.com-raise, D1, K1.A1-A2, PS.-
            rung   S1.lower, D2.cathode-anode, K2.A1-A2, PS.-
            rung   F1.2, K1.13-14, L1, PS.-
            rung   F1.2, K2.13-14, L2, PS.-
            """,
        ),
    ),
    right=(
        Example(
            "a fuse, a contact and a lamp that only current of another supply flows through",
            """
            supply PS1 12 V 10 A
            supply PS2 24 V 5 A
            fuse   F1 F2 3 A
            button PB1 no
            relay  K1 no coil 12 V 160 ohm with diode
            lamp   L1 24 V 5 W
            rung   PS1.+, F1, PB1, K1.A1-A2, PS1.-
            rung   PS2.+, F2, K1.13-14, L1, PS2.-
            """,
        ),
        Example(
            "a relay of the dragon's jaw brakes the motor through a resistor that is never fed itself",
            """
            supply PS 12 V 10 A
            fuse   F1 5 A
            button PB1 spdt
            motor  M1 12 V stall 5 A may coast
            resistor R1 1 ohm
            rung   PS.+, F1, PB1.14-11, M1, PS.-
            rung   PB1.12, R1, PS.-
            """,
        ),
    ),
)


def find(facts: Facts) -> Iterator[Evidence]:
    """One piece of evidence for each dead end, and for all loads that hang together unfed."""
    ends = dead_ends(facts.circuit)
    told = {part for end in ends for part in end.parts}
    unwired = {part for end in ends if end.unwired for part in end.parts}
    for parts in _sharing([[part for part in end.parts if part not in unwired] for end in ends]):
        lead, them = ("leads", "it") if len(parts) == 1 else ("lead", "them")
        what = f"{listed(parts, 'and')} {lead} nowhere: no loop through a supply runs through {them}"
        yield Evidence(parts=parts, what=what)
    for group in _together(facts, sorted(unfed_loads(facts))):
        loads = [facts.circuit.loads[number] for number in group if facts.circuit.loads[number].part not in told]
        # A resistor built into a relay is told with its coil.
        names = [load.name for load in loads if load.kind != "resistor" or load.name == load.part]
        if names:
            gets = "gets" if len(names) == 1 else "get"
            what = f"{listed(names, 'and')} {gets} no volts in any combination of contacts"
            yield Evidence(parts=tuple(dict.fromkeys(load.part for load in loads)), what=what)


def _sharing(ends: list[list[str]]) -> list[tuple[str, ...]]:
    """Dead ends that share a part are told as one, so that none of them goes before another."""
    groups: list[list[str]] = []
    for parts in filter(None, ends):
        shared = [group for group in groups if not set(group).isdisjoint(parts)]
        groups = [group for group in groups if group not in shared]
        groups.append([*dict.fromkeys(part for group in (*shared, parts) for part in group)])
    return [tuple(group) for group in groups]


def _together(facts: Facts, loads: list[int]) -> list[list[int]]:
    """Loads that share a net which no supply holds, or belong to one part, in one group."""
    network = facts.conduction.network
    groups: list[tuple[set[object], list[int]]] = []
    for load in loads:
        one = facts.circuit.loads[load]
        marks: set[object] = {net for net in (network.nets[one.a], network.nets[one.b]) if net not in network.rails}
        members = [load]
        for other_marks, others in [group for group in groups if group[0] & (marks | {one.part})]:
            marks |= other_marks
            members = others + members
        marks.add(one.part)
        groups = [group for group in groups if not group[0] & marks] + [(marks, members)]
    return [sorted(members) for _, members in groups]
