"""Relays that race: which one is quicker decides what the prop does."""

from collections.abc import Iterator

from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.settling import Unsettled, races
from circuitcheck.checks.check import Check, Evidence, Example
from circuitcheck.circuit.wording import listed

CHECK = Check(
    name="order-dependent",
    severity="warning",
    finds="Relays that want to move at once, where it hangs on which of them is quicker how it ends.",
    proves="However quick each relay is, after each change relays come to rest the same way.",
    why="Which relay is quicker changes with warmth, volts and age: what worked on the bench does otherwise on stage.",
    how="From power-up and after each single change that operation reaches, relays are let move one at a time, in "
    "every order that their operate and release times leave; it is asked whether more than one end can follow. It is "
    "an error where a motor does something else, a warning where only lamps or relays differ.",
    remedy="Let one command shut out the other before any relay (a contact of each button in the other's path), or "
    "give the relays operate and release times that leave no doubt.",
    limits="A relay without times may take any time. Where very many different times left would have to be told apart "
    "(many relays with times that hang on each other, or that go round for ever), every order counts. Orders in which "
    "a short is met or relays never rest are told by supply-short and never-settles. Relays that race while a hand "
    "switch is between two positions, and a hand that is quicker than a relay, are not looked at here.",
    wrong=(
        Example(
            "both buttons of a curtain held while the power comes: the quicker relay decides",
            """
            supply PS 12 V 10 A
            fuse   F1 7.5 A
            button PB1 PB2 no
            relay  K1 K2 spdt nc coil 12 V 160 ohm with diode    #! order-dependent
            motor  M1 12 V stall 10 A
            rung   PS.+, F1, PB1, K2.21-22, K1.A1-A2, PS.-
            rung   F1.2, PB2, K1.21-22, K2.A1-A2, PS.-
            rung   F1.2, K1.14-11, M1, K2.11-14, F1.2
            rung   K1.12, PS.-
            rung   K2.12, PS.-
            """,
        ),
        Example(
            "which of two cue lamps holds, where both are called at once",
            """
            supply PS 12 V 10 A
            fuse   F1 3 A
            button PB1 no
            relay  K1 K2 no nc coil 12 V 160 ohm with diode      #! order-dependent
            lamp   L1 L2 12 V 2 W
            rung   PS.+, F1, PB1, K2.21-22, K1.A1-A2, PS.-
            rung   PB1.14, K1.21-22, K2.A1-A2, PS.-
            rung   F1.2, K1.13-14, L1, PS.-
            rung   F1.2, K2.13-14, L2, PS.-
            """,
        ),
    ),
    right=(
        Example(
            "each button's second contact shuts the other command out",
            """
            supply PS 12 V 10 A
            fuse   F1 7.5 A
            button PB1 PB2 no nc
            relay  K1 K2 spdt nc coil 12 V 160 ohm with diode
            motor  M1 12 V stall 10 A
            rung   PS.+, F1, PB1.13-14, PB2.21-22, K2.21-22, K1.A1-A2, PS.-
            rung   F1.2, PB2.13-14, PB1.21-22, K1.21-22, K2.A1-A2, PS.-
            rung   F1.2, K1.14-11, M1, K2.11-14, F1.2
            rung   K1.12, PS.-
            rung   K2.12, PS.-
            """,
        ),
        Example(
            "the same two buttons where one relay is known to be the quicker one",
            """
            supply PS 12 V 10 A
            fuse   F1 7.5 A
            button PB1 PB2 no
            relay  K1 spdt nc coil 12 V 160 ohm operate 2..5 ms release 1..4 ms with diode
            relay  K2 spdt nc coil 12 V 160 ohm operate 8..15 ms release 1..4 ms with diode
            motor  M1 12 V stall 10 A
            rung   PS.+, F1, PB1, K2.21-22, K1.A1-A2, PS.-
            rung   F1.2, PB2, K1.21-22, K2.A1-A2, PS.-
            rung   F1.2, K1.14-11, M1, K2.11-14, F1.2
            rung   K1.12, PS.-
            rung   K2.12, PS.-
            """,
        ),
    ),
)


def find(facts: Facts) -> Iterator[Evidence]:
    """One piece of evidence for each group of relays that race."""
    for race in races(facts):
        relays = [facts.circuit.relays[relay].name for relay in race.relays]
        names = tuple(dict.fromkeys((*relays, race.name)))
        yield Evidence(
            what=f"{listed(relays, 'and')} race with {{state}}: {_outcome(race)}",
            parts=names,
            severity="error" if any(motor.name == race.name for motor in facts.circuit.motors) else "",
            states=facts.spaces.over(race.behaviour.space, race.over(race.starts)),
            unsettled=race,
        )


def _outcome(race: Unsettled) -> str:
    """ "which is quicker decides whether M1 ends up forward or reverse"."""
    words = [word for word, leading in zip(race.words, race.leading, strict=True) if leading & race.starts]
    return f"which one is quicker decides whether {race.name} ends up {listed(words, 'or')}"
