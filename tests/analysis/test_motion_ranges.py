"""Ranges of figures give ranges of answers: nothing that the figures allow falls outside."""

from math import inf

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from circuitcheck.analysis.linear import DIODE_VOLTS
from circuitcheck.analysis.motion.constants import (
    Armature,
    Load,
    Pace,
    armature,
    back_efficiency,
    braked_angle,
    measured_paces,
    paces,
)
from circuitcheck.analysis.motion.cuts import BRAKED, COASTING, DRIVEN, HALF_BRAKED, REVERSED, Way
from circuitcheck.analysis.motion.stops import total
from circuitcheck.circuit.figures import Span

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
