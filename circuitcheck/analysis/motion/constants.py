"""What a motor's figures say of it, each as a range: the constants of the armature equations.

    V = I R + K w      T = K I      at the gearbox's output shaft; V s/rad and N m/A are the same K

R = V / stall amps; K = (V - free amps R) / free speed; friction of motor and gear = K free amps. Sources: rice.edu/~jdw
242_lab5 for the equations, hscscience.com.au year 12 module 6 lesson 17 for stall and free running. The armature's
inductance is left out: its milliseconds are short against those of the shaft.

Ranges: each result changes in one sense only while one figure changes and the others stay, in whichever sense that is.
From any point within a box of figures one can then go to an end of each range in turn, and the result never falls; so
the greatest result is at a corner, and so is the least. `corners` asks for them all. Where results meet (friction and
speed in a way to stop, say) each is taken at its own worst, whether or not both can be so at once: nothing falls
outside.
"""

from collections.abc import Callable
from functools import lru_cache
from itertools import product
from math import inf, pi
from typing import Final, NamedTuple

from circuitcheck.analysis.linear import DIODE_VOLTS
from circuitcheck.analysis.motion.stretches import Stretch
from circuitcheck.circuit.figures import Span

RAD_PER_DEGREE: Final = pi / 180
RAD_PER_RPM: Final = pi / 30
FREE_TO_STALL: Final = 0.5
"""Free running takes less than half of the stall current in any motor that is worth its copper; up to there friction
rises with it."""


class Armature(NamedTuple):
    """constant: V s/rad and N m/A at the output shaft. ohms: of the armature. friction: of motor and gear, N m.
    speed: free running, rad/s. stall_amps, free_amps, volts: as rated. efficiency: of the gear when the motor drives,
    beyond what free running takes; None where it isn't known."""

    constant: Span
    ohms: Span
    friction: Span
    speed: Span
    stall_amps: Span
    free_amps: Span
    volts: float
    efficiency: Span | None


class CannotBe(Exception):
    """Figures that no motor can have together; its text says which and why."""


def corners(function: Callable[..., float], *spans: Span) -> Span:
    """The range of a function that is monotone in each of its arguments."""
    results = [function(*corner) for corner in product(*spans)]
    return min(results), max(results)


def armature(volts: float, stall_amps: Span, free_amps: Span, free_rpm: Span, stall_torque: Span | None) -> Armature:
    """The constants of a motor. Raises CannotBe where its figures contradict each other."""
    if free_amps[1] > FREE_TO_STALL * stall_amps[0]:
        raise CannotBe(f"{free_amps[1]:g} A free and {stall_amps[0]:g} A stalled: free it takes less than half as much")
    speed = free_rpm[0] * RAD_PER_RPM, free_rpm[1] * RAD_PER_RPM
    constant = corners(lambda stall, free, turning: volts * (1 - free / stall) / turning, stall_amps, free_amps, speed)
    friction = corners(
        lambda stall, free, turning: volts * (1 - free / stall) * free / turning, stall_amps, free_amps, speed
    )
    efficiency = None
    if stall_torque is not None:
        efficiency = _efficiency(volts, stall_amps, free_amps, speed, stall_torque)
    ohms = volts / stall_amps[1], volts / stall_amps[0]
    return Armature(constant, ohms, friction, speed, stall_amps, free_amps, volts, efficiency)


def _efficiency(volts: float, stall_amps: Span, free_amps: Span, speed: Span, stall_torque: Span) -> Span:
    """Stall torque over K (stall - free amps); data sheets that leave friction out of it come out at most as one."""

    def share(stall: float, free: float, turning: float, torque: float) -> float:
        return torque * turning / (volts * (1 - free / stall) * (stall - free))

    least, greatest = corners(share, stall_amps, free_amps, speed, stall_torque)
    return min(least, 1.0), min(greatest, 1.0)


def back_efficiency(forward: float) -> float:
    """What a gear passes on of a torque when its output drives its input: 2 - 1/efficiency, nothing below a half, where
    it locks itself (screw and worm, equal losses both ways: unseel.com worm-drive self-locking has the lock at a half;
    the formula from memory)."""
    return max(0.0, 2 - 1 / forward)


class Load(NamedTuple):
    """What hangs on the shaft. inertia: the rotor's share and the load's, kg m2; friction: of the load; pull: of its
    weight in the sense of motion, negative against it, N m."""

    rotor_inertia: Span
    load_inertia: Span
    friction: Span
    pull: Span


class Pace(NamedTuple):
    """All that a way to stop hangs on, for one combination of figures.

    speed: when the drive ends, rad/s. friction, pull: against motion and with it, rad/s2. drag: with the armature
    shorted, 1/s. push: what the supply gives at standstill, rad/s2. diode: the speed, rad/s, whose volts a diode in the
    way of the current takes up.
    """

    speed: float
    friction: float
    pull: float
    drag: float
    push: float
    diode: float


def paces(motor: Armature, load: Load, supply_volts: Span, drive_ohms: Span, brake_ohms: Span) -> tuple[Pace, Pace]:
    """The pace that goes least far after the drive ends, and the one that goes furthest.

    dw/dangle = -(friction - pull + drag w) / w: what turns further is more speed, more pull, less friction, drag or
    push against it, and more inertia, whatever the other five are.

    A gear's losses make every stop shorter, whichever way its teeth press: the furthest is reckoned without them. For
    the nearest the load's inertia counts only as far as the gear passes it on backward, and what holds the load back
    as if the motor had to overcome it.
    """
    speed = running_speed(motor, load, supply_volts, drive_ohms)
    forward = motor.efficiency[0] if motor.efficiency else 1.0
    back = back_efficiency(forward)
    heavy = load.rotor_inertia[1] + load.load_inertia[1]
    light = load.rotor_inertia[0] + back * load.load_inertia[0]
    strong, weak = motor.constant[1], motor.constant[0]
    drag = weak**2 / (motor.ohms[1] + brake_ohms[1]), strong**2 / (motor.ohms[0] + brake_ohms[0])
    push = (
        weak * supply_volts[0] / (motor.ohms[1] + drive_ohms[1]),
        strong * supply_volts[1] / (motor.ohms[0] + drive_ohms[0]),
    )
    friction = motor.friction[0] + load.friction[0], motor.friction[1] + load.friction[1] / forward
    against = load.pull[0] / forward if load.pull[0] < 0 else load.pull[0] * back
    near = Pace(speed[0], friction[1] / light, against / light, drag[1] / light, push[1] / light, DIODE_VOLTS / strong)
    far = Pace(
        speed[1], friction[0] / heavy, load.pull[1] / heavy, drag[0] / heavy, push[0] / heavy, DIODE_VOLTS / weak
    )
    return near, far


def running_speed(motor: Armature, load: Load, supply_volts: Span, ohms: Span) -> Span:
    """The speed that a driven motor comes to, rad/s; 0 where it may not get the load moving."""

    def free(volts: float, outside: float, stall: float, amps: float, turning: float) -> float:
        return (volts - (motor.volts / stall + outside) * amps) * turning / (motor.volts * (1 - amps / stall))

    without = corners(free, supply_volts, ohms, motor.stall_amps, motor.free_amps, motor.speed)
    gear = motor.efficiency or (1.0, 1.0)
    slow = max(load.friction[1] - load.pull[0], 0) / gear[0]
    slow += min(load.friction[1] - load.pull[0], 0) * back_efficiency(gear[0])
    quick = max(load.friction[0] - load.pull[1], 0) / gear[1] + min(load.friction[0] - load.pull[1], 0)
    slopes = (
        (motor.ohms[0] + ohms[0]) / motor.constant[1] ** 2,
        (motor.ohms[1] + ohms[1]) / motor.constant[0] ** 2,
    )
    least = without[0] - max(slow * slope for slope in slopes)
    greatest = without[1] - min(quick * slope for slope in slopes)
    return max(least, 0.0), max(greatest, 0.0)


@lru_cache(1_000)
def measured_paces(volts: float, speed: Span, coasts: Span | None, brakes: Span | None) -> tuple[Pace, Pace]:
    """The same for a motor of which it was measured how far it goes on from free speed (rad/s), left open and shorted
    (radians): friction and drag are such that both come out. What wasn't measured of the two lies between as much as
    the other and no end.

    Scaled by its speed the way to stop hangs on these angles alone, and times on how far the speed carries within them:
    more of each of the three goes further. Thrown into reverse a motor slows down more than braked, and at most as much
    as with all of its stop a drag, at full speed: 2 speed2 / angle.
    """
    assert coasts or brakes
    short = brakes or (0.0, 0.0)
    long = coasts or (short[0], inf)
    near = _measured(speed[0], max(long[0], short[0]), short[0])
    far = _measured(speed[1], max(long[1], short[1]), short[1])
    # K lies between half of the volts over the free speed and all of them, since free running takes less than half.
    drops = DIODE_VOLTS * speed[0] / volts, DIODE_VOLTS * speed[1] / volts / FREE_TO_STALL
    push = 2 * speed[0] ** 2 / short[0] if short[0] else 0.0
    return near._replace(push=push, diode=drops[0]), far._replace(diode=drops[1])


def _measured(speed: float, coasts: float, brakes: float) -> Pace:
    friction = speed**2 / (2 * coasts)
    drag = _drag(speed, friction, brakes) if 0 < brakes < coasts else 0.0
    return Pace(speed, friction, 0.0, drag, 0.0, 0.0)


def _drag(speed: float, friction: float, angle: float) -> float:
    """The drag with which friction and brake stop within an angle, by halving."""
    low, high = 0.0, speed / angle
    while low < (middle := (low + high) / 2) < high:
        if braked_angle(speed, friction, middle) > angle:
            low = middle
        else:
            high = middle
    return middle


def braked_angle(speed: float, friction: float, drag: float) -> float:
    """Radians that a shaft turns on with its armature shorted."""
    stretch = Stretch(inf, speed, -friction, drag)
    return stretch.turned_at(stretch.seconds_to(0.0))
