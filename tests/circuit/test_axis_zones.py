"""Axes cut into zones, the switches they press and the motors that drive them."""

from collections.abc import Callable

import pytest

from circuitcheck.circuit.model import Circuit

Build = Callable[[str], Circuit]
DECK = "axis deck from bottom via middle to top, 70 deg\n"
WHEEL = "axis wheel turning through park half\n"


def pressed(circuit: Circuit) -> set[str]:
    """The zones in which the only limit switch is pressed, by name."""
    (limit,) = circuit.limits
    zones = circuit.digits[circuit.axes[limit.axis].digit].values
    return {zones[zone] for zone in limit.zones}


def test_a_linear_axis_has_a_zone_past_each_end(build: Build) -> None:
    """Places, the ways between them, and overtravel on both sides."""
    circuit = build("axis deck from bottom to top, 70 deg")
    assert circuit.digits[0].values == ("past bottom", "bottom", "between bottom and top", "top", "past top")
    assert circuit.axes[0].range == (1, 3)
    assert circuit.axes[0].degrees == 70.0


def test_a_turning_axis_comes_round_to_its_first_place(build: Build) -> None:
    """No zone lies beyond its range."""
    circuit = build(WHEEL)
    assert circuit.digits[0].values == ("park", "between park and half", "half", "between half and park")
    assert circuit.axes[0].range == (0, 3)


def test_a_turning_axis_may_have_a_single_place(build: Build) -> None:
    """It is there or away from there."""
    assert build("axis wheel turning through park").digits[0].values == ("park", "away from park")


@pytest.mark.parametrize(
    ("statement", "zones"),
    [
        ("limit LS1 spdt on deck at top", {"top", "past top"}),
        ("limit LS1 spdt on deck at bottom", {"past bottom", "bottom"}),
        ("limit LS1 spdt on deck at middle", {"middle"}),
        ("limit LS1 spdt on deck from middle to top", {"middle", "between middle and top", "top", "past top"}),
        ("limit LS1 spdt on deck from top to middle", {"middle", "between middle and top", "top", "past top"}),
        ("cam CS1 spdt on wheel at park", {"park"}),
        ("cam CS1 spdt on wheel from park to half", {"park", "between park and half", "half"}),
        ("cam CS1 spdt on wheel from half to park", {"half", "between half and park", "park"}),
    ],
)
def test_a_limit_switch_is_pressed_in_its_zones(build: Build, statement: str, zones: set[str]) -> None:
    """An end switch stays pressed past the end; a cam on a turning axis is followed in the listed order."""
    circuit = build(DECK + WHEEL + statement)
    assert pressed(circuit) == zones
    closed = {one.head: one.closed and one.closed.values for one in circuit.conductors}
    name = circuit.limits[0].name
    assert closed[f"{name}.no"] == circuit.limits[0].zones
    assert not closed[f"{name}.nc"] & closed[f"{name}.no"]  # type: ignore[operator]


def test_a_limit_switch_of_two_poles_numbers_its_terminals(build: Build) -> None:
    """com1 nc1 no1 and com2 nc2 no2 move together."""
    circuit = build(DECK + "limit LS1 dpdt on deck at top")
    assert circuit.parts["LS1"].marks == ("com1", "nc1", "no1", "com2", "nc2", "no2")


@pytest.mark.parametrize(
    ("drives", "upward"),
    [
        ("deck toward top", True),
        ("deck toward bottom", False),
        ("wheel toward half", True),
        ("wheel toward park", True),
    ],
)
def test_a_motor_drives_its_axis_one_way(build: Build, drives: str, upward: bool) -> None:
    """Forward leads to higher zones when it is toward the last place, or round as the places are listed."""
    (motor,) = build(f"{DECK}{WHEEL}motor M1 12 V stall 18 A drives {drives}").motors
    assert motor.upward is upward


def test_a_turning_axis_is_driven_the_shorter_way_to_a_place(build: Build) -> None:
    """Toward the last of three places leads backward from the first."""
    (motor,) = build("axis wheel turning through a b c\nmotor M1 12 V stall 1 A drives wheel toward c").motors
    assert motor.upward is False
