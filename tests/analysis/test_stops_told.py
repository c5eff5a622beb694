"""What is told of a motor's stops where there is nothing to reckon."""

import pytest

from circuitcheck.analysis.gauges import stranded_ohms
from circuitcheck.analysis.motion.answers import Sense, limit_stops, motion_of
from circuitcheck.analysis.motion.constants import RAD_PER_DEGREE
from circuitcheck.analysis.motion.contact_times import (
    USUAL_OPERATE,
    USUAL_RELEASE,
    USUAL_RELEASE_WITH_DIODE,
    contact_times,
)
from circuitcheck.analysis.motion.known import Wanted, creeping, hull, pace_pairs, peak_reversed, starts
from circuitcheck.analysis.motion.loops import Loop
from circuitcheck.analysis.motion.rooms import FITS, UNKNOWN
from circuitcheck.analysis.motion.stops import Part, parts_of, total
from tests.reference.asking import facts_of


def test_a_stop_in_which_a_motor_turns_weakly_is_told_without_figures() -> None:
    """Nobody can say how far it turns through a lamp; a stop beside it without current is reckoned as measured."""
    facts = facts_of("""
        supply PS 12 V 10 A
        switch S1 spdt positions full faint
        lamp   L1 12 V 20 ohm
        motor  M1 12 V stall 10 A coasts 110 deg free 1 A 40 rpm may coast
        rung   PS.+, S1.full
        rung   PS.+, L1, S1.faint
        rung   S1.com, M1, PS.-
    """)
    (sense,) = motion_of(facts, 0).senses
    stops = {stop.way.does[-1]: stop for stop in sense.stops}
    assert stops.keys() == {"weak", "coasting"}
    assert (stops["weak"].parts, stops["weak"].whole, stops["weak"].wanted) == ((), None, ())
    assert stops["coasting"].whole is not None


LIFT = """
    conditions ambient 5..35 °C
    supply PS 12 V 15 A internal 50 mohm
    switch S1 spdt positions raise off lower
    relay  K1 K2 spdt coil 12 V 160 ohm
    axis   deck from bottom to top, inertia 0.25 kg m2, gravity 1 N m, overtravel 90 deg
    limit  TOP nc on deck at top
    limit  LOW nc on deck at bottom
    motor  M1 {} drives deck toward top
    rung   PS.+, S1.com
    rung   S1.raise, TOP, K1.A1-A2, PS.-
    rung   S1.lower, LOW, K2.A1-A2, PS.-
    wire   PS.+ K1.14  : 1 mm2 1 m
    wire   PS.+ K2.14
    wire   K1.11 M1.+  : 1 mm2 2 m
    wire   M1.- K2.11  : 1 mm2 4 m
    wire   K1.12 PS.-  : 1 mm2 8 m
    wire   K2.12 PS.-  : 1 mm2 16 m
"""
FIGURES = "12 V stall 18 A free 1.5 A 40 rpm rotor 900 g cm2 gear 60:1"


def senses_of(motor: str) -> tuple[Sense, ...]:
    """What is told of the lift's motor, up and down."""
    return motion_of(facts_of(LIFT.format(motor)), 0).senses


def test_wires_count_as_far_as_the_motors_current_passes_them() -> None:
    """Out, back and inside the supply; warm as in the warmest place. One of which nothing is told is
    named, for the brake too, since both relays operated join the motor's leads as well."""
    metre = stranded_ohms(1, 1, 35)
    up, down = senses_of(FIGURES)
    assert (up.direction, up.upward, down.direction, down.upward) == (1, True, -1, False)
    assert up.volts == down.volts == pytest.approx((12, 12))
    assert up.drive.ohms == pytest.approx((1 + 2 + 4 + 16) * metre + 0.05)
    assert down.drive.ohms == pytest.approx((4 + 2 + 8) * metre + 0.05)
    assert (up.drive.unmeasured, down.drive.unmeasured) == ((), ("the wire PS.+ to K2.14",))
    for sense in (up, down):
        assert sense.brake.ohms == pytest.approx((2 + 8 + 16 + 4) * metre)
        assert sense.brake.unmeasured == ("the wire PS.+ to K2.14",)


def test_a_start_and_what_creeps_are_those_of_the_motors_own_loops() -> None:
    """From no resistance to that of the wires."""
    facts = facts_of(LIFT.format(FIGURES).replace("gravity 1 N m", "gravity 8 N m"))
    motor, axis = facts.circuit.motors[0], facts.circuit.axes[0]
    for sense in motion_of(facts, 0).senses:
        assert sense.start == starts(motor, axis, sense.upward, sense.volts, (0, sense.drive.ohms))
        assert sense.creeps == creeping(motor, axis, sense.upward, (0, sense.brake.ohms))
        assert not sense.held
    heavy = facts_of(LIFT.format(FIGURES).replace("gravity 1 N m", "gravity 80 N m"))
    assert [sense.held for sense in motion_of(heavy, 0).senses] == [True, False]


def test_stops_at_the_ends_have_their_room_and_those_by_hand_have_none() -> None:
    """The limit, the switch and the supply end the drive toward the top, each braked once the relay has let go."""
    up, down = senses_of(FIGURES)
    for sense, limit in ((up, "TOP"), (down, "LOW")):
        rooms = {
            stop.room and stop.room.switches: stop for stop in sense.stops if stop.way.does == ("driven", "braked")
        }
        assert rooms.keys() == {None, (limit,)}
        stop = rooms[(limit,)]
        assert [cause.kind for cause in stop.causes] == ["limit"]
        assert stop.room is not None
        assert stop.room.radians == (90 * RAD_PER_DEGREE, 90 * RAD_PER_DEGREE)
        assert stop.verdict == FITS
        assert rooms[None].verdict == ""
        assert rooms[None].whole == stop.whole
        assert (stop.amps, stop.wanted) == (None, ())
    assert [stop.room and stop.room.switches for stop in limit_stops(facts_of(LIFT.format(FIGURES)), 0)] == [
        ("TOP",),
        ("LOW",),
    ]


def test_a_motor_of_which_nothing_is_told_has_no_stops_at_its_ends() -> None:
    """What it draws is asked for by the circuit itself; what is wanted is the shorter of two lists."""
    assert not list(limit_stops(facts_of(LIFT.format("12 V stall 18 A")), 0))
    assert not list(limit_stops(facts_of(LIFT.format(FIGURES).replace(" drives deck toward top", "")), 0))
    up, _ = senses_of("12 V stall 18 A free 1.5 A 40 rpm")
    stop = next(one for one in up.stops if one.room is not None)
    assert (stop.parts, stop.whole, stop.pair, stop.verdict) == ((), None, None, UNKNOWN)
    assert stop.wanted == (Wanted("M1", "brakes in 6 deg"),)
    more, _ = senses_of("12 V stall 18 A free 1.5 A 40 rpm rotor 900 g cm2")
    assert {one.wanted for one in more.stops} == {(Wanted("M1", "gear 60:1"),)}


def test_a_motor_thrown_into_reverse_tells_what_it_draws_then() -> None:
    """A hand that passes off at once; the wires of the drive count."""
    facts = facts_of(LIFT.format(FIGURES))
    motor, axis = facts.circuit.motors[0], facts.circuit.axes[0]
    for sense in motion_of(facts, 0).senses:
        reversed_ones = [stop for stop in sense.stops if "reversed" in stop.way.does]
        assert reversed_ones
        for stop in reversed_ones:
            assert stop.amps == peak_reversed(motor, axis, sense.upward, sense.volts, (0, sense.drive.ohms))


def test_figures_that_contradict_each_other_are_told_instead_of_a_motion() -> None:
    """In words, and nothing is reckoned."""
    told = motion_of(facts_of(LIFT.format("12 V stall 3 A free 2 A 40 rpm rotor 900 g cm2 gear 60:1")), 0)
    assert told.senses == ()
    assert told.contradiction.startswith("2 A free and 3 A stalled")
    assert told.start_wanted == ()


def test_both_brushes_together_have_the_least_and_the_most_of_either() -> None:
    """Part by part and in all; the furthest pace is the high brush's."""
    plan = LIFT.replace("M1.+", "M1.low").format(f"two-speed {FIGURES}") + "    wire M1.high M1.low\n"
    single, double = (motion_of(facts_of(one), 0).senses[0] for one in (LIFT.format(FIGURES), plan))
    stops = [next(one for one in sense.stops if one.room is not None) for sense in (single, double)]
    circuit = facts_of(plan).circuit
    ohms = (0.0, double.drive.ohms), (0.0, double.brake.ohms)
    pairs = pace_pairs(circuit.motors[0], circuit.axes[0], True, "braked", double.volts, ohms)
    brushes = [parts_of(stops[1].way, *pair) for pair in pairs]
    assert len(brushes) == 2
    for part in stops[1].parts:
        same = [next(one for one in parts if one.does == part.does) for parts in brushes]
        assert part == Part(part.does, hull(*(one.turns for one in same)), hull(*(one.lasts for one in same)))
    wholes = [total(stops[1].way, *pair) for pair in pairs]
    assert stops[1].whole == Part("braked", hull(*(one.turns for one in wholes)), hull(*(one.lasts for one in wholes)))
    assert stops[1].pair is not None
    assert stops[0].pair is not None
    assert stops[1].pair[0] == stops[0].pair[0]
    assert stops[1].pair[1].speed > stops[0].pair[1].speed


def test_of_two_ways_of_the_current_the_worse_counts_where_it_is_the_only_one() -> None:
    """Either switch feeds the motor; with both on the current has the better way as well."""
    facts = facts_of("""
        supply PS 12 V 10 A
        switch S1 S2 spst positions off on
        motor  M1 12 V stall 10 A may coast
        wire   PS.+ S1.com : 1 mm2 1 m
        wire   S1.on M1.+  : 1 mm2 1 m
        wire   PS.+ S2.com : 1 mm2 8 m
        wire   S2.on M1.+
        wire   M1.- PS.-   : 1 mm2 1 m
    """)
    (sense,) = motion_of(facts, 0).senses
    assert sense.drive.ohms == pytest.approx((8 + 1) * stranded_ohms(1, 1, 20))
    assert sense.drive.unmeasured == ("the wire S2.on to M1.+",)
    assert sense.brake == Loop(0.0, ())


def test_relays_take_the_times_that_the_plan_gives_or_usual_ones() -> None:
    """A diode across the coil makes the release three times as long."""
    circuit = facts_of("""
        supply PS 12 V 10 A
        relay  K1 no coil 12 V 160 ohm operate 2..6 ms
        relay  K2 no coil 12 V 160 ohm
        relay  K3 no coil 12 V 160 ohm with diode
        relay  K4 no coil 12 V 160 ohm release 1..3 ms with diode
    """).circuit
    assert contact_times(circuit) == {
        0: ((0.002, 0.006), USUAL_RELEASE, True, False, False),
        1: (USUAL_OPERATE, USUAL_RELEASE, False, False, False),
        2: (USUAL_OPERATE, USUAL_RELEASE_WITH_DIODE, False, False, True),
        3: (USUAL_OPERATE, (0.001, 0.009), False, True, True),
    }


def test_each_direction_has_the_volts_and_the_wires_of_its_own_supply() -> None:
    """A motor that is lowered by a weaker supply, over longer wires."""
    up, down = motion_of(facts_of("""
        supply P1 12 V 10 A
        supply P2 6 V 10 A internal 1 ohm
        switch S1 dpdt positions raise off lower
        motor  M1 12 V stall 10 A may coast
        wire   P1.+ S1.raise1 : 1 mm2 1 m
        wire   S1.com1 M1.+   : 1 mm2 2 m
        wire   S1.com2 M1.-   : 1 mm2 4 m
        wire   S1.raise2 P1.- : 1 mm2 8 m
        wire   S1.lower2 P2.+ : 1 mm2 16 m
        wire   S1.lower1 P2.- : 1 mm2 32 m
    """), 0).senses  # fmt: skip
    metre = stranded_ohms(1, 1, 20)
    assert (up.volts, down.volts) == ((12, 12), (6, 6))
    assert up.drive.ohms == pytest.approx((1 + 2 + 4 + 8) * metre)
    assert down.drive.ohms == pytest.approx((16 + 4 + 2 + 32) * metre + 1)
    assert not up.too_many


def test_a_motor_that_only_turns_back_has_that_sense_alone() -> None:
    """It is fed the other way round."""
    facts = facts_of(
        "supply PS 12 V 9 A\nbutton PB1 no\nmotor M1 12 V stall 9 A\nrung PS.+, PB1, M1.-\nwire M1.+ PS.-\n"
    )
    assert [sense.direction for sense in motion_of(facts, 0).senses] == [-1]


def test_of_relays_in_too_many_orders_it_is_told_that_they_are() -> None:
    """How the motor starts is known all the same."""
    names = [f"K{number}" for number in range(1, 9)]
    coils, contacts = " | ".join(f"{one}.A1-A2" for one in names), ", ".join(f"{one}.14-11" for one in names)
    (sense,) = motion_of(facts_of(
        f"supply PS 12 V 9 A\nbutton PB1 no\nrelay {' '.join(names)} spdt coil 12 V 160 ohm\n"
        f"motor M1 12 V stall 9 A\nrung PS.+, PB1, ( {coils} ), PS.-\nrung PS.+, {contacts}, M1, PS.-\n"
    ), 0).senses  # fmt: skip
    assert (sense.too_many, sense.stops, sense.held) == (True, (), False)
