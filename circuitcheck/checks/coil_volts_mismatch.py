"""A coil on the wrong volts."""

from collections.abc import Iterator
from typing import Final

from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.states import union
from circuitcheck.checks.check import Check, Evidence, Example
from circuitcheck.circuit.model import Coil

MOST_SHARE: Final = 1.1
"""Of rated coil volts: IEC 61810-1, operative range class 1 (80 to 110 %), from memory."""

CHECK = Check(
    name="coil-volts-mismatch",
    severity="error",
    finds="A relay's coil that conductors alone feed with fewer volts than it operates at, or with more than 110 % of "
    "its rated volts.",
    proves="Every relay coil that conductors feed gets volts between what it operates at and 110 % of what it is made "
    "for.",
    why="With too few volts the relay stays released or chatters; with too many its coil gets hot and burns out.",
    how="In every combination in which conductors join the coil's ends to two rails, the volts between those rails "
    "are held against the coil's range.",
    remedy="Take a relay with a coil for these volts, or feed the coil from the supply that it was meant for.",
    limits="Volts that reach the coil through other loads are for relay-never-operates; too many of them are not "
    "looked at. The upper end is that of IEC 61810-1, class 1; a maker may allow more.",
    wrong=(
        Example(
            "a relay from the 24 V box in the 12 V drawbridge",
            """
            supply PS 12 V 10 A
            fuse   F1 3 A
            button PB1 no
            relay  K1 no coil 24 V 640 ohm with diode            #! coil-volts-mismatch
            lamp   L1 12 V 2 W
            rung   PS.+, F1, PB1, K1.A1-A2, PS.-
            rung   F1.2, K1.13-14, L1, PS.-
            """,
        ),
        Example(
            "a 12 V relay on the 24 V that drive the dragon's jaw",
            """
            supply PS 24 V 10 A
            fuse   F1 3 A
            button PB1 no
            relay  K1 no coil 12 V 160 ohm with diode            #! coil-volts-mismatch
            lamp   L1 24 V 2 W
            rung   PS.+, F1, PB1, K1.A1-A2, PS.-
            rung   F1.2, K1.13-14, L1, PS.-
            """,
        ),
    ),
    right=(
        Example(
            "a 12 V relay on a 13 V battery is within its range",
            """
            supply PS 13 V 10 A
            fuse   F1 3 A
            button PB1 no
            relay  K1 no coil 12 V 160 ohm with diode
            lamp   L1 12 V 2 W
            rung   PS.+, F1, PB1, K1.A1-A2, PS.-
            rung   F1.2, K1.13-14, L1, PS.-
            """,
        ),
        Example(
            "a 24 V relay that is said to operate from 11 V on",
            """
            supply PS 12 V 10 A
            fuse   F1 3 A
            button PB1 no
            relay  K1 no coil 24 V 640 ohm operate 11 V with diode
            lamp   L1 12 V 2 W
            rung   PS.+, F1, PB1, K1.A1-A2, PS.-
            rung   F1.2, K1.13-14, L1, PS.-
            """,
        ),
    ),
)


def find(facts: Facts) -> Iterator[Evidence]:
    """One piece of evidence for each coil and each of the wrong volts that it gets."""
    for relay in facts.circuit.relays:
        for coil in relay.inputs:
            yield from _mismatches(facts, coil)


def _mismatches(facts: Facts, coil: Coil) -> Iterator[Evidence]:
    load = facts.circuit.loads[coil.load]
    for volts in dict.fromkeys(fed.volts for fed in facts.feeding[coil.load].fed):
        if coil.operate_volts <= volts <= MOST_SHARE * load.volts:
            continue
        states = union(
            (fed.forward | fed.backward for fed in facts.feeding[coil.load].fed if fed.volts == volts),
            facts.spaces.none(),
        )
        weak = volts < coil.operate_volts
        limit = f"operates from {coil.operate_volts:g} V on" if weak else f"is rated {load.volts:g} V"
        yield Evidence(
            what=f"{load.name}'s {load.kind} gets {volts:g} V and {limit}, with {{state}}",
            parts=(load.part,),
            states=states,
        )
