"""A contact that does nothing."""

from collections.abc import Iterator
from typing import Final

from circuitcheck.analysis.dead_ends import dead_ends
from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.idle import idle_contacts
from circuitcheck.analysis.network import joined_terminals
from circuitcheck.analysis.travel import End, ends_of
from circuitcheck.analysis.unfed import brakes, unfed_loads
from circuitcheck.analysis.wired import unwired_terminals, wired_terminals
from circuitcheck.checks.check import Check, Evidence, Example
from circuitcheck.circuit.model import Limit
from circuitcheck.circuit.wording import listed

CHECK = Check(
    name="idle-contact",
    severity="warning",
    finds="A contact that is wired at both ends and never changes anything.",
    proves="Every contact that is wired at both ends changes something in some combination.",
    why="A contact is wired to switch something; one that doesn't is bypassed, leads nowhere or stands in the wrong "
    "place, and what it should keep from happening happens.",
    how="Each contact is held open, and every load's volts, every motor's braking and every short are compared with "
    "before, in every combination. Contacts side by side that close together are held open together.",
    remedy="Look for a wire that leads past the contact, or for the wire that should go on from it; else take it out.",
    limits="A contact that joins terminals of two supplies counts as doing something, and so does one near a resistor "
    "that brakes a motor. Nothing is said of contacts that feed a load found by dead-part, or that lead to a part "
    "with a wire missing. A limit switch at the end of a driven axis that does nothing at all is for "
    "limit-not-cutting.",
    wrong=(
        Example(
            "a wire leads past the drawbridge's upper limit switch",
            """
            supply PS 12 V 10 A
            fuse   F1 3 A
            button PB1 no
            axis   deck from bottom to top
            limit  LS1 nc on deck at top                         #! idle-contact
            lamp   L1 12 V 2 W
            rung   PS.+, F1, PB1, LS1, L1, PS.-
            wire   PB1.14 L1.1
            """,
        ),
        Example(
            "the second pole of the trapdoor relay leads to a strip and no further",
            """
            supply PS 12 V 10 A
            fuse   F1 3 A
            button PB1 no
            relay  K1 dpdt coil 12 V 160 ohm with diode          #! idle-contact
            lamp   L1 12 V 2 W
            strip  X1 1 ways
            rung   PS.+, F1, PB1, K1.A1-A2, PS.-
            rung   F1.2, K1.11-14, L1, PS.-
            rung   F1.2, K1.21-24, X1.1
            """,
        ),
        Example(
            "both ends of a lantern switch ended on the same wire",
            """
            supply PS 12 V 10 A
            fuse   F1 3 A
            button PB1 no
            switch S1 spst positions off on                      #! idle-contact
            lamp   L1 12 V 2 W
            resistor R1 30 ohm
            rung   PS.+, F1, PB1, L1, R1, PS.-
            rung   L1.1, S1, PB1.14
            """,
        ),
    ),
    right=(
        Example(
            "two poles of one relay side by side, so that each carries half of the floodlights' current",
            """
            supply PS 12 V 10 A
            fuse   F1 10 A
            button PB1 no
            relay  K1 dpdt coil 12 V 160 ohm with diode
            lamp   L1 L2 12 V 50 W
            rung   PS.+, F1, PB1, K1.A1-A2, PS.-
            rung   F1.2, ( K1.14-11 | K1.24-21 ), ( L1 | L2 ), PS.-
            """,
        ),
        Example(
            "a contact that only bypasses the resistor of the lantern, and so makes it brighter",
            """
            supply PS 12 V 10 A
            fuse   F1 3 A
            switch S1 spst positions off on
            button PB1 no
            lamp   L1 12 V 2 W
            resistor R1 30 ohm
            rung   PS.+, F1, S1, ( R1 | PB1 ), L1, PS.-
            """,
        ),
    ),
)

SOLDERED: Final = frozenset({"wire", "fuse", "pin"})
"""What a box is wired with. A brush that leads on over its motor's case is a mistake of its own."""


def find(facts: Facts) -> Iterator[Evidence]:
    """One piece of evidence for each part with contacts that do nothing."""
    idle = sorted(_idle(facts))
    names = _by_part(facts, idle)
    wired = _by_part(facts, sorted(_wired_contacts(facts)))
    limits = {limit.name for end in ends_of(facts) for limit in facts.circuit.limits if _stands_at(limit, end)}
    for part, contacts in names.items():
        if part in limits and contacts == wired[part]:
            continue
        change = "changes" if len(contacts) == 1 else "change"
        yield Evidence(
            what=f"{listed(contacts, 'and')} {change} nothing in any combination",
            parts=(part,),
        )


def _by_part(facts: Facts, contacts: list[int]) -> dict[str, list[str]]:
    names: dict[str, list[str]] = {}
    for number in contacts:
        contact = facts.circuit.conductors[number]
        names.setdefault(contact.part, []).append(contact.name)
    return names


def _stands_at(limit: Limit, end: End) -> bool:
    return limit.axis == end.axis and end.zone in limit.zones


def _wired_contacts(facts: Facts) -> set[int]:
    """The contacts with a wire at both ends, by index; not those that a motor's case leads past."""
    wired = wired_terminals(facts.circuit)
    nets, soldered = facts.conduction.network.nets, joined_terminals(facts.circuit, SOLDERED)
    return {
        number
        for number, one in enumerate(facts.circuit.conductors)
        if one.kind == "contact"
        and {one.tail, one.head} <= wired
        and (nets[one.tail] != nets[one.head] or soldered[one.tail] == soldered[one.head])
    }


def _idle(facts: Facts) -> Iterator[int]:
    """Contacts, by index, that lead nowhere by themselves or do nothing."""
    contacts = _wired_contacts(facts)
    for end in dead_ends(facts.circuit):
        here = contacts.intersection(end.conductors)
        contacts -= here
        if not end.parts and not end.unwired:
            yield from here
    circuit, wired = facts.circuit, wired_terminals(facts.circuit)
    lacking = {part.name for part in circuit.parts.values() if unwired_terminals(part, wired)}
    excused = {load for load, one in enumerate(circuit.loads) if one.part in lacking or brakes(facts, load)}
    excused |= unfed_loads(facts)
    for found in idle_contacts(facts, sorted(contacts)):
        if not excused.intersection(found.loads):
            yield from found.conductors
