"""The words of a motion report: ranges with their units, what ends a drive, what was taken for what the plan lacks."""

from collections.abc import Iterator
from math import isinf
from typing import Final

from circuitcheck.analysis.motion.answers import Motion, Sense, Stop
from circuitcheck.analysis.motion.constants import RAD_PER_RPM
from circuitcheck.analysis.motion.contact_times import TRANSFER, ContactTimes
from circuitcheck.analysis.motion.cuts import ENDLESS, SHORTED, WEAK
from circuitcheck.analysis.motion.known import Wanted
from circuitcheck.analysis.motion.rooms import CAM, OVERTRAVEL
from circuitcheck.checks.narration import digit_words
from circuitcheck.checks.ranges_told import span_words, turn_words
from circuitcheck.circuit.model import Axis, Circuit, Motor

RPM: Final = 1 / RAD_PER_RPM
MILLISECONDS: Final = 1e3

ALWAYS_TAKEN: Final = (
    "A motor has come to its full speed before it is stopped; one that hasn't stops sooner. It is cold.",
    "A hand's own time on a switch is not counted, nor what a motor's own volts do to relays when the power fails.",
    "An axis turns with the motor's output shaft, or hangs on a drum on it. Play and elastic ropes are not counted.",
)
"""What every answer rests on."""
UNRECKONED: Final = {
    WEAK: "not worked out: on the way it is fed through another load",
    SHORTED: "not worked out: on the way the supply is shorted",
    ENDLESS: "not worked out: relays go on moving for ever",
}

SHORTING: Final = "Operation shorts a supply: `circuitcheck check` tells how. What motors do then is left out."


def time_words(seconds: float) -> str:
    """ "388 ms", "2.1 s"."""
    return f"{seconds * 1e3:.3g} ms" if seconds < 0.9995 else f"{seconds:.3g} s"


def axis_of(circuit: Circuit, motor: Motor) -> Axis | None:
    """What the motor moves."""
    return None if motor.axis is None else circuit.axes[motor.axis]


def sense_words(circuit: Circuit, motor: Motor, sense: Sense) -> str:
    """ "M1 forward, deck toward top"."""
    way, axis = "forward" if sense.direction > 0 else "reverse", axis_of(circuit, motor)
    if axis is None:
        return f"{motor.name} {way}"
    if axis.turning:
        return f"{motor.name} {way}, {axis.name} through {' '.join(axis.places[:: 1 if sense.upward else -1])}"
    return f"{motor.name} {way}, {axis.name} toward {axis.places[-1 if sense.upward else 0]}"


def cause_words(circuit: Circuit, stop: Stop) -> str:
    """ "S1 off, ES1 pressed", each as the plan words it; the switches of an axis before where it is."""
    words = []
    for cause in stop.causes:
        switches = " ".join(circuit.limits[one].name for one in cause.limits)
        place = digit_words(circuit, cause.digit, cause.end)
        if cause.kind == "timer":
            place = f"{circuit.digits[cause.digit].name}'s time is up"
        words.append(f"{switches}, {place}" if switches else place)
    return ", ".join(dict.fromkeys(words))


def in_order(stops: tuple[Stop, ...]) -> list[Stop]:
    """Those at limits and cams first."""
    return sorted(stops, key=lambda stop: stop.room is None)


def room_words(axis: Axis | None, stop: Stop) -> str:
    """ "overtravel 15 deg: fits"; "" where the stop has no bound."""
    if stop.room is None:
        return ""
    name = {OVERTRAVEL: "overtravel", CAM: "cam " + ", ".join(stop.room.switches)}[stop.room.kind]
    room = turn_words(axis, stop.room.radians) if stop.room.radians else "not given"
    return f"{name} {room}: {stop.verdict}"


def wanted_words(wanted: tuple[Wanted, ...]) -> str:
    """ "M1 `rotor 900 g cm2`, deck `inertia 0.3 kg m2`", each as it could be written."""
    return ", ".join(dict.fromkeys(f"{one.part} `{one.attribute}`" for one in wanted))


def remarks(circuit: Circuit, motor: Motor, sense: Sense) -> Iterator[str]:
    """What is worth saying of a direction besides its table."""
    axis = axis_of(circuit, motor)
    if sense.too_many:
        yield "Its relays can move in too many orders to tell how it stops."
    if axis is not None and not axis.turning and not any(stop.room for stop in sense.stops) and not sense.too_many:
        yield f"No limit switch ends its drive at {axis.places[-1 if sense.upward else 0]}."
    if axis is not None and axis.figures.gravity_newton_metres and sense.creeps and sense.creeps[1] > 0:
        rpm = span_words(sense.creeps, RPM, "rpm")
        yield (
            f"The weight of {axis.name} is more than friction may hold: braked, {motor.name} turns on toward "
            f"{axis.places[0]} at {rpm}, and free of its brake faster and faster. A brake by shorting holds nothing; a "
            "worm that locks is not reckoned with."
        )
    if sense.start is not None and isinf(sense.start.seconds[1]) and not sense.held:
        yield f"{motor.name} may not get {axis.name if axis else 'its shaft'} moving at all."
    endless = [stop for stop in in_order(sense.stops) if stop.whole is not None and isinf(stop.whole.turns[1])]
    if endless:
        causes = ", ".join(cause_words(circuit, stop) for stop in endless)
        yield f"After {causes} {motor.name} may never stop: its load pulls it on."


def taken(circuit: Circuit, motion: Motion) -> Iterator[str]:
    """What stands in for what the plan doesn't say, and what else the answers for a motor rest on."""
    yield from (f"{one}." for one in circuit.defaulted)
    motor = circuit.motors[motion.motor]
    axis = axis_of(circuit, motor)
    moving = sorted({relay for sense in motion.senses for stop in sense.stops for relay in stop.way.relays})
    for relay in moving:
        yield relay_words(circuit.relays[relay].name, motion.times[relay])
    travel = span_words(TRANSFER, MILLISECONDS, "ms")
    yield f"A contact travels {travel} from one side to the other: common practice, no source."
    if axis is not None and not motion.start_wanted:
        for name, given in (
            ("friction", axis.figures.friction_newton_metres),
            ("gravity", axis.figures.gravity_newton_metres),
        ):
            if given is None:
                yield f"The {name} of {axis.name} is taken as nothing, since the plan gives none."
    if motor.figures.stall_newton_metres is None and not motion.start_wanted:
        yield f"What {motor.name}'s gear loses isn't known: stops may be shorter than told, starts longer."
    if len(motor.windings) > 1:
        yield f"{motor.name}'s high brush has 1.5 times the speed and stall current; each range holds both brushes."
    for name in ("drive", "brake"):
        ohms = max((getattr(sense, name).ohms for sense in motion.senses), default=0.0)
        yield f"Wires and contacts in the {name} of {motor.name}: {span_words((0.0, ohms), 1, 'ohm')}."
    names = dict.fromkeys(
        name for sense in motion.senses for loop in (sense.drive, sense.brake) for name in loop.unmeasured
    )
    if names:
        yield f"Of no length or gauge, so of no resistance: {', '.join(names)}."


def relay_words(name: str, times: ContactTimes) -> str:
    """How long a relay takes, and where that is from."""
    said = {True: "from the plan", False: "usual, the plan gives none"}
    release = span_words(times.release, MILLISECONDS, "ms")
    operate = span_words(times.operate, MILLISECONDS, "ms")
    slowed = ", slowed by the diode across its coil" if times.slowed else ""
    return (
        f"{name} releases in {release}{slowed} ({said[times.release_told]}), operates in {operate} "
        f"({said[times.operate_told]})."
    )
