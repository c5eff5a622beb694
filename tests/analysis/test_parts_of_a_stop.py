"""A way to stop told part by part, with simple figures worked out by hand."""

from math import log

import pytest

from circuitcheck.analysis.motion.constants import Pace
from circuitcheck.analysis.motion.cuts import BRAKED, COASTING, DRIVEN, HALF_BRAKED, Way
from circuitcheck.analysis.motion.stops import OPENING, TRAVELLING, Leg, legs_of, parts_of, speeds_of, total

BRAKING = Pace(speed=10.0, friction=2.0, pull=0.0, drag=5.0, push=0.0, diode=4.0)
AT_ONCE = (0.0, 0.0)
FIRST = ((0.0, 0.0), (1.0, 1.0), (3.0, 3.0))


def test_a_brake_over_a_diode_ends_where_friction_has_stopped_the_motor() -> None:
    """Two stretches make up that part: down to the diode's volts by both, and from there by friction alone."""
    way = Way((HALF_BRAKED,), (AT_ONCE,), ())
    (part,) = parts_of(way, BRAKING, BRAKING, AT_ONCE)
    # dw/dt = -2 - 5 (w - 4) = 18 - 5 w, from 10 to 4; then 4 rad/s are lost at 2 rad/s2.
    braking, rolling = log((10 - 3.6) / (4 - 3.6)) / 5, 2.0
    turns = (10 - 4) / 5 + 3.6 * braking + 4.0
    assert part.does == HALF_BRAKED
    assert part.lasts == pytest.approx((braking + rolling,) * 2)
    assert part.turns == pytest.approx((turns,) * 2)
    assert total(way, BRAKING, BRAKING, AT_ONCE) == part


def test_a_motor_driven_again_on_its_way_coasts_on_at_least_and_has_its_full_speed_at_most() -> None:
    """Open for a second, driven for two, then open for good: 10 rad/s are lost at 2 rad/s2."""
    way = Way((COASTING, DRIVEN, COASTING), FIRST, ())
    found = total(way, BRAKING, BRAKING, AT_ONCE)
    assert found.turns == pytest.approx((25.0, 9.0 + 20.0 + 25.0))
    assert found.lasts == pytest.approx((5.0, 1.0 + 2.0 + 5.0))
    assert {part.does: part.turns for part in parts_of(way, BRAKING, BRAKING, AT_ONCE)} == {
        COASTING: pytest.approx((9.0 + 4.0, 9.0 + 25.0)),
        OPENING: pytest.approx((12.0, 20.0)),
    }


def test_a_motor_that_stands_is_carried_on_only_where_it_is_driven_again() -> None:
    """With weight and friction as they are it stands after five seconds of ten."""
    legs = [Leg(COASTING, COASTING, 10.0), Leg(OPENING, DRIVEN, 1.0), Leg(BRAKED, BRAKED, 9.0)]
    assert [part for part, _ in speeds_of(legs, BRAKING, carried=False)] == [COASTING]
    assert [part for part, _ in speeds_of(legs, BRAKING, carried=True)] == [COASTING, OPENING, BRAKED]
    assert [part for part, _ in speeds_of(legs[::2], BRAKING, carried=True)] == [COASTING]


def test_a_contact_travels_before_whatever_but_coasting_begins() -> None:
    """On the soonest way for as short as it can, on the latest for as long as it can."""
    way = Way((DRIVEN, BRAKED), (AT_ONCE, (0.01, 0.02)), ())
    transfer = (0.001, 0.005)
    soon, late = (legs_of(way, end, transfer) for end in (0, 1))
    for legs, driven, travelling in ((soon, 0.01, 0.001), (late, 0.02, 0.005)):
        assert [leg.part for leg in legs] == [OPENING, TRAVELLING, BRAKED]
        assert [leg.seconds for leg in legs[:-1]] == pytest.approx([driven, travelling])
    turns = {part.does: part.turns for part in parts_of(way, BRAKING, BRAKING, transfer)}
    assert turns[OPENING] == pytest.approx((0.1, 0.2))
    assert total(way, BRAKING, BRAKING, transfer).turns == pytest.approx(
        tuple(sum(one[end] for one in turns.values()) for end in (0, 1)), rel=1e-3
    )


def test_a_part_that_only_the_latest_way_has_is_told() -> None:
    """The feed may be gone at once, or after a second."""
    way = Way((DRIVEN, COASTING), (AT_ONCE, (0.0, 1.0)), ())
    first, second = parts_of(way, BRAKING, BRAKING, AT_ONCE)
    assert (first.does, first.turns, first.lasts) == (OPENING, (0.0, 10.0), (0.0, 1.0))
    assert (second.does, second.turns, second.lasts) == (COASTING, (25.0, 25.0), (5.0, 5.0))
