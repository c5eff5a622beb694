"""A motor's constants and paces, worked out by hand at the ends of each figure."""

from itertools import product

import pytest

from circuitcheck.analysis.linear import DIODE_VOLTS
from circuitcheck.analysis.motion.constants import (
    RAD_PER_RPM,
    CannotBe,
    Load,
    armature,
    back_efficiency,
    paces,
    running_speed,
)
from circuitcheck.circuit.figures import Span

NONE: Span = (0.0, 0.0)


def test_a_motors_constants_are_those_of_the_armature_equations() -> None:
    """Each range has the least and the greatest that single figures give: K = (V - I0 R) / w, R = V / I, friction
    K I0, and a gear that passes on torque / K (I - I0)."""
    ranges = (14.0, 16.0), (1.0, 1.5), (40.0, 50.0), (22.0, 24.0)
    motor = armature(12, *ranges)
    points = []
    for stall, free, rpm, torque in product(*ranges):
        constant = (12 - free * 12 / stall) / (rpm * RAD_PER_RPM)
        points.append((constant, 12 / stall, constant * free, min(1.0, torque / constant / (stall - free))))
    spans = motor.constant, motor.ohms, motor.friction, motor.efficiency
    for span, values in zip(spans, zip(*points, strict=True), strict=True):
        assert span == pytest.approx((min(values), max(values)))
    assert motor.speed == (40 * RAD_PER_RPM, 50 * RAD_PER_RPM)
    assert (motor.stall_amps, motor.free_amps, motor.volts) == ((14, 16), (1, 1.5), 12)
    assert armature(12, (14, 14), (1, 1), (40, 40), None).efficiency is None


GEARED = armature(12, (14.0, 16.0), (1.0, 1.5), (40.0, 50.0), (22.0, 24.0))


@pytest.mark.parametrize("pull", [(-0.9, -0.8), (-0.5, 0.5), (0.8, 0.9), (3.0, 4.0)])
def test_the_nearest_and_the_furthest_pace_have_each_figure_at_its_own_end(pull: Span) -> None:
    """The gear's losses count for the nearest alone: friction and weight as the motor feels them, inertia as the gear
    passes it back."""
    load = Load((0.2, 0.3), (0.4, 0.5), (0.6, 0.7), pull)
    assert GEARED.efficiency is not None
    gear = GEARED.efficiency[0]
    back = 2 - 1 / gear
    light, heavy = 0.2 + back * 0.4, 0.3 + 0.5
    least, most = GEARED.constant
    near, far = paces(GEARED, load, (11, 13), (0.1, 0.2), (0.3, 0.4))
    slow, quick = running_speed(GEARED, load, (11, 13), (0.1, 0.2))
    held = pull[0] / gear if pull[0] < 0 else pull[0] * back
    nearest = slow, (GEARED.friction[1] + 0.7 / gear) / light, held / light, most**2 / (12 / 16 + 0.3) / light
    assert near == pytest.approx((*nearest, most * 13 / (12 / 16 + 0.1) / light, DIODE_VOLTS / most))
    furthest = quick, (GEARED.friction[0] + 0.6) / heavy, pull[1] / heavy, least**2 / (12 / 14 + 0.4) / heavy
    assert far == pytest.approx((*furthest, least * 11 / (12 / 14 + 0.2) / heavy, DIODE_VOLTS / least))


def test_a_gear_that_loses_more_than_half_locks_itself() -> None:
    """2 - 1 / efficiency of a torque comes back through it."""
    assert [back_efficiency(one) for one in (0.4, 0.5, 0.8, 1.0)] == pytest.approx([0, 0, 0.75, 1])


@pytest.mark.parametrize("pull", [(-0.9, -0.8), (0.62, 0.65), (0.8, 0.9), (3.0, 4.0)])
def test_a_motors_speed_is_its_free_one_less_what_the_load_takes_of_it(pull: Span) -> None:
    """Least and most torque over K2 / R; what the load helps, the gear passes back with losses at the least."""
    assert GEARED.efficiency is not None
    free = [
        (volts - (12 / stall + ohms) * amps) / ((12 - 12 / stall * amps) / turning)
        for volts, ohms, stall, amps, turning in product(
            (11, 13), (0.1, 0.2), GEARED.stall_amps, GEARED.free_amps, GEARED.speed
        )
    ]
    steep, flat = (12 / 14 + 0.2) / GEARED.constant[0] ** 2, (12 / 16 + 0.1) / GEARED.constant[1] ** 2
    most, least = 0.7 - pull[0], 0.6 - pull[1]
    slowed = most / GEARED.efficiency[0] * steep if most > 0 else most * (2 - 1 / GEARED.efficiency[0]) * flat
    left = least / GEARED.efficiency[1] * flat if least > 0 else least * steep
    found = running_speed(GEARED, Load(NONE, NONE, (0.6, 0.7), pull), (11, 13), (0.1, 0.2))
    assert found == pytest.approx((min(free) - slowed, max(free) - left))


def test_a_motor_that_runs_free_on_more_than_half_of_its_stall_current_cannot_be() -> None:
    """Its figures contradict each other; just half may be."""
    assert armature(12, (10, 12), (4, 5), (40, 40), None).free_amps == (4, 5)
    with pytest.raises(CannotBe, match=r"^5\.5 A free and 10 A stalled: "):
        armature(12, (10, 12), (4, 5.5), (40, 40), None)


def test_a_diode_takes_its_drop_from_the_motors_own_volts() -> None:
    """At 0.7 V over K rad/s it stops conducting."""
    motor = armature(12, (14, 14), (1.2, 1.2), (45, 45), None)
    load = Load((0.3, 0.3), (0.0, 0.0), (0.0, 0.0), (0.0, 0.0))
    near, far = paces(motor, load, (12, 12), (0.0, 0.0), (0.0, 0.0))
    assert near == far
    assert near.diode == DIODE_VOLTS / motor.constant[0]
    assert running_speed(motor, load, (12, 12), (0.0, 0.0))[0] == near.speed
