"""A motor that runs on further than there is room behind its limit or on its cam."""

from collections.abc import Iterator

from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.states import States
from circuitcheck.checks.check import Check, Evidence, Example
from circuitcheck.circuit.model import Axis, Motor

CHECK = Check(
    name="runs-past-limit",
    severity="error",
    finds="A motor that, after its limit switch has ended the drive, runs on into a hard stop, or through the cam that "
    "should keep its switch pressed: an error where it surely does, a warning where that hangs on the figures' range.",
    proves="Each motor of which the plan gives figures stops within its axis' overtravel and on its cam, whatever the "
    "figures are within their ranges.",
    why="A prop that hits its stop at speed bends or breaks; a drum that coasts through its cam starts again and never "
    "parks.",
    how="In all that operation leads to it is looked up what the motor does once the limit has switched: driven on "
    "while relays take their times, open while contacts travel, then braked or coasting. How far it turns meanwhile "
    "comes from its figures; ranges of figures give a range.",
    remedy="Brake the motor where it coasts, let the relay go quicker (a varistor or a zener at its coil instead of a "
    "plain diode), set the limit earlier, drive slower, or make more room.",
    limits="Only where the plan gives figures: of the motor (`free 40 rpm coasts 110 deg brakes in 6 deg`, or stall, "
    "free, rotor and gear with the axis' inertia) and of the room (`overtravel 5 deg`, a cam's `20 deg`). "
    "`circuitcheck motion` says what is missing, what stands in for it, and how the answer comes about.",
    wrong=(
        Example(
            "a deck that coasts past its limits into its stops",
            """
            supply PS 12 V 10 A
            fuse   F1 5 A
            switch S1 dpdt positions raise off lower
            axis   deck from bottom to top, overtravel 10 deg
            limit  TOP nc on deck at top
            limit  LOW nc on deck at bottom
            # Measured with the deck on it: left open it goes on a quarter turn and more.
            motor  M1 12 V free 40 rpm coasts 99 deg may coast drives deck toward top #! runs-past-limit runs-past-limit
            rung   PS.+, F1, S1.com1
            rung   S1.raise1, TOP.com-nc, M1, S1.raise2
            rung   S1.lower1, LOW.com-nc, M1.-
            rung   S1.lower2, M1.+
            wire   S1.com2 PS.-
            """,
        ),
    ),
    right=(
        Example(
            "two relays that brake the same motor, and let go in time",
            """
            supply PS 12 V 10 A
            fuse   F1 5 A
            switch S1 spdt positions raise off lower
            relay  K1 K2 spdt coil 12 V 160 ohm release 2..5 ms
            suppressor V1 V2 varistor
            axis   deck from bottom to top, overtravel 10 deg
            limit  TOP nc on deck at top
            limit  LOW nc on deck at bottom
            motor  M1 12 V free 40 rpm coasts 90..110 deg brakes in 6 deg drives deck toward top
            rung   PS.+, F1, S1.com
            rung   S1.raise, TOP, K1.A1-A2, PS.-
            rung   S1.lower, LOW, K2.A1-A2, PS.-
            rung   K1.A1, V1, K1.A2
            rung   K2.A1, V2, K2.A2
            rung   F1.2, K1.14-11, M1, K2.11-14, F1.2
            wire   K1.12 PS.-
            wire   K2.12 PS.-
            """,
        ),
    ),
)


def find(facts: Facts) -> Iterator[Evidence]:
    """One piece of evidence for each motor and switch; plans without figures cost nothing."""
    for number, motor in enumerate(facts.circuit.motors):
        axis = None if motor.axis is None else facts.circuit.axes[motor.axis]
        if axis is not None and _may_be_judged(facts, motor, axis):
            yield from _past(facts, number, motor, axis)


def _may_be_judged(facts: Facts, motor: Motor, axis: Axis) -> bool:
    figures = motor.figures
    told = figures.coasts_degrees or figures.brakes_degrees or figures.rotor_kg_m2
    room = axis.figures.overtravel_degrees or axis.figures.overtravel_metres
    cams = (limit.name for limit in facts.circuit.limits if facts.circuit.axes[limit.axis] == axis)
    return bool(told) and bool(room or any("degrees" in facts.circuit.parts[name].ratings for name in cams))


def _driven(facts: Facts, number: int, direction: int) -> States:
    does = facts.motors[number]
    return (does.forward if direction > 0 else does.reverse) - facts.shorted


def _past(facts: Facts, number: int, motor: Motor, axis: Axis) -> Iterator[Evidence]:
    # What works this out is loaded only for plans that give figures: everybody else shouldn't wait for it.
    from circuitcheck.analysis.motion.answers import limit_stops
    from circuitcheck.analysis.motion.rooms import CAM, DOES_NOT_FIT, HANGS
    from circuitcheck.checks.ranges_told import turn_words

    for stop in limit_stops(facts, number):
        if stop.room is None or stop.whole is None or stop.room.radians is None:
            continue
        if stop.verdict not in (DOES_NOT_FIT, HANGS):
            continue
        sure, switches = stop.verdict == DOES_NOT_FIT, " and ".join(stop.room.switches)
        goes = f"{'runs' if sure else 'may run'} on {turn_words(axis, stop.whole.turns)} after {switches} has switched"
        room = turn_words(axis, stop.room.radians)
        where = f"{switches} stays pressed for {room}" if stop.room.kind == CAM else f"{axis.name} has room for {room}"
        yield Evidence(
            what=f"{motor.name} {goes}, {stop.way.does[-1]} in the end, but {where}",
            parts=(motor.name, axis.name, *stop.room.switches),
            severity="error" if sure else "warning",
            states=_driven(facts, number, stop.direction) & facts.spaces.where(axis.digit, (stop.causes[0].start,)),
        )
