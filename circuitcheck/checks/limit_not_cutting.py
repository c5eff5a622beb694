"""A motor that is driven on outward although its limit is reached."""

from collections.abc import Iterator

from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.once_broken import once_broken
from circuitcheck.analysis.states import States
from circuitcheck.analysis.supposed import limit_held
from circuitcheck.analysis.travel import (
    End,
    alone_changes_drive,
    drive_of,
    driven_outward,
    ends_of_axis,
    may_rest_driven_outward,
    motors_of,
)
from circuitcheck.analysis.wired import wired_terminals
from circuitcheck.checks.check import Check, Evidence, Example
from circuitcheck.checks.fault_words import after_opening
from circuitcheck.circuit.model import Limit, Terminal

CHECK = Check(
    name="limit-not-cutting",
    severity="error",
    finds="An axis at or past an end whose motor is still driven outward; a limit switch at an end that changes "
    "nothing in the drive; a limit switch that must close to stop the drive, so that a broken wire would leave it on.",
    proves="At and past its ends no axis is driven further outward; each limit there has a say in the drive, and a "
    "broken wire at it stops the drive too.",
    why="The motor runs into its stop and stalls there: it bends what it moves, strips its gear, and burns with its "
    "wires.",
    how="Every state at rest that operation reaches is looked at. Then the circuit is analysed again with the limit "
    "never pressed, and with each of its contacts never closing from any moment of sound operation on.",
    remedy="Lead the current of the outward drive, or of the relay that commands it, through the normally closed "
    "contact of a limit switch at that end.",
    limits="Only limit switches at the ends of an axis that doesn't turn round are judged. How far the motor runs on "
    "after the cut is not worked out here.",
    wrong=(
        Example(
            "a drawbridge with no limit at the top",
            """
            supply PS 12 V 10 A
            fuse   F1 5 A
            switch S1 dpdt positions raise off lower
            axis   deck from bottom to top                       #! limit-not-cutting
            limit  LOW spdt on deck at bottom
            motor  M1 12 V stall 10 A drives deck toward top may coast
            rung   PS.+, F1, S1.com1
            rung   S1.raise1, M1, S1.raise2
            rung   S1.lower1, LOW.com-nc, M1.-
            rung   S1.lower2, M1.+
            wire   S1.com2 PS.-
            """,
        ),
        Example(
            "a limit that has to pull in a relay to stop the deck: if its wire breaks, nothing does",
            """
            supply PS 12 V 10 A
            fuse   F1 5 A
            switch S1 dpdt positions raise off lower
            relay  K1 spdt coil 12 V 160 ohm with diode
            axis   deck from bottom to top
            limit  TOP spdt on deck at top                       #! limit-not-cutting
            limit  LOW spdt on deck at bottom
            motor  M1 12 V stall 10 A drives deck toward top may coast  #! wrong-way-pulse
            rung   PS.+, F1, S1.com1
            rung   S1.raise1, K1.11-12, M1, S1.raise2
            rung   S1.lower1, LOW.com-nc, M1.-
            rung   S1.lower2, M1.+
            wire   S1.com2 PS.-
            rung   F1.2, TOP.com-no, K1.A1-A2, PS.-
            """,
        ),
        Example(
            "a second limit at the top whose contact is bridged by a wire",
            """
            supply PS 12 V 10 A
            fuse   F1 5 A
            switch S1 dpdt positions raise off lower
            axis   deck from bottom to top
            limit  TOP spdt on deck at top
            limit  TOP2 spdt on deck at top                      #! limit-not-cutting
            limit  LOW spdt on deck at bottom
            motor  M1 12 V stall 10 A drives deck toward top may coast
            rung   PS.+, F1, S1.com1
            rung   S1.raise1, TOP.com-nc, TOP2.com-nc, M1, S1.raise2
            wire   TOP2.com TOP2.nc
            rung   S1.lower1, LOW.com-nc, M1.-
            rung   S1.lower2, M1.+
            wire   S1.com2 PS.-
            """,
        ),
    ),
    right=(
        Example(
            "a limit at each end, each with its normally closed contact in the feed outward",
            """
            supply PS 12 V 10 A
            fuse   F1 5 A
            switch S1 dpdt positions raise off lower
            axis   deck from bottom to top
            limit  TOP spdt on deck at top
            limit  LOW spdt on deck at bottom
            motor  M1 12 V stall 10 A drives deck toward top may coast
            rung   PS.+, F1, S1.com1
            rung   S1.raise1, TOP.com-nc, M1, S1.raise2
            rung   S1.lower1, LOW.com-nc, M1.-
            rung   S1.lower2, M1.+
            wire   S1.com2 PS.-
            """,
        ),
    ),
)


def find(facts: Facts) -> Iterator[Evidence]:
    """For each end: driven outward there; else each of its limits that changes nothing or fails to danger."""
    wired = wired_terminals(facts.circuit)
    yield from facts.likeness.of_each("axis", lambda number: _of_axis(facts, number, wired))


def _of_axis(facts: Facts, number: int, wired: frozenset[Terminal]) -> Iterator[Evidence]:
    for end in ends_of_axis(facts, number):
        limits = [limit for limit in facts.circuit.limits if limit.axis == end.axis and end.zone in limit.zones]
        outward = driven_outward(facts, end)
        if outward:
            yield _driven_on(facts, end, limits, outward)
            continue
        for limit in limits:
            if not wired.isdisjoint(facts.circuit.parts[limit.name].terminals):
                yield from _without_effect(facts, end, limit)
                yield from _failing_to_danger(facts, end, limit, wired)


def _driven_on(facts: Facts, end: End, limits: list[Limit], outward: States) -> Evidence:
    axis = facts.circuit.axes[end.axis]
    motors = motors_of(facts, end.axis)
    names = (*(limit.name for limit in limits), axis.name, *motors)
    missing = "" if limits else f"; no limit switch stands at {end.place}"
    return Evidence(
        what=f"{' and '.join(motors)} still drives {axis.name} on past {end.place} with {{state}}{missing}",
        parts=names,
        states=outward,
        lasting=True,
    )


def _without_effect(facts: Facts, end: End, limit: Limit) -> Iterator[Evidence]:
    """A limit that could as well be stuck on either side. One that only lights a lamp is told as a note."""
    zones = range(len(facts.circuit.digits[facts.circuit.axes[end.axis].digit].values))
    free = next((zone for zone in zones if zone not in limit.zones), None)
    if free is None or alone_changes_drive(facts, end, limit):
        return
    pressed = facts.of_other(limit_held(facts.circuit, limit, end.zone))
    released = facts.of_other(limit_held(facts.circuit, limit, free))
    if _same_drive(pressed, released, end.axis):
        axis = facts.circuit.axes[end.axis]
        yield Evidence(
            what=f"{limit.name} never changes what drives {axis.name}, pressed or not",
            parts=(limit.name,),
            severity="warning" if _same_lamps(pressed, released) else "note",
            remedy=f"Lead the drive toward {end.place} through {limit.name}, or leave it out.",
        )


def _failing_to_danger(facts: Facts, end: End, limit: Limit, wired: frozenset[Terminal]) -> Iterator[Evidence]:
    axis = facts.circuit.axes[end.axis]
    resting = may_rest_driven_outward(facts, end)
    for number in facts.conductors_of.get(limit.name, ()):
        conductor = facts.circuit.conductors[number]
        if conductor.closed is None or not {conductor.tail, conductor.head} <= wired:
            continue
        if not resting and conductor.closed.values.isdisjoint((end.zone, end.past)):
            continue
        broken = once_broken(facts, number)
        outward = driven_outward(broken, end)
        if outward:
            yield Evidence(
                what=f"{limit.name} stops {axis.name} at {end.place} only by closing {conductor.name}: "
                f"with a wire to it broken, {axis.name} is driven on with {{state}}",
                parts=(limit.name, axis.name),
                places=(facts.circuit.parts[limit.name].place,),
                states=outward,
                lasting=True,
                severity="warning",
                remedy=f"Let {limit.name} stop the drive by opening: use its normally closed contact.",
                reached="fault",
                sequel=after_opening(facts, broken, outward, conductor),
            )


def _same_drive(one: Facts, other: Facts, axis: int) -> bool:
    mine, its = drive_of(one, axis), drive_of(other, axis)
    return len(mine) == len(its) and all(here.same_as(there) for here, there in zip(mine, its, strict=True))


def _same_lamps(one: Facts, other: Facts) -> bool:
    return all(
        mine.lit.same_as(other.lamps[number].lit) and mine.glowing.same_as(other.lamps[number].glowing)
        for number, mine in one.lamps.items()
    )
