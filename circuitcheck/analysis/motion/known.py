"""What a plan's figures tell of one motor: its paces, or what is missing by name."""

from math import inf, log
from typing import Final, NamedTuple

from circuitcheck.analysis.motion.constants import (
    RAD_PER_DEGREE,
    RAD_PER_RPM,
    Armature,
    Load,
    Pace,
    armature,
    corners,
    measured_paces,
    paces,
    running_speed,
)
from circuitcheck.analysis.motion.cuts import BRAKED, COASTING, REVERSED
from circuitcheck.circuit.figures import MotorFigures, Span
from circuitcheck.circuit.model import Axis, Motor

HIGH_PER_LOW: Final = 1.5
"""The high brush of a two-speed motor against the low one: speed and stall current (mvwautotechniek.nl, permanent
magnet with third brush)."""
NEARLY: Final = 0.95
"""The share of its speed at which a motor counts as having started."""


class Wanted(NamedTuple):
    """An attribute that the plan lacks: of which part, and how it is written."""

    part: str
    attribute: str


class Start(NamedTuple):
    """From standstill: amps at the first moment; then seconds to 95 % of the running speed, and rad/s of that. A motor
    that its load may hold fast has inf seconds."""

    amps: Span
    seconds: Span
    speed: Span


MOTOR_WANTS: Final = {
    "stall_amps": "stall 18 A",
    "free_amps": "free 1.5 A",
    "free_rpm": "free 40 rpm",
    "rotor_kg_m2": "rotor 900 g cm2",
    "gear": "gear 60:1",
}
"""What the equations need of a motor, and how a plan writes it."""
MEASURED: Final = {BRAKED: ("brakes_degrees",), REVERSED: ("brakes_degrees",), COASTING: ("coasts_degrees",)}
MEASURED_WANTS: Final = {"coasts_degrees": "coasts 110 deg", "brakes_degrees": "brakes in 6 deg"}
BOTH: Final = ("coasts_degrees", "brakes_degrees")


def has_figures(motor: Motor) -> bool:
    """Does the plan say anything from which a way to stop could be reckoned? The circuit itself asks for amps only."""
    figures = motor.figures
    return any((figures.rotor_kg_m2, figures.gear, figures.coasts_degrees, figures.brakes_degrees))


def wanted_for_equations(motor: Motor, axis: Axis | None) -> tuple[Wanted, ...]:
    """What the equations need and the plan lacks."""
    wanted = [Wanted(motor.name, text) for name, text in MOTOR_WANTS.items() if getattr(motor.figures, name) is None]
    if axis is not None and axis.figures.inertia_kg_m2 is None:
        wanted.append(Wanted(axis.name, "inertia 0.3 kg m2"))
    return tuple(wanted)


def wanted_for_measured(motor: Motor, does: str) -> tuple[Wanted, ...]:
    """What stands in for the equations where it is measured, as far as the plan lacks it."""
    wanted = [] if motor.figures.free_rpm else [Wanted(motor.name, MOTOR_WANTS["free_rpm"])]
    names = MEASURED.get(does, BOTH)
    return (*wanted, *(Wanted(motor.name, MEASURED_WANTS[one]) for one in names if getattr(motor.figures, one) is None))


def pace_pairs(
    motor: Motor, axis: Axis | None, upward: bool, does: str, volts: Span, ohms: tuple[Span, Span]
) -> tuple[tuple[Pace, Pace], ...]:
    """The nearest and the furthest pace for a way that ends with what the motor `does`, one pair for each brush.

    ohms: of the wires and contacts in the drive and in the brake. Measured figures go before the equations. Empty where
    the plan lacks figures for both. Raises CannotBe.
    """
    brushes = (1.0,) if len(motor.windings) == 1 else (1.0, HIGH_PER_LOW)
    if not wanted_for_measured(motor, does):
        return tuple(_as_measured(motor, brush) for brush in brushes)
    if wanted_for_equations(motor, axis):
        return ()
    load = load_of(motor, axis, upward)
    return tuple(paces(armature_of(motor, brush), load, volts, *ohms) for brush in brushes)


def starts(motor: Motor, axis: Axis | None, upward: bool, volts: Span, ohms: Span) -> Start | None:
    """How the motor starts, None where the plan lacks a figure for it. A gear's losses make it slower.

    The speed rises as 1 - e^(-drag t), whatever friction and weight take of it.
    """
    if wanted_for_equations(motor, axis):
        return None
    load, starting = load_of(motor, axis, upward), []
    for brush in (1.0,) if len(motor.windings) == 1 else (1.0, HIGH_PER_LOW):
        machine = armature_of(motor, brush)
        gear = machine.efficiency or (1.0, 1.0)
        inertia = [load.rotor_inertia[end] + load.load_inertia[end] / gear[1 - end] for end in (0, 1)]
        outside = machine.ohms[0] + ohms[0], machine.ohms[1] + ohms[1]
        drags = machine.constant[0] ** 2 / outside[1], machine.constant[1] ** 2 / outside[0]
        speed = running_speed(machine, load, volts, ohms)
        seconds = [-log(1 - NEARLY) * inertia[end] / drags[1 - end] for end in (0, 1)]
        amps = corners(lambda supplied, resistance: supplied / resistance, volts, outside)
        starting.append(Start(amps, (seconds[0], seconds[1] if speed[0] > 0 else inf), speed))
    return Start(*(hull(*(one[place] for one in starting)) for place in range(3)))


def peak_reversed(motor: Motor, axis: Axis | None, upward: bool, volts: Span, ohms: Span) -> Span | None:
    """The current when a running motor is driven the other way: (V + E) / R, near twice the stall current."""
    figures = motor.figures
    if figures.stall_amps is None or figures.free_amps is None or figures.free_rpm is None:
        return None
    found = []
    for brush in (1.0,) if len(motor.windings) == 1 else (1.0, HIGH_PER_LOW):
        machine = armature_of(motor, brush)
        speed = running_speed(machine, load_of(motor, axis, upward), volts, ohms)
        generated = machine.constant[0] * speed[0], machine.constant[1] * speed[1]
        resistance = machine.ohms[0] + ohms[0], machine.ohms[1] + ohms[1]
        found.append(corners(lambda one, other, ohms: (one + other) / ohms, volts, generated, resistance))
    return hull(*found)


def armature_of(motor: Motor, brush: float = 1.0) -> Armature:
    """The motor's constants; brush: speed and stall current against those of the figures. Raises CannotBe."""
    figures: MotorFigures = motor.figures
    assert figures.stall_amps
    assert figures.free_amps
    assert figures.free_rpm
    stall, rpm = ((one[0] * brush, one[1] * brush) for one in (figures.stall_amps, figures.free_rpm))
    return armature(motor.volts, stall, figures.free_amps, rpm, figures.stall_newton_metres)


def load_of(motor: Motor, axis: Axis | None, upward: bool) -> Load:
    """What the motor moves; what the plan doesn't say of friction and weight is nothing."""
    rotor, gear, figures = (
        motor.figures.rotor_kg_m2 or (0.0, 0.0),
        motor.figures.gear or (1.0, 1.0),
        axis and axis.figures,
    )
    rotor_inertia = rotor[0] * gear[0] ** 2, rotor[1] * gear[1] ** 2
    nothing = 0.0, 0.0
    if figures is None:
        return Load(rotor_inertia, nothing, nothing, nothing)
    weight = figures.gravity_newton_metres or nothing
    pull = (-weight[1], -weight[0]) if upward else weight
    return Load(rotor_inertia, figures.inertia_kg_m2 or nothing, figures.friction_newton_metres or nothing, pull)


def creeping(motor: Motor, axis: Axis | None, upward: bool, ohms: Span) -> Span | None:
    """rad/s at which the load's weight turns a braked motor on (or back, where it pulls against this motion); (0, 0)
    where friction holds it, None where the figures don't tell. A worm that locks would hold it: not reckoned with."""
    if wanted_for_equations(motor, axis):
        return None
    machine, load = armature_of(motor), load_of(motor, axis, upward)
    weight = sorted((abs(load.pull[0]), abs(load.pull[1])))
    friction = [machine.friction[end] + load.friction[end] for end in (0, 1)]
    drags = [machine.constant[end] ** 2 / (machine.ohms[1 - end] + ohms[1 - end]) for end in (0, 1)]
    return max(weight[0] - friction[1], 0.0) / drags[1], max(weight[1] - friction[0], 0.0) / drags[0]


def hull(*spans: Span) -> Span:
    """The range that holds them all."""
    return min(one[0] for one in spans), max(one[1] for one in spans)


def _as_measured(motor: Motor, brush: float) -> tuple[Pace, Pace]:
    """At the high brush friction stays what it is; the drag is weaker as the speed is higher."""
    figures = motor.figures
    assert figures.free_rpm is not None
    speed = figures.free_rpm[0] * RAD_PER_RPM, figures.free_rpm[1] * RAD_PER_RPM
    angles = [one and (one[0] * RAD_PER_DEGREE, one[1] * RAD_PER_DEGREE) for one in figures[-2:]]
    near, far = measured_paces(motor.volts, speed, *angles)
    low, high = (one._replace(speed=one.speed * brush, drag=one.drag / brush) for one in (near, far))
    return low, high
