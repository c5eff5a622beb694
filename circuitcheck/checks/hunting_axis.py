"""An axis that goes to and fro by itself, or never gets where it should."""

from collections.abc import Iterator

from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.travel import back_and_forth, ends_of_axis, is_ever_brought_to, motors_of
from circuitcheck.checks.check import Check, Evidence, Example

CHECK = Check(
    name="hunting-axis",
    severity="error",
    finds="An axis that turns back and forth while no control is touched, or an end that no setting of the controls "
    "ever brings it to.",
    proves="No axis turns back and forth by itself, and the controls can bring each axis to both its ends.",
    why="It hammers its gear and its relays until one of them fails, and does not do what its control says.",
    how="From every reached state, relays and motors are followed with all controls left alone; it is asked whether a "
    "drive one way, then the other way, leads back to where it began. For the ends it is asked whether any reached "
    "state drives the axis from inside to them.",
    remedy="Look for a path by which the limit that opens also feeds or drops the relay of the other direction, and "
    "block it with a diode or a contact of its own.",
    limits="An arm that springs or coasts back off its limit is not looked at here.",
    wrong=(
        Example(
            "told to raise, the deck lowers: the direction relay is fed backward through the lower limit",
            """
            supply PS 12 V 10 A
            fuse   F1 7.5 A
            switch S1 spdt positions raise off lower
            relay  K1 spdt coil 12 V 160 ohm with resistor 680 ohm operate 8..12 ms release 2..4 ms "run"
            relay  K2 dpdt coil 12 V 160 ohm with diode operate 3..6 ms release 8..15 ms "direction"
            axis   deck from bottom to top, 70 deg               #! hunting-axis hunting-axis
            limit  LS1 nc on deck at top
            limit  LS2 nc on deck at bottom                      #! sneak-path
            motor  M1 12 V stall 18 A drives deck toward top          #! plugged-motor
            rung   PS.+, F1, S1.com
            rung   S1.raise, LS1.com-nc, K1.A1-A2, PS.-
            rung   S1.lower, LS2.com-nc, K1.A1
            rung   S1.lower, K2.A1-A2, PS.-
            rung   F1.2, K1.14-11, K2.12, K2.24
            rung   PS.-, K1.12, K2.22, K2.14
            rung   K2.11, M1, K2.21
            """,
        ),
    ),
    right=(
        Example(
            "two steering diodes keep the limits apart",
            """
            supply PS 12 V 10 A
            fuse   F1 7.5 A
            switch S1 spdt positions raise off lower
            relay  K1 spdt coil 12 V 160 ohm with resistor 680 ohm operate 8..12 ms release 2..4 ms "run"
            relay  K2 dpdt coil 12 V 160 ohm with diode operate 3..6 ms release 8..15 ms "direction"
            diode  D1 D2
            axis   deck from bottom to top, 70 deg
            limit  LS1 nc on deck at top
            limit  LS2 nc on deck at bottom
            motor  M1 12 V stall 18 A drives deck toward top
            rung   PS.+, F1, S1.com
            rung   S1.raise, LS1.com-nc, D1, K1.A1-A2, PS.-
            rung   S1.lower, LS2.com-nc, D2, K1.A1
            rung   S1.lower, K2.A1-A2, PS.-
            rung   F1.2, K1.14-11, K2.12, K2.24
            rung   PS.-, K1.12, K2.22, K2.14
            rung   K2.11, M1, K2.21
            """,
        ),
        Example(
            "a drum with a single place, which goes round one way only",
            """
            supply PS 12 V 10 A
            fuse   F1 5 A
            switch S1 spst positions off on
            relay  K1 spdt coil 12 V 160 ohm with diode
            axis   drum turning through park
            cam    CS1 nc on drum at park
            motor  M1 12 V stall 5 A drives drum toward park
            rung   PS.+, F1, ( S1 | CS1.com-nc ), K1.A1-A2, PS.-
            rung   F1.2, K1.14-11, M1, PS.-
            wire   K1.12 PS.-
            """,
        ),
    ),
)


def find(facts: Facts) -> Iterator[Evidence]:
    """For each axis: the states in which it goes to and fro; for each of its ends: that it is never brought there."""
    yield from facts.likeness.of_each("axis", lambda number: _to_and_fro(facts, number))
    yield from facts.likeness.of_each("axis", lambda number: _never_there(facts, number))


def _to_and_fro(facts: Facts, number: int) -> Iterator[Evidence]:
    axis = facts.circuit.axes[number]
    hunting = back_and_forth(facts, number)
    if hunting:
        yield Evidence(
            what=f"{axis.name} turns back and forth by itself with {{state}}",
            parts=(axis.name, *motors_of(facts, number)),
            states=hunting,
        )


def _never_there(facts: Facts, number: int) -> Iterator[Evidence]:
    for end in ends_of_axis(facts, number):
        if not is_ever_brought_to(facts, end):
            axis = facts.circuit.axes[end.axis]
            names = (axis.name, *motors_of(facts, end.axis))
            yield Evidence(
                what=f"No setting of the controls ever brings {axis.name} to {end.place}",
                parts=names,
                why=f"Whatever is meant to happen at {end.place} never does.",
                remedy=f"Follow what drives {axis.name} toward {end.place}, from the control to the motor: somewhere "
                "on the way it is cut or turned round.",
            )
