"""Ranges of figures give ranges of answers: nothing that the figures allow falls outside."""

from itertools import product
from math import inf, log

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from circuitcheck.analysis.linear import DIODE_VOLTS
from circuitcheck.analysis.motion.constants import (
    RAD_PER_RPM,
    Armature,
    CannotBe,
    Load,
    Pace,
    armature,
    back_efficiency,
    braked_angle,
    measured_paces,
    paces,
    running_speed,
)
from circuitcheck.analysis.motion.cuts import BRAKED, COASTING, DRIVEN, HALF_BRAKED, REVERSED, Way
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
from circuitcheck.analysis.motion.stops import total
from circuitcheck.circuit.figures import Span
from circuitcheck.circuit.model import Circuit
from tests.analysis.plans import circuit_of

NONE: Span = (0.0, 0.0)


def spans(least: float, greatest: float) -> st.SearchStrategy[Span]:
    """Ranges between two figures."""
    return st.tuples(st.floats(least, greatest), st.floats(least, greatest)).map(lambda two: (min(two), max(two)))


BOX = st.tuples(
    spans(5, 20),  # stall amps
    spans(0.2, 2.4),  # free amps
    spans(20, 80),  # free rpm
    spans(0.05, 0.5),  # rotor's inertia at the output
    spans(0, 0.5),  # load's inertia
    spans(0, 2),  # load's friction
    spans(-3, 3),  # weight
    spans(10, 14),  # volts
    spans(0, 0.2),  # ohms in the drive
    spans(0, 0.2),  # ohms in the brake
)
TIMES = st.tuples(spans(0, 0.03), spans(0, 0.03), spans(0, 0.005))
WAYS = st.sampled_from(
    [
        (BRAKED,),
        (COASTING,),
        (DRIVEN, BRAKED),
        (DRIVEN, HALF_BRAKED),
        (COASTING, BRAKED),
        (DRIVEN, COASTING, BRAKED),
        (DRIVEN, BRAKED, REVERSED),
        (DRIVEN, REVERSED, BRAKED),
        (COASTING, DRIVEN, BRAKED),
    ]
)


def within(span: Span, share: float) -> Span:
    """One figure of a range."""
    value = min(max(span[0] + share * (span[1] - span[0]), span[0]), span[1])
    return value, value


def way_of(does: tuple[str, ...], times: tuple[Span, ...]) -> Way:
    """What follows begins after these times."""
    begins = [(0.0, 0.0)]
    for lasts in times[: len(does) - 1]:
        begins.append((begins[-1][0] + lasts[0], begins[-1][1] + lasts[1]))
    return Way(does, tuple(begins), ())


def range_of(box: tuple[Span, ...]) -> tuple[Pace, Pace]:
    """The paces of a box of figures."""
    stall, free, rpm, rotor, inertia, friction, weight, volts, drive, brake = box
    motor = armature(12, stall, free, rpm, None)
    return paces(motor, Load(rotor, inertia, friction, weight), volts, drive, brake)


@settings(max_examples=200, deadline=None)
@given(BOX, WAYS, TIMES, st.lists(st.floats(0, 1), min_size=13, max_size=13))
def test_no_combination_within_the_figures_goes_further_or_less_far(
    box: tuple[Span, ...], does: tuple[str, ...], times: tuple[Span, Span, Span], shares: list[float]
) -> None:
    """Any point of the box, at any times within theirs."""
    whole = total(way_of(does, times), *range_of(box), times[2])
    inside = tuple(within(span, share) for span, share in zip(box, shares, strict=False))
    exact_times = tuple(within(span, share) for span, share in zip(times, shares[10:], strict=True))
    point = total(way_of(does, exact_times), *range_of(inside), exact_times[2])
    assert whole.turns[0] <= point.turns[0] * (1 + 1e-9) + 1e-9
    assert point.turns[1] <= whole.turns[1] * (1 + 1e-9) + 1e-9


@settings(max_examples=100, deadline=None)
@given(spans(20, 80), spans(60, 300), spans(2, 50), WAYS, TIMES, st.lists(st.floats(0, 1), min_size=6, max_size=6))
def test_no_combination_of_measured_figures_goes_further_or_less_far(
    rpm: Span, coasts: Span, brakes: Span, does: tuple[str, ...], times: tuple[Span, Span, Span], shares: list[float]
) -> None:
    """The same from what was measured; a motor with only one angle measured is among those that it stands for."""
    whole = total(way_of(does, times), *measured_paces(12, rpm, coasts, brakes), times[2])
    chosen = [within(span, share) for span, share in zip((rpm, coasts, brakes), shares, strict=False)]
    exact_times = tuple(within(span, share) for span, share in zip(times, shares[3:], strict=True))
    pace, _ = measured_paces(12, *chosen)
    # Free running is where the supply's push equals friction and drag.
    pace = pace._replace(push=pace.drag * pace.speed + pace.friction)
    point = total(way_of(does, exact_times), pace, pace, exact_times[2])
    unmeasured = total(way_of(does, times), *measured_paces(12, rpm, None, brakes), times[2])
    for around in (whole, unmeasured):
        assert around.turns[0] <= point.turns[0] * (1 + 1e-6) + 1e-9
        assert point.turns[1] <= around.turns[1] * (1 + 1e-6) + 1e-9


@pytest.mark.parametrize(
    ("coasts", "brakes", "angles"),
    [
        ((1.5, 2.0), (0.1, 0.2), ((1.5, 0.1), (2.0, 0.2))),
        ((1.5, 2.0), None, ((1.5, 0.0), (2.0, 0.0))),
        (None, (0.1, 0.2), ((0.1, 0.1), (inf, 0.2))),
        ((0.1, 0.3), (0.2, 0.25), ((0.2, 0.2), (0.3, 0.25))),
    ],
)
def test_measured_figures_give_a_pace_that_stops_within_their_angles(
    coasts: Span | None, brakes: Span | None, angles: tuple[tuple[float, float], tuple[float, float]]
) -> None:
    """The nearest by the least of them, the furthest by the most; what is not told lies beyond what is."""
    found = measured_paces(12, (4.0, 5.0), coasts, brakes)
    for pace, speed, (coasting, braking) in zip(found, (4.0, 5.0), angles, strict=True):
        assert pace.speed == speed
        assert pace.friction == pytest.approx(speed**2 / 2 / coasting)
        assert (pace.drag > 0) == (0 < braking < coasting)
        if pace.drag:
            assert braked_angle(speed, pace.friction, pace.drag) == pytest.approx(braking)
    near, far = found
    assert (near.push, far.push) == (pytest.approx(2 * 16 / brakes[0]) if brakes else 0, 0)
    assert (near.diode, far.diode) == pytest.approx((DIODE_VOLTS * 4 / 12, DIODE_VOLTS * 5 / 12 * 2))


def test_measured_angles_come_out_as_they_were_measured() -> None:
    """Coasts 110, brakes in 6: exactly these, where nothing takes time."""
    near, far = measured_paces(12, (4.2, 4.2), (1.92, 1.92), (0.105, 0.105))
    for pace in (near, far):
        assert abs(total(Way((COASTING,), ((0, 0),), ()), pace, pace, (0, 0)).turns[0] - 1.92) < 1e-9
        assert abs(total(Way((BRAKED,), ((0, 0),), ()), pace, pace, (0, 0)).turns[0] - 0.105) < 1e-9


@settings(max_examples=50, deadline=None)
@given(BOX, st.floats(0.3, 1.0))
def test_a_gear_with_losses_stops_within_the_range(box: tuple[Span, ...], efficiency: float) -> None:
    """A brake integrated in small steps, each with the loss on the side to which the teeth press."""
    exact = tuple(within(span, 0.5) for span in box)
    stall, free, rpm, rotor, inertia, friction, weight, volts, drive, brake = exact
    constant = armature(12, stall, free, rpm, None).constant[0]
    motor = armature(12, stall, free, rpm, (efficiency * constant * (stall[0] - free[0]),) * 2)
    load = Load(rotor, inertia, friction, weight)
    near, far = paces(motor, load, volts, drive, brake)
    braked = total(Way((BRAKED,), ((0.0, 0.0),), ()), near, far, (0.0, 0.0))
    assume(braked.turns[1] != inf)
    speed, brake_ohms = far.speed, brake[0]
    assume(near.speed > 0.1)
    slower, quicker = (_stepped(motor, load, brake_ohms, efficiency, start) for start in (near.speed, speed))
    assert braked.turns[0] <= slower * (1 + 1e-3)
    assert quicker <= braked.turns[1] * (1 + 1e-3)


def _stepped(motor: Armature, load: Load, ohms: float, efficiency: float, speed: float, steps: int = 500) -> float:
    """Radians until it stands; the load is held back by its friction and pulled by its weight."""
    back, angle = back_efficiency(efficiency), 0.0
    part = speed / steps
    for _ in range(steps):
        own = -motor.friction[0] - motor.constant[0] ** 2 / (motor.ohms[0] + ohms) * (speed - part / 2)
        hung = load.pull[0] - load.friction[0]
        pressing = own * load.load_inertia[0] - hung * load.rotor_inertia[0]
        passed = 1 / efficiency if pressing > 0 else back
        slope = (own + passed * hung) / (load.rotor_inertia[0] + passed * load.load_inertia[0])
        angle += (speed - part / 2) * part / -slope
        speed -= part
    return angle


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


@settings(max_examples=60, deadline=None)
@given(BOX, st.lists(st.floats(0, 1), min_size=10, max_size=10), st.integers(3, 9))
def test_a_figure_that_varies_alone_varies_each_answer_no_more_than_it_must(
    box: tuple[Span, ...], shares: list[float], varying: int
) -> None:
    """Inertia, friction, weight, volts, ohms: the ends of each answer are what the ends of the figure give."""
    exact = [within(span, share) for span, share in zip(box, shares, strict=True)]
    ends = []
    for end in (0, 1):
        at_end = [*exact[:varying], (box[varying][end],) * 2, *exact[varying + 1 :]]
        near, far = range_of(tuple(at_end))
        assert near == pytest.approx(far)
        ends.append(near)
    near, far = range_of((*exact[:varying], box[varying], *exact[varying + 1 :]))
    for two, both in zip(zip(near, far, strict=True), zip(*ends, strict=True), strict=True):
        assert sorted(two) == pytest.approx(sorted(both))


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
