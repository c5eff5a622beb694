"""How much room a stop has, from what the plan says of axes and cams."""

import pytest

from circuitcheck.analysis.motion.constants import RAD_PER_DEGREE
from circuitcheck.analysis.motion.cuts import Cause
from circuitcheck.analysis.motion.known import Wanted
from circuitcheck.analysis.motion.rooms import (
    CAM,
    DOES_NOT_FIT,
    FITS,
    HANGS,
    OVERTRAVEL,
    Room,
    room_after,
    shaft_metres,
    verdict,
)
from circuitcheck.circuit.model import Circuit
from tests.analysis.plans import circuit_of

LIMITS = "limit LS1 nc on deck at low\nlimit LS2 nc on deck at high\nlimit LS3 nc on deck at half\n"


def deck(figures: str = "") -> Circuit:
    """A motor on an axis with a limit at either end and one between."""
    axis = f"axis deck from low via half to high{figures}\n"
    return circuit_of(f"supply PS 12 V 1 A\n{axis}{LIMITS}motor M1 12 V drives deck toward high\n")


def coming_to(circuit: Circuit, place: str, rising: bool, axis: int = 0) -> Room | None:
    """The room behind the limits that are pressed or let go where an axis comes to a place."""
    digit = circuit.axes[axis].digit
    end = circuit.digits[digit].values.index(place)
    start = end - 1 if rising else end + 1
    limits = tuple(n for n, one in enumerate(circuit.limits) if (start in one.zones) != (end in one.zones))
    return room_after(circuit, circuit.motors[0], Cause("limit", digit, start, end, limits))


def test_behind_a_limit_at_an_end_there_is_the_overtravel_in_degrees() -> None:
    """Of the very limit that the axis comes onto; between the ends there is no hard stop to meet."""
    circuit = deck(", overtravel 12..15 deg")
    expected = pytest.approx((12 * RAD_PER_DEGREE, 15 * RAD_PER_DEGREE))
    for place, rising, name in (("low", False, "LS1"), ("high", True, "LS2")):
        found = coming_to(circuit, place, rising)
        assert found is not None
        assert (found.kind, found.switches, found.wanted) == (OVERTRAVEL, (name,), ())
        assert found.radians == expected
    assert coming_to(circuit, "half", True) is None
    assert coming_to(circuit, "high", False) is None


def test_overtravel_in_millimetres_is_turned_into_degrees_by_the_drum() -> None:
    """Radians are metres over the drum's radius; the most of the one over the least of the other."""
    circuit = deck(", drum 60..80 mm, overtravel 30..40 mm")
    assert shaft_metres(circuit.axes[0]) == pytest.approx((0.03, 0.04))
    found = coming_to(circuit, "high", True)
    assert found is not None
    assert found.radians == pytest.approx((30 / 40, 40 / 30))


@pytest.mark.parametrize(
    ("figures", "wanted"),
    [
        ("", "overtravel 5 deg"),
        (", drum 60 mm", "overtravel 30 mm"),
        (", overtravel 30 mm", "drum 60 mm"),
    ],
)
def test_a_room_that_the_plan_does_not_tell_is_asked_for_by_what_is_missing(figures: str, wanted: str) -> None:
    """In the units that the axis goes by."""
    found = coming_to(deck(figures), "high", True)
    assert found == Room(OVERTRAVEL, ("LS2",), None, (Wanted("deck", wanted),))


def test_a_cam_gives_as_much_room_as_the_narrowest_keeps_its_switch_pressed() -> None:
    """One whose width isn't told is asked for."""
    plan = "supply PS 12 V 1 A\naxis drum turning through park half\n{}motor M1 12 V drives drum toward half\n"
    cams = "cam CS1 no 15 deg on drum at park\ncam CS2 no 10 deg on drum at park\n"
    circuit = circuit_of(plan.format(cams))
    limits = (0, 1)
    digit = circuit.axes[0].digit
    (zone,) = circuit.limits[0].zones
    coming = Cause("limit", digit, zone - 1 if zone else zone + 1, zone, limits)
    assert room_after(circuit, circuit.motors[0], coming) == Room(CAM, ("CS1", "CS2"), (10 * RAD_PER_DEGREE,) * 2)
    assert room_after(circuit, circuit.motors[0], coming._replace(start=zone, end=coming.start)) is None
    untold = circuit_of(plan.format(cams.replace(" 10 deg", "")))
    found = room_after(untold, untold.motors[0], coming)
    assert found == Room(CAM, ("CS1", "CS2"), None, (Wanted("CS2", "20 deg"),))


def test_only_a_switch_of_the_motors_own_axis_begins_a_stop_with_a_room() -> None:
    """Neither a hand, nor another axis, nor a motor that drives none."""
    circuit = circuit_of(
        "supply PS 12 V 1 A\naxis deck from low to high, overtravel 5 deg\naxis leaf from in to out, overtravel 5 deg\n"
        "limit LS1 nc on leaf at out\nmotor M1 12 V drives deck toward high\nmotor M2 12 V\n"
    )
    leaf = circuit.axes[1].digit
    out = circuit.digits[leaf].values.index("out")
    cause = Cause("limit", leaf, out - 1, out, (0,))
    assert room_after(circuit, circuit.motors[0], cause) is None
    assert room_after(circuit, circuit.motors[1], cause) is None
    assert room_after(circuit, circuit.motors[0]._replace(axis=1), cause) is not None
    assert room_after(circuit, circuit.motors[0]._replace(axis=1), cause._replace(limits=())) is None


@pytest.mark.parametrize(
    ("turns", "room", "told"),
    [
        ((1, 2), (2, 3), FITS),
        ((1, 2.1), (2, 3), HANGS),
        ((3, 4), (2, 3), HANGS),
        ((3.1, 4), (2, 3), DOES_NOT_FIT),
    ],
)
def test_a_stop_fits_if_its_whole_range_lies_within_the_whole_room(
    turns: tuple[float, float], room: tuple[float, float], told: str
) -> None:
    """Just as far is not too far."""
    assert verdict(turns, room) == told
