"""Relays that break their own coils and go on for ever."""

from collections.abc import Iterator

from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.settling import endless
from circuitcheck.checks.check import Check, Evidence, Example
from circuitcheck.circuit.wording import listed

CHECK = Check(
    name="never-settles",
    severity="error",
    finds="Relays that can't come to rest though no control is touched, as one that breaks its own coil.",
    proves="After each change all relays come to rest.",
    why="It buzzes some dozens of times a second until its contacts burn off or weld.",
    how="From power-up and after each single change that operation reaches, relays are let move one at a time, in "
    "every order that their operate and release times leave; it is asked whether they can come into states that they "
    "go through for ever.",
    remedy="Take the contact that opens the coil's path out of it, or let another contact hold the coil meanwhile.",
    limits="Relays that may go round for a while, but can come to rest at each time, are not told. What timers, motors "
    "and limits do to and fro is told by hunting-axis. Where very many different times left would have to be told "
    "apart (many relays with times that hang on each other, or that go round for ever), every order counts: then a "
    "round that only relays' times keep going is not told.",
    wrong=(
        Example(
            "a dragon's roar: the buzzer relay's coil goes through its own resting contact",
            """
            supply PS 12 V 10 A
            fuse   F1 3 A
            button PB1 no
            relay  K1 no nc coil 12 V 160 ohm with diode         #! never-settles
            lamp   L1 12 V 2 W
            rung   PS.+, F1, PB1, K1.21-22, K1.A1-A2, PS.-
            rung   F1.2, K1.13-14, L1, PS.-
            """,
        ),
        Example(
            "three relays in a ring, each dropped by the one before",
            """
            supply PS 12 V 10 A
            fuse   F1 3 A
            button PB1 no
            relay  K1 K2 K3 nc coil 12 V 160 ohm with diode      #! never-settles
            rung   PS.+, F1, PB1, K3.11-12, K1.A1-A2, PS.-
            rung   PB1.14, K1.11-12, K2.A1-A2, PS.-
            rung   PB1.14, K2.11-12, K3.A1-A2, PS.-
            """,
        ),
    ),
    right=(
        Example(
            "the relay holds itself by a working contact",
            """
            supply PS 12 V 10 A
            fuse   F1 3 A
            button PB1 no
            relay  K1 no no coil 12 V 160 ohm with diode
            lamp   L1 12 V 2 W
            rung   PS.+, F1, ( PB1 | K1.13-14 ), K1.A1-A2, PS.-
            rung   F1.2, K1.23-24, L1, PS.-
            """,
        ),
    ),
)


def find(facts: Facts) -> Iterator[Evidence]:
    """One piece of evidence for each group of relays that never rest."""
    for found in endless(facts):
        relays = tuple(facts.circuit.relays[relay].name for relay in found.relays)
        comes = "come" if len(relays) > 1 else "comes"
        yield Evidence(
            what=f"{listed(list(relays), 'and')} never {comes} to rest with {{state}}",
            parts=relays,
            states=facts.spaces.over(found.behaviour.space, found.over(found.starts)),
            unsettled=found,
        )
