"""A relay's coil that gets too few volts once it is warm, or once wires and the supply take their share."""

from collections.abc import Iterator
from typing import TYPE_CHECKING, Final

from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.margins import could_starve
from circuitcheck.analysis.straight_way import straight_way
from circuitcheck.checks.check import Check, Evidence, Example

if TYPE_CHECKING:
    from circuitcheck.analysis.warm_coils import Starved

COLD_CELSIUS: Final = 20.0
"""Where the plan tells no ambient temperature: that at which coils and wires are rated."""

CHECK = Check(
    name="starved-coil",
    severity="error",
    finds="A relay's coil that no longer gets the volts that it operates at, once copper is as warm as the plan's "
    "ambient and wires, contacts and the supply take their share.",
    proves="Every coil that is called gets its operate volts at the plan's highest ambient, behind all the resistances "
    "that the plan tells.",
    why="The relay pulls in on the bench and fails at the end of a long cable, on a hot day, or just when the motor "
    "starts.",
    how="Where a relay is to move, the volts across its coil are worked out with the resistance of wires (stranded "
    "copper, IEC 60228 class 5), contacts and supplies. The volts that it needs rise by 0.393 % for each kelvin above "
    "20 °C, as its resistance does. What all other loads draw in the same state, motors at standstill, is taken off "
    "where it shares conductors or the supply with the coil.",
    remedy="Shorten the wire or take a thicker one, give the coil a wire of its own from the supply, take a coil that "
    "operates at fewer volts, or a stronger supply.",
    limits="Only what the plan tells counts: a wire without gauge or length, a contact without ohms take nothing. A "
    "coil is as warm as the ambient: what it heats itself by being on is not known. What others take is the most that "
    "they could at once: each draws as if it were alone, so many together are said to take a little more than they do. "
    "What they might add, between supplies of different volts, is left out; so is what the loss along a line drives "
    "through a load or a contact that joins two places of it, such as a braked motor. Two diodes side by side that "
    "lead opposite ways count as a wire. That a relay already operated stays so is not looked at here, nor what is "
    "left when a supply has reached its current limit.",
    wrong=(
        Example(
            "a relay at the far end of a thin cable",
            """
            supply PS 12 V 10 A
            fuse   F1 3 A
            button PB1 no
            relay  K1 no coil 12 V 60 ohm with diode             #! starved-coil
            lamp   L1 12 V 2 W
            wire   PS.+ F1.1
            wire   F1.2 PB1.13
            wire   PB1.14 K1.A1 : 0.05 mm2 25 m
            wire   K1.A2 PS.- : 0.05 mm2 25 m
            rung   F1.2, K1.13-14, L1, PS.-
            """,
        ),
        Example(
            "a coil behind a diode in the hot roof of the puppet theatre",
            """
            conditions ambient 5..70 °C
            supply PS 12 V 10 A
            fuse   F1 3 A
            button PB1 no
            diode  D1
            relay  K1 no coil 12 V 160 ohm with diode            #! starved-coil
            lamp   L1 12 V 2 W
            rung   PS.+, F1, PB1, D1, K1.A1-A2, PS.-
            rung   F1.2, K1.13-14, L1, PS.-
            """,
        ),
        Example(
            "a small supply that sags when the winch starts, just when the second relay is called",
            """
            supply PS 12 V 10 A internal 0.2 ohm
            fuse   F1 15 A
            button PB1 PB2 no
            relay  K1 spdt coil 12 V 160 ohm with diode
            relay  K2 no coil 12 V 160 ohm with diode            #! starved-coil
            motor  M1 12 V stall 16 A
            lamp   L1 12 V 2 W
            rung   PS.+, F1, PB1, K1.A1-A2, PS.-
            rung   F1.2, PB2, K2.A1-A2, PS.-
            rung   F1.2, K1.14-11, M1, PS.-
            wire   K1.12 PS.-
            rung   F1.2, K2.13-14, L1, PS.-
            """,
        ),
    ),
    right=(
        Example(
            "the same cable in 0.5 mm2",
            """
            supply PS 12 V 10 A
            fuse   F1 3 A
            button PB1 no
            relay  K1 no coil 12 V 60 ohm with diode
            lamp   L1 12 V 2 W
            wire   PS.+ F1.1
            wire   F1.2 PB1.13
            wire   PB1.14 K1.A1 : 0.5 mm2 25 m
            wire   K1.A2 PS.- : 0.5 mm2 25 m
            rung   F1.2, K1.13-14, L1, PS.-
            """,
        ),
        Example(
            "the hot roof without the diode",
            """
            conditions ambient 5..60 °C
            supply PS 12 V 10 A
            fuse   F1 3 A
            button PB1 no
            relay  K1 no coil 12 V 160 ohm with diode
            lamp   L1 12 V 2 W
            rung   PS.+, F1, PB1, K1.A1-A2, PS.-
            rung   F1.2, K1.13-14, L1, PS.-
            """,
        ),
    ),
)


def find(facts: Facts) -> Iterator[Evidence]:
    """One piece of evidence for each coil, in the state in which it gets least."""
    ambient = facts.circuit.conditions.ambient_celsius
    celsius = max(ambient[1], COLD_CELSIUS) if ambient else COLD_CELSIUS
    if could_starve(facts, celsius):
        from circuitcheck.analysis.warm_coils import starved_coils

        for starved in starved_coils(facts, celsius):
            yield _evidence(facts, starved, celsius)


def _evidence(facts: Facts, starved: "Starved", celsius: float) -> Evidence:
    load = facts.circuit.loads[starved.coil.load]
    warm = f" at {celsius:g} °C" if celsius > COLD_CELSIUS else ""
    others = starved.alone >= starved.needed
    share = ", while other loads take their share" if others else ""
    return Evidence(
        what=f"{load.name} {'may not' if others else 'does not'} get the {starved.needed:.3g} V that it needs{warm}: "
        f"{starved.volts:.3g} V are left for it{share}, with {{state}}",
        parts=(load.part,),
        states=starved.states,
        way=straight_way(facts, starved.coil.load),
        severity="warning" if others else "error",
    )
