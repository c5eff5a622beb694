"""An axis that power may find where nothing leads it to a limit switch."""

from collections.abc import Iterator

from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.homing import has_known_places, lost
from circuitcheck.analysis.travel import ends_of_axis, is_ever_brought_to, motors_of
from circuitcheck.checks.check import Check, Evidence, Example

CHECK = Check(
    name="lost-axis",
    severity="error",
    finds="A position in which power may come up and from which no working of the controls brings the axis to any of "
    "its limit switches.",
    proves="Wherever power finds an axis, and whatever the controls and latching relays are at, working the controls "
    "brings it to one of its limit switches.",
    why="After a power failure nobody knows where the prop stands; from there it has to be cranked home by hand, with "
    "the show waiting.",
    how="Power comes up with the axis in every zone of its range, every control at every position, latching relays as "
    "they may have been left. Every way of working controls, supplies and outside contacts is followed, with all that "
    "relays and motors do, until a limit or cam switch of the axis is pressed.",
    remedy="Let the controls drive the axis wherever it stands, and let limit switches open only the way outward; what "
    "carries the axis on over the last stretch must not hang on where it was before.",
    limits="An axis without limit or cam switches has no known place, and is not judged; nor is one that no control "
    "brings to either of its ends, which `hunting-axis` tells.",
    wrong=(
        Example(
            "a drum that START turns from its park position only: stopped halfway, it stays there",
            """
            supply PS 12 V 10 A
            fuse   F1 5 A
            button START no
            button STOP nc
            relay  K1 dpdt coil 12 V 160 ohm with diode
            axis   drum turning through park half                #! lost-axis
            cam    CS1 no on drum at park
            motor  M1 12 V stall 5 A drives drum toward half
            rung   PS.+, F1, STOP, ( START, CS1.com-no | K1.11-14 ), K1.A1-A2, PS.-
            rung   F1.2, K1.24-21, M1, PS.-
            wire   K1.22 PS.-
            """,
        ),
    ),
    right=(
        Example(
            "a drum that START turns from anywhere, and a lamp tells when it is at park",
            """
            supply PS 12 V 10 A
            fuse   F1 5 A
            button START no
            button STOP nc
            relay  K1 dpdt coil 12 V 160 ohm with diode
            lamp   L1 12 V 2 W
            axis   drum turning through park half
            cam    CS1 no on drum at park
            motor  M1 12 V stall 5 A drives drum toward half
            rung   PS.+, F1, STOP, ( START | K1.11-14 ), K1.A1-A2, PS.-
            rung   F1.2, K1.24-21, M1, PS.-
            wire   K1.22 PS.-
            rung   F1.2, CS1.com-no, L1, PS.-
            """,
        ),
    ),
)


def find(facts: Facts) -> Iterator[Evidence]:
    """One piece of evidence for each axis that some power-up loses."""
    yield from facts.likeness.of_each("axis", lambda number: _of_axis(facts, number))


def _of_axis(facts: Facts, number: int) -> Iterator[Evidence]:
    ends = tuple(ends_of_axis(facts, number))
    if not has_known_places(facts, number) or (ends and not any(is_ever_brought_to(facts, end) for end in ends)):
        return
    axis = facts.circuit.axes[number]
    states = lost(facts, number)
    if states:
        yield Evidence(
            what=f"{axis.name} can't be brought to any of its limit switches from where power may find it, with "
            "{state}",
            parts=(axis.name, *motors_of(facts, number)),
            states=states,
        )
