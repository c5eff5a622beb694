"""What is known of a motor's motion: how it starts, and every way in which it stops, with whether that fits."""

from collections.abc import Iterator
from typing import NamedTuple

from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.motion.constants import CannotBe, Pace
from circuitcheck.analysis.motion.contact_times import ContactTimes, contact_times
from circuitcheck.analysis.motion.cuts import REVERSED, Cause, TooManyOrders, Way, cuts_of
from circuitcheck.analysis.motion.known import (
    Start,
    Wanted,
    creeping,
    has_figures,
    hull,
    pace_pairs,
    peak_reversed,
    starts,
    wanted_for_equations,
    wanted_for_measured,
)
from circuitcheck.analysis.motion.loops import Loop, loop_of, together
from circuitcheck.analysis.motion.rooms import UNKNOWN, Room, room_after, verdict
from circuitcheck.analysis.motion.stops import UNKNOWN as UNRECKONED
from circuitcheck.analysis.motion.stops import Part, parts_of, total
from circuitcheck.analysis.states import States
from circuitcheck.circuit.figures import Span
from circuitcheck.circuit.model import Axis, Motor

USUAL_CELSIUS = 20.0
"""The wires' temperature where the plan gives no ambient."""


class Stop(NamedTuple):
    """One way to stop, and all that causes it.

    parts, whole: radians and seconds; none where figures are `wanted`, or the motor is neither driven, nor braked, nor
    open on the way. room: what it has to fit in. verdict: "" where there is none. amps: at their peak, of a motor that
    is thrown into reverse. pair: the paces of the furthest way and of the nearest.
    """

    direction: int
    causes: tuple[Cause, ...]
    way: Way
    parts: tuple[Part, ...]
    whole: Part | None
    room: Room | None
    verdict: str
    wanted: tuple[Wanted, ...]
    amps: Span | None
    pair: tuple[Pace, Pace] | None


class Sense(NamedTuple):
    """A motor in one direction (+1 forward, -1 reverse). upward: does its axis then go to higher places?

    volts: across the motor while it is driven. drive, brake: wires and contacts. creeps: rad/s at which the weight
    turns the braked motor; None where the figures don't tell. too_many: its relays move in too many orders to tell how
    it stops.
    """

    direction: int
    upward: bool
    volts: Span
    drive: Loop
    brake: Loop
    start: Start | None
    creeps: Span | None
    stops: tuple[Stop, ...]
    too_many: bool = False

    @property
    def held(self) -> bool:
        """Does its load surely hold the motor fast, or pull it the other way?"""
        return self.start is not None and not self.start.speed[1]


class Motion(NamedTuple):
    """Of one motor (by number). start_wanted: what the equations lack. contradiction: figures that no motor can have
    together, in words. times: of all relays."""

    motor: int
    senses: tuple[Sense, ...]
    start_wanted: tuple[Wanted, ...]
    contradiction: str
    times: dict[int, ContactTimes]


def motion_of(facts: Facts, number: int) -> Motion:
    """All that is known of the motion of a motor, over all states that operation reaches."""
    motor, times = facts.circuit.motors[number], contact_times(facts.circuit)
    axis = None if motor.axis is None else facts.circuit.axes[motor.axis]
    wanted = wanted_for_equations(motor, axis)
    try:
        senses = tuple(_senses(facts, number, times))
    except CannotBe as error:
        return Motion(number, (), wanted, str(error), times)
    return Motion(number, senses, wanted, "", times)


def limit_stops(facts: Facts, number: int) -> Iterator[Stop]:
    """The stops of a motor at the ends and cams of its axis, where the plan gives figures for them; else nothing is
    worked out. TooManyOrders is no stop."""
    motor = facts.circuit.motors[number]
    if motor.axis is None or not has_figures(motor):
        return
    for sense in motion_of(facts, number).senses:
        yield from (stop for stop in sense.stops if stop.room is not None)


def _senses(facts: Facts, number: int, times: dict[int, ContactTimes]) -> Iterator[Sense]:
    motor, does = facts.circuit.motors[number], facts.motors[number]
    axis = None if motor.axis is None else facts.circuit.axes[motor.axis]
    try:
        cuts, too_many = list(cuts_of(facts, number, times)), False
    except TooManyOrders:
        cuts, too_many = [], True
    brake = _brake(facts, motor, facts.reached(does.braked - facts.shorted))
    for direction, driven in ((1, does.forward), (-1, does.reverse)):
        driven = facts.reached(driven - facts.shorted)
        if not driven:
            continue
        upward = motor.upward == (direction > 0)
        volts, drive = _volts(facts, motor, direction, driven), _drive(facts, motor, direction, driven)
        known = motor, axis, upward, volts
        grouped: dict[tuple[Way, Room | None], list[Cause]] = {}
        for cut in cuts:
            if cut.direction == direction:
                grouped.setdefault((cut.way, room_after(facts.circuit, motor, cut.cause)), []).append(cut.cause)
        stops = [
            _stop(direction, known, (drive, brake), way, room, tuple(causes)) for (way, room), causes in grouped.items()
        ]
        start = starts(*known, (0.0, drive.ohms))
        creeps = creeping(motor, axis, upward, (0.0, brake.ohms))
        yield Sense(direction, upward, volts, drive, brake, start, creeps, tuple(stops), too_many)


def _stop(
    direction: int,
    known: tuple[Motor, Axis | None, bool, Span],
    loops: tuple[Loop, Loop],
    way: Way,
    room: Room | None,
    causes: tuple[Cause, ...],
) -> Stop:
    motor, axis, upward, volts = known
    ohms = (0.0, loops[0].ohms), (0.0, loops[1].ohms)
    amps = peak_reversed(motor, axis, upward, volts, ohms[0]) if REVERSED in way.does else None
    stop = Stop(
        direction, causes, way, (), None, room, UNKNOWN if room else "", room.wanted if room else (), amps, None
    )
    if UNRECKONED.intersection(way.does):
        return stop
    pairs = pace_pairs(motor, axis, upward, way.does[-1], volts, ohms)
    if not pairs:
        either = min(wanted_for_equations(motor, axis), wanted_for_measured(motor, way.does[-1]), key=len)
        return stop._replace(wanted=(*stop.wanted, *either))
    wholes = [total(way, near, far) for near, far in pairs]
    parts = [parts_of(way, near, far) for near, far in pairs]
    whole = Part(way.does[-1], hull(*(one.turns for one in wholes)), hull(*(one.lasts for one in wholes)))
    fits = verdict(whole.turns, room.radians) if room and room.radians else stop.verdict
    return stop._replace(parts=_joined(parts), whole=whole, verdict=fits, pair=(pairs[0][0], pairs[-1][1]))


def _joined(brushes: list[tuple[Part, ...]]) -> tuple[Part, ...]:
    """Part by part, over all brushes."""
    names = dict.fromkeys(part.does for parts in brushes for part in parts)
    alike = [[part for parts in brushes for part in parts if part.does == name] for name in names]
    return tuple(
        Part(same[0].does, hull(*(one.turns for one in same)), hull(*(one.lasts for one in same))) for same in alike
    )


def _volts(facts: Facts, motor: Motor, direction: int, driven: States) -> Span:
    """Across the windings in these states, with no resistance but that of loads."""
    found = [
        fed.volts
        for winding in motor.windings
        for fed in facts.volts[winding.load]
        if driven & (fed.forward if direction > 0 else fed.backward)
    ]
    return min(found), max(found)


def _drive(facts: Facts, motor: Motor, direction: int, driven: States) -> Loop:
    """From + of the supplies through the motor to their −, in series with what they have inside; the worst of them."""
    worst, celsius = Loop(0.0, ()), _celsius(facts)
    for supply in facts.circuit.supplies:
        for winding in motor.windings:
            ends = (winding.plus, winding.minus) if direction > 0 else (winding.minus, winding.plus)
            there = facts.conduction.leads(supply.plus, ends[0]) & driven
            both = there & facts.conduction.leads(ends[1], supply.minus)
            if both:
                out = loop_of(facts, supply.plus, ends[0], both, celsius)
                back = loop_of(facts, ends[1], supply.minus, both, celsius)
                loop = together([out, back, Loop(supply.internal_ohms, ())])
                worst = Loop(max(worst.ohms, loop.ohms), together([worst, loop]).unmeasured)
    return worst


def _brake(facts: Facts, motor: Motor, braked: States) -> Loop:
    loops = [loop_of(facts, one.plus, one.minus, braked, _celsius(facts)) for one in motor.windings]
    return Loop(max(one.ohms for one in loops), together(loops).unmeasured)


def _celsius(facts: Facts) -> float:
    ambient = facts.circuit.conditions.ambient_celsius
    return ambient[1] if ambient else USUAL_CELSIUS
