"""Figures of motors, loads, contacts and surroundings, from the plan's words to the circuit's types."""

from collections.abc import Callable

import pytest

from circuitcheck.circuit.figures import AxisFigures, Conditions, MotorFigures
from circuitcheck.circuit.model import Circuit
from circuitcheck.plan.source import Problem

Build = Callable[[str], Circuit]
ProblemsOf = Callable[[str], tuple[Problem, ...]]


def test_a_motor_has_its_figures_as_ranges(build: Build) -> None:
    """One figure is a range from itself to itself; the order of attributes doesn't matter."""
    (motor,) = build(
        "motor M1 12 V gear 60:1 stall 16..20 A 6 N m free 1.5 A 40 rpm rotor 0.5 kg cm2 brakes in 6 deg coasts 110 deg"
    ).motors
    assert motor.figures == MotorFigures(
        stall_amps=(16, 20),
        free_amps=(1.5, 1.5),
        free_rpm=(40, 40),
        stall_newton_metres=(6, 6),
        rotor_kg_m2=(0.5e-4, 0.5e-4),
        gear=(60, 60),
        coasts_degrees=(110, 110),
        brakes_degrees=(6, 6),
    )


def test_nothing_is_guessed_of_a_motor_of_which_nothing_is_said(build: Build) -> None:
    """None stands for what the plan doesn't say, though the catalogue assumes a resistance."""
    circuit = build("motor M1 12 V\nmotor M2 12 V 40 rpm")
    assert [motor.figures for motor in circuit.motors] == [MotorFigures(), MotorFigures(free_rpm=(40, 40))]
    assert circuit.loads[0].assumed


def test_a_motor_may_have_its_figures_from_a_type_and_replace_one(build: Build) -> None:
    """What the part says after a keyword takes the place of all that its type says after it."""
    (motor,) = build(
        "type wiper motor 12 V stall 18 A 20 N m free 1.5 A 40 rpm gear 60:1\nmotor M1 as wiper free 2 A 35 rpm"
    ).motors
    assert motor.figures.free_amps == (2, 2)
    assert motor.figures.free_rpm == (35, 35)
    assert motor.figures.stall_newton_metres == (20, 20)
    assert motor.figures.gear == (60, 60)


def test_an_axis_that_turns_has_its_load_in_newton_metres_and_degrees(build: Build) -> None:
    """At the output shaft of the motor that drives it."""
    (axis,) = build(
        "axis deck from bottom to top, 70 deg, inertia 0.3 kg m2, friction 0.4..0.6 N m, gravity 2 N m, "
        "overtravel 5 deg"
    ).axes
    assert axis.degrees == 70
    assert axis.figures == AxisFigures((0.3, 0.3), (0.4, 0.6), (2, 2), (5, 5), None, None)


def test_a_drum_turns_a_length_into_an_angle(build: Build) -> None:
    """2.4 m on a drum of 60 mm are 2.4/(π 0.06) turns; a rope that lies on itself makes the drum a range."""
    thin, thick = build(
        "axis curtain from closed to open, 2.4 m, drum 60 mm, overtravel 30 mm, springs back\n"
        "axis cloud from low to high, 2.4 m, drum 50..70 mm"
    ).axes
    assert thin.degrees == thick.degrees == pytest.approx(4583.66, abs=0.01)
    assert thin.figures.overtravel_metres == (0.03, 0.03)
    assert thin.figures.drum_metres == (0.06, 0.06)
    assert thick.figures.drum_metres == (0.05, 0.07)
    assert thin.springs_back


def test_a_wheel_has_inertia_and_friction_too(build: Build) -> None:
    """A turning axis takes the same figures, but for those of an end."""
    (axis,) = build("axis wheel turning through park half, friction 0.2 N m, inertia 0.03 kg m²").axes
    assert axis.figures.inertia_kg_m2 == (0.03, 0.03)


def test_conditions_hold_for_the_plan(build: Build) -> None:
    """Figures in any order, on one line or several; only the ambient temperature is a range."""
    circuit = build(
        "conditions insulation 105 °C, ambient -5..35 °C,\n  wire 18 AWG 50 cm,\n  bundled 6 wires\nfuse F1 5 A"
    )
    assert circuit.conditions._replace(area_mm2=0) == Conditions((-5, 35), 105, 6, 0, 0.5)
    assert circuit.conditions.area_mm2 == pytest.approx(0.823, abs=0.001)


def test_a_plan_without_conditions_has_none(build: Build) -> None:
    """So that a report can say what it assumes."""
    assert build("fuse F1 5 A").conditions == Conditions(None, None, None, 0, 0)


def test_a_supply_may_sag_limit_and_withstand(build: Build) -> None:
    """0 where the plan says nothing."""
    full, bare = build("supply PS 12 V 10 A internal 50 mohm limit 12 A withstands 15 V\nsupply BAT 12 V").supplies
    assert full[-3:] == (0.05, 12, 15)
    assert bare[-3:] == (0, 0, 0)


def test_contacts_are_rated_by_amps_volts_and_resistance(build: Build) -> None:
    """A relay's after `contacts`, those of all else bare, also behind a switch's positions."""
    parts = build(
        "relay K1 dpdt coil 12 V 160 ohm 0.9 H contacts 10 A 30 V 50 mohm\n"
        "switch S1 spdt positions raise off lower 5 A 30 V 20 mohm\nbutton PB1 no 3 A\nestop ES1 nc 6 A 24 V\n"
        "axis deck from bottom to top\nlimit LS1 spdt 5 A 30 V on deck at top\ncam CS1 nc on deck at bottom 2 A\n"
        "connector J1 4 ways 7 A 10 mohm\nstrip X1 6 ways 24 A\noutside OUT1 contact 1 A 30 V"
    ).parts
    relay = parts["K1"].ratings
    assert [relay[f"contacts_{one}"] for one in ("amps", "volts", "ohms")] == [10, 30, 0.05]
    assert parts["S1"].ratings == {"amps": 5, "volts": 30, "ohms": 0.02}
    assert [parts[name].ratings["amps"] for name in ("PB1", "ES1", "LS1", "CS1", "J1", "X1", "OUT1")] == [
        3, 6, 5, 2, 7, 24, 1,
    ]  # fmt: skip


def test_a_coil_may_have_an_inductance(build: Build) -> None:
    """Both coils of a latching relay have it; 0 where the plan says nothing."""
    latching, plain = build("relay K1 latching coil 12 V 900 mH\nrelay K2 coil 12 V").relays
    assert latching.reset is not None
    assert (latching.coil.henries, latching.reset.henries, plain.coil.henries) == (0.9, 0.9, 0)


@pytest.mark.parametrize(
    ("fuse", "features"),
    [
        ("7.5 A", ()),
        ("7.5 A blade", ("blade",)),
        ("cartridge fast 7.5 A", ("cartridge", "fast")),
        ("as slow 7.5 A", ("cartridge", "slow")),
    ],
)
def test_a_fuse_is_a_blade_or_a_fast_or_slow_cartridge(build: Build, fuse: str, features: tuple[str, ...]) -> None:
    """A fuse of which nothing is said has no such feature: which it is taken for is told by who takes it."""
    circuit = build(f"type slow fuse 5 A cartridge slow\nfuse F1 {fuse}")
    assert circuit.parts["F1"].features == features
    assert circuit.parts["F1"].ratings["amps"] == 7.5


def test_the_form_of_a_fuse_replaces_that_of_its_type(build: Build) -> None:
    """As the forms of contacts do."""
    assert build("type slow fuse 5 A cartridge slow\nfuse F1 as slow blade").parts["F1"].features == ("blade",)


def test_a_wire_may_say_what_its_insulation_stands(build: Build) -> None:
    """Beside gauge, length and colour; 0 where the plan says nothing."""
    circuit = build("splice A B C\nwire A B : 1.5 mm2 red 0.4 m 105 °C\nwire B C : 90 degC")
    assert [wire.insulation_celsius for wire in circuit.wires] == [105, 90]


def test_modules_hold_figures_wherever_they_are_fitted(build: Build) -> None:
    """Each fit has its own motor and axis, with the figures of the module."""
    circuit = build(
        "module Arm\n port plus minus\n axis arm from in to out, 90 deg, inertia 0.1 kg m2\n"
        " motor M1 12 V stall 9 A 8 N m drives arm toward out\n rung plus, M1, minus\nend\n"
        "supply PS 12 V\nfit A1 Arm : plus PS.+, minus PS.-\nfit A2 Arm : plus PS.+, minus PS.-"
    )
    assert [motor.figures.stall_newton_metres for motor in circuit.motors] == [(8, 8)] * 2
    assert [axis.figures.inertia_kg_m2 for axis in circuit.axes] == [(0.1, 0.1)] * 2


def test_second_conditions_show_both_places(problems_of: ProblemsOf) -> None:
    """They hold for the whole plan, so that two of them would contradict one another."""
    (problem,) = problems_of("conditions ambient 20 °C\nfuse F1 5 A\nconditions bundled 3 wires")
    assert (problem.what, problem.place.line) == ("conditions for a second time", 3)
    assert [(place.line, said) for place, said in problem.also] == [(1, "The first are here.")]


def test_a_type_that_contradicts_itself_is_told_at_the_words_that_do(problems_of: ProblemsOf) -> None:
    """However many motors are of that type."""
    (problem,) = problems_of("type wiper motor 12 V stall 2 A free 5 A\nmotor M1 as wiper")
    assert (problem.place.line, problem.place.column) == (1, 33)
    assert problem.what == "M1 would draw 5 A running free and 2 A stalled"
