"""The equations of a permanent-magnet motor against published worked examples and against an integrator."""

from decimal import Decimal, localcontext
from math import exp, inf, log1p, pi

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import solve_ivp  # type: ignore[import-untyped]

from circuitcheck.analysis.motion.constants import RAD_PER_RPM, Armature, Load, armature, braked_angle, running_speed
from circuitcheck.analysis.motion.stretches import OPEN, Leads, Stretch, course, turned, until_standstill

NOTHING = (0.0, 0.0)


def exactly(value: float) -> tuple[float, float]:
    """A range of one figure."""
    return value, value


def motor(volts: float, stall_amps: float, free_amps: float, free_rpm: float) -> Armature:
    """A motor of exact figures."""
    return armature(volts, exactly(stall_amps), exactly(free_amps), exactly(free_rpm), None)


def motor_of(ohms: float, constant: float, volts: float) -> Armature:
    """A motor of which resistance and constant are known, with next to no friction."""
    return motor(volts, volts / ohms, 0.0, volts / constant / RAD_PER_RPM)


def peak_amps(volts: float, generated: float, ohms: float) -> float:
    """What a reversed motor draws, by the course's own push and drag for a unit of inertia and constant 1."""
    stretch = next(course(Leads(push=-volts / ohms, drag=1 / ohms), 0.0, 0.0, generated))
    return -(stretch.push - stretch.drag * stretch.speed)


def test_a_plugged_motor_of_the_textbook_has_its_constant_its_resistance_and_its_torque() -> None:
    """220 V, 970 rpm, 100 A, 0.05 ohm, plugged at 1000 rpm with 200 A: K 2.1166 V s/rad, 2.158 ohm more, 423.2 N m.

    Textbook problem (Dubey, Fundamentals of Electrical Drives) worked at physicsforums.com/threads/dc-motor.470271.
    """
    constant = motor(220, 220 / 0.05, 100, 970).constant[0]
    assert constant == pytest.approx(2.1166, rel=1e-3)
    generated = constant * 1000 * RAD_PER_RPM
    added = (220 + generated) / 200 - 0.05
    assert added == pytest.approx(2.158, rel=1e-3)
    assert constant * peak_amps(220, generated, 0.05 + added) == pytest.approx(423.2, rel=1e-3)


def test_plugging_without_a_resistance_draws_nearly_twice_the_stall_current() -> None:
    """The same motor: 221.6 V generated, 8833 A, twice its stall current of 4400 A (from the same problem)."""
    generated = motor(220, 220 / 0.05, 100, 970).constant[0] * 1000 * RAD_PER_RPM
    assert generated == pytest.approx(221.6, rel=1e-3)
    assert peak_amps(220, generated, 0.05) == pytest.approx(8833, rel=1e-3)
    assert peak_amps(220, generated, 0.05) / 4400 == pytest.approx(2, rel=0.01)


def test_plugging_does_not_end_at_standstill() -> None:
    """At zero speed the motor of the problem still draws 99.6 A and makes 210.9 N m, and goes on backward."""
    constant = motor(220, 220 / 0.05, 100, 970).constant[0]
    assert peak_amps(220, 0.0, 2.208) == pytest.approx(99.6, rel=1e-3)
    assert constant * peak_amps(220, 0.0, 2.208) == pytest.approx(210.9, rel=1e-3)
    stretches = list(course(Leads(push=-constant * 220 / 2.208, drag=constant**2 / 2.208), 10.0, 0.0, 100.0))
    assert stretches[0].speed_at(stretches[0].seconds) == pytest.approx(0, abs=1e-9)
    assert stretches[-1].speed_at(inf) < 0


def test_a_data_sheet_motor_has_its_mechanical_time_constant() -> None:
    """24 V, K 20.0 mN m/A, slope 31 rpm/mN m, rotor 34 g cm2: 11 ms (Faulhaber 3564K024B data, manual p. 75)."""
    constant = 0.020
    ohms = 31 * RAD_PER_RPM / 1e-3 * constant**2
    assert ohms == pytest.approx(1.30, rel=2e-3)
    drag = motor_of(ohms, constant, 24).constant[0] ** 2 / ohms / 34e-7
    stretch = next(course(Leads(push=drag * 100, drag=drag), 0.0, 0.0, 0.0))
    assert 1 / drag == pytest.approx(0.011, rel=0.01)
    assert stretch.speed_at(0.01104) == pytest.approx(100 * (1 - exp(-1)), rel=1e-3)


def test_the_dynamic_model_of_the_tutorial_comes_to_its_speed_by_its_slow_pole() -> None:
    """J 0.01, viscous friction 0.1, K 0.01, R 1 ohm, 1 V: 0.1 rad/s in the end, the slow pole at -10 /s without L.

    Michigan control tutorial "DC motor speed"; with its 0.5 H the poles are -2 and -10 /s. Its friction grows with the
    speed, so it is a drag here; without inductance only the shaft's own pole is left, (b + K2/R) / J.
    """
    drag = (0.1 + 0.01**2 / 1) / 0.01
    stretch = next(course(Leads(push=0.01 / 1 / 0.01, drag=drag), 0.0, 0.0, 0.0))
    assert stretch.speed_at(inf) == pytest.approx(0.0999, rel=1e-3)
    assert drag == pytest.approx(9.9975, rel=2e-3)


def test_the_constant_is_the_same_from_torque_and_from_speed() -> None:
    """1.5 V, 17300 rpm, 34.1 mA free, 0.453 mN m and 0.581 A stalled: 0.780 mN m/A, 0.779 mV s/rad.

    maxon DCX 6 M data sheet (copy at scribd 714268590).
    """
    assert motor(1.5, 0.581, 0.0341, 17300).constant[0] == pytest.approx(0.453e-3 / 0.581, rel=2e-3)


@pytest.mark.parametrize(
    ("volts", "start_amps", "run_amps", "ohms", "generated"),
    [
        (240, 160, 16.0, 1.50, 216),
        (115, 21.5, 6.5, 5.35, 80.2),
        (12, 6.0, 1.0, 2.0, 10),
        (6.00, 12, 3.00, 0.50, 4.50),
    ],
)
def test_a_running_motor_generates_what_the_problems_say(
    volts: float, start_amps: float, run_amps: float, ohms: float, generated: float
) -> None:
    """Resistance from the starting current, and the volts it makes while it runs.

    Physics problems: edu.com 1261439; toughstem.com 703; hscscience.com.au year 12 module 6 lesson 17; clutchprep.com
    144846.
    """
    running = motor(volts, start_amps, run_amps, 1000)
    assert running.ohms[0] == pytest.approx(ohms, rel=1e-2)
    assert running.constant[0] * 1000 * RAD_PER_RPM == pytest.approx(generated, rel=1e-2)


def test_a_motor_with_nothing_to_move_runs_at_its_free_speed() -> None:
    """(V - I0 R) / K, by the armature equations of rice.edu/~jdw/242_lab5."""
    free = motor(12, 18, 1.5, 40)
    speed = running_speed(free, Load(exactly(1.0), NOTHING, NOTHING, NOTHING), exactly(12), NOTHING)
    assert speed == pytest.approx((40 * RAD_PER_RPM,) * 2)


@given(st.floats(0.1, 500), st.floats(0.01, 1000), st.floats(0.1, 200))
def test_a_brake_with_friction_stops_in_the_angle_of_the_formula(speed: float, friction: float, drag: float) -> None:
    """wf = Tc R / K2: angle = w0 tau - wf t, t = tau ln(1 + w0/wf) (derived from the armature equations)."""
    tau, limit = 1 / drag, friction / drag
    [stop] = until_standstill(course(Leads(drag=drag), friction, 0.0, speed))
    seconds = tau * log1p(speed / limit)
    assert stop.seconds == pytest.approx(seconds, rel=1e-9)
    assert braked_angle(speed, friction, drag) == pytest.approx(speed * tau - limit * seconds, rel=1e-6)


@given(st.floats(0.1, 500), st.floats(0.01, 1000))
def test_a_coasting_motor_goes_as_far_as_its_energy_lasts(speed: float, friction: float) -> None:
    """J w2 / (2 Tc), in J w / Tc seconds."""
    [stop] = until_standstill(course(OPEN, friction, 0.0, speed))
    assert stop.seconds == pytest.approx(speed / friction)
    assert turned([stop]) == pytest.approx(speed**2 / (2 * friction))


def test_a_frictionless_brake_turns_speed_times_time_constant_in_all() -> None:
    """w0 tau, and never quite stands (rice.edu/~jdw/242_lab5 for tau)."""
    [stop] = until_standstill(course(Leads(drag=4.0), 0.0, 0.0, 10.0))
    assert stop.seconds == inf
    assert turned([stop]) == 2.5


LAWS = st.tuples(
    st.builds(
        Leads,
        push=st.floats(-50, 50),
        drag=st.floats(0, 20),
        above=st.none(),
    )
    | st.builds(Leads, push=st.just(0.0), drag=st.floats(0.1, 20), above=st.floats(0.1, 5)),
    st.floats(0, 20),
    st.floats(-20, 20),
    st.floats(-20, 20),
)


@settings(max_examples=150, deadline=None)
@given(LAWS, st.floats(0.05, 2.0))
def test_speed_and_angle_are_those_of_an_integrator(law: tuple[Leads, float, float, float], seconds: float) -> None:
    """scipy's solve_ivp stretch by stretch of one sign agrees to 1e-6, with friction that turns round and diodes."""
    leads, friction, pull, speed = law
    here, angle = speed, 0.0
    for stretch in course(leads, friction, pull, speed, seconds):
        assert stretch.speed == pytest.approx(here, abs=1e-6)
        middle = stretch.speed_at(stretch.seconds / 2)

        def law_of_motion(_: float, state: list[float], middle: float = middle) -> list[float]:
            drag = leads.drag * state[0]
            if leads.above is not None:
                drag = leads.drag * (state[0] - leads.above) if middle > leads.above else 0.0
            if middle == 0:
                assert abs(leads.push + pull) <= friction
                return [0.0, 0.0]
            return [leads.push + pull - (friction if middle > 0 else -friction) - drag, state[0]]

        done = solve_ivp(law_of_motion, (0, stretch.seconds), [here, 0.0], rtol=1e-10, atol=1e-12)
        assert all(one * middle >= -1e-6 for one in done.y[0])
        here, turning = done.y[0][-1], done.y[1][-1]
        assert stretch.speed_at(stretch.seconds) == pytest.approx(here, rel=1e-6, abs=1e-6)
        assert stretch.turned_at(stretch.seconds) == pytest.approx(turning, rel=1e-6, abs=1e-6)
        angle += turning
    assert turned(course(leads, friction, pull, speed, seconds)) == pytest.approx(angle, rel=1e-6, abs=1e-6)


def test_a_weight_that_friction_does_not_hold_pulls_the_shaft_back() -> None:
    """Coasting upward against its weight it stops, turns round and goes on backward; with more friction it stays."""
    pulled = list(course(OPEN, 2.0, -5.0, 1.0, 10.0))
    assert [one.push for one in pulled] == [-7.0, -3.0]
    held = list(course(OPEN, 6.0, -5.0, 1.0, 10.0))
    assert held[-1][1:] == (0.0, 0.0, 0.0)
    assert held[-1].seconds == pytest.approx(10 - 1 / 11)


@pytest.mark.parametrize("drag", ["1e-9", "0.0005", "0.00099", "0.0015", "0.03", "0.7", "1.5", "12"])
def test_the_angle_of_a_push_is_exact_for_any_drag(drag: str) -> None:
    """(x - 1 + e^-x) / x2, of which next to nothing is left for a small x: worked out with fifty figures."""
    with localcontext(prec=50):
        exact = (Decimal(drag) - 1 + (-Decimal(drag)).exp()) / Decimal(drag) ** 2
    assert Stretch(inf, 0.0, 1.0, float(drag)).turned_at(1.0) == pytest.approx(float(exact), rel=2e-12)


def test_friction_is_against_a_shaft_that_turns_slowly_too() -> None:
    """Half a radian a second, either way."""
    assert [next(course(OPEN, 2.0, 0.0, speed)).push for speed in (0.5, -0.5)] == [-2, 2]


def test_what_is_pushed_for_ever_turns_without_end() -> None:
    """And what stands unpushed stays where it is."""
    assert Stretch(inf, 0.0, 1.0, 2.0).turned_at(inf) == inf
    assert Stretch(inf, 1.0, 0.0, 0.0).turned_at(inf) == inf
    assert Stretch(inf, 0.0, 0.0, 0.0).turned_at(inf) == 0


def test_a_shaft_that_is_pushed_harder_than_friction_holds_starts_off_that_way() -> None:
    """However little it is: what is left of the push is against friction, forward and backward."""
    for push, left in ((0.5, 0.3), (-0.5, -0.3)):
        assert next(course(Leads(push=push), 0.2, 0.0, 0.0)).push == pytest.approx(left)
    assert next(course(Leads(push=0.5), 0.5, 0.0, 0.0)).push == 0


def test_a_brake_holds_no_weight() -> None:
    """A shorted armature's drag vanishes at rest: the weight turns it on at (pull - friction) / drag."""
    [creeping] = course(Leads(drag=10.0), 2.0, 5.0, 4.0)
    assert creeping.speed_at(inf) == pytest.approx(0.3)
    assert turned(until_standstill([creeping])) == inf


def test_an_open_wiper_motor_coasts_more_than_a_quarter_turn_and_a_shorted_one_stops_almost_at_once() -> None:
    """With a prop on it: 12 V, 14 A stalled, 1.2 A free at 45 rpm, 0.6 kg m2 in all. Common practice, no source."""
    wiper = motor(12, 14, 1.2, 45)
    speed, friction = 45 * RAD_PER_RPM, wiper.friction[0] / 0.6
    assert turned(until_standstill(course(OPEN, friction, 0.0, speed))) > pi / 2
    assert braked_angle(speed, friction, wiper.constant[0] ** 2 / wiper.ohms[0] / 0.6) < pi / 8
