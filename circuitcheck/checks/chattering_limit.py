"""A limit that lets its axis spring or coast off it, and then be driven onto it again, without end."""

from collections.abc import Iterator

from circuitcheck.analysis.chattering import chatter
from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.travel import motors_of
from circuitcheck.checks.check import Check, Evidence, Example

CHECK = Check(
    name="chattering-limit",
    severity="warning",
    finds="A limit or cam switch that stops an axis and starts it again as soon as it has gone back a little, without "
    "end: a warning where the axis is said to spring back, a note where its motor isn't braked.",
    proves="No axis that springs back, or stops without a brake, is driven onto its limit again and again.",
    why="The relay and the limit switch work several times a second, each time at the motor's full current, until "
    "their contacts weld or burn away.",
    how="From every rest at which an axis stands on a switch and nothing drives it, it is let go one zone off the "
    "switch; relays, timers and motors are followed with all controls left alone, and it is let go again wherever "
    "they bring it to such a rest. If they lead back to the same one, off one switch or several in turn, it goes on so "
    "for ever.",
    remedy="Let the limit break the seal of a relay that holds itself in, so that only a hand starts it again; or "
    "brake the motor, and fit a switch that lets go late.",
    limits="Whether an axis springs back is for the plan to say: `axis deck from bottom to top, 70 deg, springs back`. "
    "Without that a braked motor is taken to hold its axis, and one without a brake to let it go on, in either "
    "direction, by one zone. Controls that spring back are let go: whoever holds a button down hears the relay.",
    wrong=(
        Example(
            "a deck with springs under its stop, driven by a switch that stays where it is",
            """
            supply PS 12 V 10 A
            fuse   F1 5 A
            switch S1 dpdt positions raise off lower
            axis   deck from bottom to top, 70 deg, springs back #! chattering-limit chattering-limit
            limit  LS1 nc on deck at top
            limit  LS2 nc on deck at bottom
            motor  M1 12 V stall 5 A drives deck toward top may coast
            rung   PS.+, F1, S1.com1
            rung   S1.raise1, LS1.com-nc, M1, S1.raise2
            rung   S1.lower1, LS2.com-nc, M1.-
            rung   S1.lower2, M1.+
            wire   S1.com2 PS.-
            """,
        ),
    ),
    right=(
        Example(
            "a drum on a rubber belt that START turns once round: its cam breaks the seal",
            """
            supply PS 12 V 10 A
            fuse   F1 5 A
            button START no
            relay  K1 dpdt coil 12 V 160 ohm with diode
            axis   drum turning through park half, springs back
            cam    CS1 nc on drum at park
            motor  M1 12 V stall 5 A drives drum toward half
            rung   PS.+, F1, ( START | CS1.com-nc, K1.11-14 ), K1.A1-A2, PS.-
            rung   F1.2, K1.24-21, M1, PS.-
            wire   K1.22 PS.-
            """,
        ),
    ),
)


def find(facts: Facts) -> Iterator[Evidence]:
    """One piece of evidence for each axis and limit."""
    yield from facts.likeness.of_each("axis", lambda number: _of_axis(facts, number))


def _of_axis(facts: Facts, number: int) -> Iterator[Evidence]:
    axis = facts.circuit.axes[number]
    for found in chatter(facts, number):
        names = (axis.name, found.limit.name, *motors_of(facts, number))
        goes = "springs back off" if axis.springs_back else "runs off"
        yield Evidence(
            what=f"{axis.name} {goes} {found.limit.name} and is driven onto it again and again, with {{state}}",
            parts=names,
            states=found.states,
            sequel=found.sequel,
            severity="" if axis.springs_back else "note",
        )
