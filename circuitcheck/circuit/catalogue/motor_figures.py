"""What a plan says of a motor's current, torque and speed, and figures that cannot meet.

Of a two-speed motor they are those of its low brush.
"""

import math

from circuitcheck.circuit.catalogue.attributes import Shape
from circuitcheck.circuit.catalogue.pieces import Described, refuse
from circuitcheck.circuit.figures import MotorFigures


def read_figures(part: Described) -> MotorFigures:
    """The figures as given, None for others; refuses those that no motor can have together."""
    span = part.given.span
    speeds = span("free", "rpm"), span("", "rpm")
    figures = MotorFigures(
        stall_amps=span("stall", "amps"),
        free_amps=span("free", "amps"),
        free_rpm=speeds[0] or speeds[1],
        stall_newton_metres=span("stall", "newton_metres"),
        rotor_kg_m2=span("rotor", "kg_m2"),
        gear=span("gear", "ratio"),
        coasts_degrees=span("coasts", "degrees"),
        brakes_degrees=span("brakes", "degrees"),
    )
    if all(speeds):
        what = f"the speed of {part.called} is given twice"
        raise refuse(part.given.places["free"], what, "Keep the one after `free`.")
    _see_that_currents_meet(part, figures)
    _see_that_power_meets(part, figures)
    _see_that_stops_meet(part, figures)
    return figures


def _see_that_currents_meet(part: Described, figures: MotorFigures) -> None:
    stall, free = figures.stall_amps, figures.free_amps
    if stall and free and free[0] >= stall[1]:
        what = f"{part.called} would draw {free[0]:g} A running free and {stall[1]:g} A stalled"
        raise refuse(part.given.places["free"], what, "A motor draws most when stalled and least when running free.")


def _see_that_power_meets(part: Described, figures: MotorFigures) -> None:
    """With V = I R + K ω and T = K I, stall torque times free speed is at most volts times stall current."""
    volts, amps = part.given.value("", "volts"), figures.stall_amps
    torque, speed = figures.stall_newton_metres, figures.free_rpm
    if not (volts and amps and torque and speed):
        return
    turned, fed = torque[0] * speed[0] * 2 * math.pi / 60, volts * amps[1]
    if turned > fed:
        what = f"{torque[0]:.3g} N m stalled and {speed[0]:g} rpm free are more than {volts:g} V and {amps[1]:g} A give"
        makes = f"Torque times speed makes {turned:.0f} W, volts times stall current {fed:.0f} W"
        help = f"{makes}: give both at the gearbox's shaft."
        raise refuse(part.given.places["stall"], what, help)


def _see_that_stops_meet(part: Described, figures: MotorFigures) -> None:
    coasts, brakes = figures.coasts_degrees, figures.brakes_degrees
    if coasts and brakes and brakes[0] > coasts[1]:
        what = f"{part.called} brakes in {brakes[0]:g} deg and coasts {coasts[1]:g} deg"
        raise refuse(part.given.places["brakes"], what, "A motor that is braked stops sooner than one left to coast.")


def _figure(*dimensions: str) -> Shape:
    return Shape(dimensions, ranged=dimensions)


FIGURES_TAKEN = {
    "stall": _figure("amps", "newton_metres"),
    "free": _figure("amps", "rpm"),
    "rotor": _figure("kg_m2"),
    "gear": _figure("ratio"),
    "coasts": _figure("degrees"),
    "brakes": _figure("degrees"),
}
