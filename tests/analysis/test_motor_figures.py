"""What a plan's figures tell of one motor: how it starts, reverses and creeps, and what is missing."""

from math import inf, log

import pytest

from circuitcheck.analysis.motion.constants import (
    RAD_PER_RPM,
    Load,
    measured_paces,
    paces,
    running_speed,
)
from circuitcheck.analysis.motion.cuts import BRAKED, COASTING
from circuitcheck.analysis.motion.known import (
    armature_of,
    creeping,
    has_figures,
    load_of,
    pace_pairs,
    peak_reversed,
    starts,
    wanted_for_equations,
)
from circuitcheck.circuit.figures import Span
from circuitcheck.circuit.model import Circuit
from tests.analysis.plans import circuit_of

NONE: Span = (0.0, 0.0)


def motor_of(
    figures: str, axis: str = "axis deck from low to high, inertia 0.2..0.3 kg m2, gravity 1..2 N m"
) -> Circuit:
    """A plan's motor M1 on the axis deck."""
    return circuit_of(f"supply PS 12 V 9 A\n{axis}\nmotor M1 12 V {figures} drives deck toward high\n")


def test_what_hangs_on_a_motor_is_reckoned_at_the_output_shaft() -> None:
    """The rotor's inertia times the square of the gear; weight helps downward and hinders upward."""
    circuit = motor_of("rotor 900..1000 g cm2 gear 50..60:1")
    up, down = (load_of(circuit.motors[0], circuit.axes[0], upward) for upward in (True, False))
    assert up.rotor_inertia == pytest.approx((900e-7 * 2500, 1000e-7 * 3600))
    assert up.load_inertia == (0.2, 0.3)
    assert up.friction == (0, 0)
    assert (up.pull, down.pull) == ((-2, -1), (1, 2))
    alone = load_of(circuit.motors[0], None, True)
    assert alone == Load(up.rotor_inertia, NONE, NONE, NONE)


FULL = "stall 18 A free 1.5 A 40 rpm rotor 900 g cm2 gear 60:1"


def test_a_motor_driven_into_reverse_draws_what_supply_and_motor_push_together() -> None:
    """(V + K w) / R, by hand from the figures: R = 12 / 18, K w = 12 - 1.5 R at free running."""
    circuit = motor_of(FULL, "axis deck from low to high")
    found = peak_reversed(circuit.motors[0], circuit.axes[0], True, (12, 12), (0, 0))
    ohms = 12 / 18
    assert found == pytest.approx(((24 - 1.5 * ohms) / ohms,) * 2)
    slower = peak_reversed(circuit.motors[0], circuit.axes[0], True, (10, 12), (0, 0.1))
    assert found is not None
    assert slower is not None
    assert slower[0] < found[0] == pytest.approx(slower[1])
    lacking = motor_of("stall 18 A", "axis deck from low to high")
    assert peak_reversed(lacking.motors[0], lacking.axes[0], True, (12, 12), (0, 0)) is None


def test_a_motor_starts_with_its_stall_current_and_is_quick_by_its_time_constant() -> None:
    """12 V over 12 / 18 ohm; 95 % of its speed after three time constants J R / K2, nearly."""
    circuit = motor_of(FULL, "axis deck from low to high, inertia 0.25 kg m2")
    start = starts(circuit.motors[0], circuit.axes[0], True, (12, 12), (0, 0))
    assert start is not None
    assert start.amps == pytest.approx((18, 18))
    machine = armature_of(circuit.motors[0])
    constant = (0.25 + 900e-7 * 3600) * machine.ohms[0] / machine.constant[0] ** 2
    assert start.seconds == pytest.approx((2.9957 * constant,) * 2, rel=1e-4)
    assert start.speed == pytest.approx((40 * RAD_PER_RPM,) * 2)


RANGES = "stall 14..16 A 22..24 N m free 1..1.5 A 40..50 rpm rotor 900..1000 g cm2 gear 50..60:1"
LIGHT = "axis deck from low to high, inertia 0.2..0.3 kg m2, friction 0.1..0.2 N m, gravity 0.3..0.5 N m"
VOLTS, OHMS = (11.0, 13.0), (0.1, 0.3)


@pytest.mark.parametrize("speeds", [1, 2])
def test_a_reversed_motor_draws_the_least_and_most_of_its_figures(speeds: int) -> None:
    """The least volts and speed over the most ohms, and the other way round; the high brush draws half as much more."""
    circuit = motor_of(f"{'two-speed ' if speeds == 2 else ''}{RANGES}", LIGHT)
    motor, axis = circuit.motors[0], circuit.axes[0]
    ends = []
    for brush in (1.0, 1.5)[:speeds]:
        machine = armature_of(motor, brush)
        assert machine.ohms == pytest.approx((12 / 16 / brush, 12 / 14 / brush))
        turning = running_speed(machine, load_of(motor, axis, True), VOLTS, OHMS)
        ends.append((11 + machine.constant[0] * turning[0]) / (machine.ohms[1] + 0.3))
        ends.append((13 + machine.constant[1] * turning[1]) / (machine.ohms[0] + 0.1))
    assert peak_reversed(motor, axis, True, VOLTS, OHMS) == pytest.approx((min(ends), max(ends)))


@pytest.mark.parametrize("speeds", [1, 2])
def test_a_start_takes_the_least_and_most_of_its_figures(speeds: int) -> None:
    """Amps V / R; seconds three time constants J R / K2, of which a gear passes on less of the load than it has."""
    circuit = motor_of(f"{'two-speed ' if speeds == 2 else ''}{RANGES}", LIGHT)
    motor, axis = circuit.motors[0], circuit.axes[0]
    amps: list[float] = []
    seconds: list[float] = []
    turning: list[float] = []
    for brush in (1.0, 1.5)[:speeds]:
        machine, load = armature_of(motor, brush), load_of(motor, axis, True)
        assert machine.efficiency is not None
        most, least = (machine.ohms[end] + OHMS[end] for end in (1, 0))
        light = load.rotor_inertia[0] + 0.2 / machine.efficiency[1]
        heavy = load.rotor_inertia[1] + 0.3 / machine.efficiency[0]
        amps += [11 / most, 13 / least]
        seconds += [light * least / machine.constant[1] ** 2, heavy * most / machine.constant[0] ** 2]
        turning += running_speed(machine, load, VOLTS, OHMS)
    start = starts(motor, axis, True, VOLTS, OHMS)
    assert start is not None
    assert start.amps == pytest.approx((min(amps), max(amps)))
    assert start.seconds == pytest.approx((-log(0.05) * min(seconds), -log(0.05) * max(seconds)))
    assert start.speed == (min(turning), max(turning))


def test_a_load_that_the_motor_may_just_not_lift_has_no_end_of_starting() -> None:
    """At the least of its figures it stands still, at the most it turns."""
    circuit = motor_of(FULL, "axis deck from low to high, inertia 0.25 kg m2, gravity 5..60 N m")
    start = starts(circuit.motors[0], circuit.axes[0], True, (12, 12), (0, 0))
    assert start is not None
    assert (start.speed[0], start.seconds[1]) == (0, inf)
    assert 0 < start.speed[1] < 40 * RAD_PER_RPM
    assert start.seconds[0] < inf


def test_a_load_that_the_motor_lifts_slowly_is_started_in_the_end() -> None:
    """At a third of a radian a second."""
    circuit = motor_of(FULL, "axis deck from low to high, inertia 0.25 kg m2, gravity 40 N m")
    start = starts(circuit.motors[0], circuit.axes[0], True, (12, 12), (0, 0))
    assert start is not None
    assert 0 < start.speed[0] < 1
    assert start.seconds[1] < inf


@pytest.mark.parametrize("missing", ["stall 18 A", "free 1.5 A", "40 rpm", "rotor 900 g cm2", "gear 60:1", "inertia"])
def test_what_the_equations_lack_is_asked_for_and_nothing_is_reckoned(missing: str) -> None:
    """By the words that a plan writes it with."""
    axis = "axis deck from low to high" + (", inertia 0.3 kg m2" if missing != "inertia" else "")
    told = FULL.replace("free 1.5 A 40 rpm", "40 rpm" if missing == "free 1.5 A" else "free 1.5 A")
    circuit = motor_of(told if missing in ("free 1.5 A", "40 rpm") else FULL.replace(missing, ""), axis)
    motor, deck = circuit.motors[0], circuit.axes[0]
    (wanted,) = wanted_for_equations(motor, deck)
    assert missing.split()[0] in wanted.attribute
    assert wanted.part == ("deck" if missing == "inertia" else "M1")
    assert starts(motor, deck, True, (12, 12), (0, 0)) is None
    reversing = "stall 18 A", "free 1.5 A", "40 rpm"
    assert (peak_reversed(motor, deck, True, (12, 12), (0, 0)) is None) == (missing in reversing)


@pytest.mark.parametrize("figures", ["rotor 900 g cm2", "gear 60:1", "coasts 110 deg", "brakes in 6 deg"])
def test_a_plan_says_something_of_a_motors_stops_by_any_figure_of_them(figures: str) -> None:
    """What it draws is asked for by the circuit itself."""
    assert has_figures(motor_of(figures).motors[0])
    assert not has_figures(motor_of("stall 18 A free 1.5 A 40 rpm").motors[0])


def test_the_high_brush_of_a_measured_motor_turns_half_as_fast_again_and_brakes_the_less() -> None:
    """Its friction is the same, since that is the gear's."""
    circuit = motor_of("two-speed stall 18 A 40..50 rpm coasts 100..120 deg brakes in 5..6 deg")
    motor, axis = circuit.motors[0], circuit.axes[0]
    slow, fast = pace_pairs(motor, axis, True, BRAKED, (12, 12), (NONE, NONE))
    degree = RAD_PER_RPM / 6
    assert slow == measured_paces(
        12, (40 * RAD_PER_RPM, 50 * RAD_PER_RPM), (100 * degree, 120 * degree), (5 * degree, 6 * degree)
    )
    for low, high in zip(slow, fast, strict=True):
        assert high == pytest.approx(low._replace(speed=1.5 * low.speed, drag=low.drag / 1.5))


def test_what_no_measured_figure_tells_is_reckoned_from_the_others() -> None:
    """A motor with only its brake measured coasts as the equations say; with nothing told there is no pace."""
    circuit = motor_of(f"{FULL} brakes in 5 deg", LIGHT)
    motor, axis = circuit.motors[0], circuit.axes[0]
    ohms = (0.1, 0.2), (0.3, 0.4)
    ((near, far),) = pace_pairs(motor, axis, True, BRAKED, VOLTS, ohms)
    assert (near, far) == measured_paces(12, (40 * RAD_PER_RPM,) * 2, None, (5 * RAD_PER_RPM / 6,) * 2)
    equations = pace_pairs(motor, axis, True, COASTING, VOLTS, ohms)
    assert equations == (paces(armature_of(motor), load_of(motor, axis, True), VOLTS, *ohms),)
    untold = motor_of("stall 18 A")
    assert pace_pairs(untold.motors[0], untold.axes[0], True, COASTING, VOLTS, ohms) == ()


def test_a_load_that_the_motor_cannot_lift_may_hold_it_fast() -> None:
    """More weight than it has torque: no speed, and no end of starting."""
    circuit = motor_of(FULL, "axis deck from low to high, inertia 0.25 kg m2, gravity 60 N m")
    lifting = starts(circuit.motors[0], circuit.axes[0], True, (12, 12), (0, 0))
    lowering = starts(circuit.motors[0], circuit.axes[0], False, (12, 12), (0, 0))
    assert lifting is not None
    assert (lifting.speed, lifting.seconds[1]) == ((0, 0), inf)
    assert lowering is not None
    assert lowering.speed[0] > 40 * RAD_PER_RPM


def test_a_weight_turns_a_braked_motor_on_by_what_friction_leaves_of_it() -> None:
    """(weight - friction) R / K2; not at all where friction holds it."""
    circuit = motor_of(FULL, "axis deck from low to high, inertia 0.25 kg m2, gravity 20..30 N m, friction 1..2 N m")
    machine = armature_of(circuit.motors[0])
    found = creeping(circuit.motors[0], circuit.axes[0], False, (0.0, 0.1))
    least = (20 - machine.friction[1] - 2) * machine.ohms[0] / machine.constant[0] ** 2
    most = (30 - machine.friction[0] - 1) * (machine.ohms[0] + 0.1) / machine.constant[0] ** 2
    assert found == pytest.approx((least, most))
    light = motor_of(FULL, "axis deck from low to high, inertia 0.25 kg m2, gravity 1 N m, friction 2 N m")
    assert creeping(light.motors[0], light.axes[0], False, (0.0, 0.1)) == (0, 0)
    unknown = motor_of("stall 18 A", "axis deck from low to high, gravity 1 N m")
    assert creeping(unknown.motors[0], unknown.axes[0], False, (0.0, 0.1)) is None
