"""How long a motor takes to start, as far as the plan's figures tell.

A permanent magnet motor with an inertia J on its shaft comes to speed with the time constant J · ω / T, with ω its free
speed and T its stall torque; after three of them it lacks a twentieth of it. Friction and gravity are for the motion
report: they make it longer.
"""

from typing import Final

from circuitcheck.analysis.motion.constants import RAD_PER_RPM
from circuitcheck.circuit.model import Circuit, Motor

TIME_CONSTANTS: Final = 3.0


def start_seconds(circuit: Circuit, motor: Motor) -> float | None:
    """The longest start that the figures' ranges allow; None where one of them is missing."""
    figures, axis = motor.figures, circuit.axes[motor.axis].figures if motor.axis is not None else None
    if figures.free_rpm is None or figures.stall_newton_metres is None:
        return None
    rotor = figures.rotor_kg_m2[1] * (figures.gear[1] if figures.gear else 1.0) ** 2 if figures.rotor_kg_m2 else None
    moved = axis.inertia_kg_m2[1] if axis and axis.inertia_kg_m2 else None
    if rotor is None and moved is None:
        return None
    speed = figures.free_rpm[1] * RAD_PER_RPM
    return TIME_CONSTANTS * ((rotor or 0.0) + (moved or 0.0)) * speed / figures.stall_newton_metres[0]
