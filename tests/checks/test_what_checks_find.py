"""What single checks find in boxes where that is plain: what is told together, by which name, how severe it is."""

from unittest.mock import patch

import pytest

from circuitcheck.analysis.facts import FOLLOWED
from tests.analysis.plans import circuit_of
from tests.analysis.test_vicinity import following_at_most
from tests.checks.test_what_findings_tell import HALFWAY, found
from tests.judge.replaying import replay


def test_loads_without_volts_are_told_together_where_they_hang_together_or_are_one_part() -> None:
    """Not those that only have a rail in common."""
    plan = """
        supply PS 12 V 10 A
        fuse   F1 5 A
        button PB1 PB2 PB3 PB4 no nc
        lamp   L1 L2 L3 L4 12 V 2 W
        resistor R1 100 ohm
        relay  K1 no latching coil 12 V 160 ohm
        rung   PS.+, F1, PB1.13-14, PB1.21-22, L1, L3, L2, PS.-
        rung   F1.2, PB2.13-14, PB2.21-22, L4, R1, PS.-
        rung   F1.2, PB3.13-14, PB3.21-22, K1.A1-A2, PS.-
        rung   F1.2, PB4.13-14, PB4.21-22, K1.B1-B2, PS.-
    """
    assert [one.what.removesuffix(" no volts in any combination of contacts") for one in found("dead-part", plan)] == [
        "L1, L2 and L3 get", "L4 and R1 get", "K1 and K1.B1-B2 get",
    ]  # fmt: skip


def test_dead_ends_are_told_together_where_they_share_a_part() -> None:
    """The second ways of X1 and X2 meet, the first ones lead to splices; X3 is for itself."""
    plan = """
        supply PS 12 V 10 A
        fuse   F1 5 A
        lamp   L1 12 V 2 W
        connector X1 X2 X3 2 ways
        splice N1 N2 N3
        rung   PS.+, F1, L1, PS.-
        rung   F1.2, X1.p1-s1, N1
        rung   F1.2, X2.p1-s1, N2
        rung   F1.2, X1.p2-s2, X2.p2-s2
        rung   F1.2, X3.p1-s1, N3
    """
    assert [one.parts for one in found("dead-part", plan)] == [("X1", "X2"), ("X3",)]


def test_each_volts_that_do_not_suit_a_coil_are_told_with_the_states_that_bring_them() -> None:
    """Too many and too few; those between suit it."""
    plan = """
        supply P1 5 V 10 A
        supply P2 12 V 10 A
        supply P3 24 V 10 A
        switch S1 1 poles 3 ways positions low mid high
        relay  K1 no coil 12 V 160 ohm with diode
        rung   P1.+, S1.low
        rung   P2.+, S1.mid
        rung   P3.+, S1.high
        rung   S1.com, K1.A1-A2, P1.-, P2.-, P3.-
    """
    assert [(one.what, one.example) for one in found("coil-volts-mismatch", plan)] == [
        ("K1's coil gets 24 V and is rated 12 V, with P3 on, S1 high", {"P3": "on", "S1": "high"}),
        ("K1's coil gets 5 V and operates from 9.6 V on, with P1 on, S1 low", {"P1": "on", "S1": "low"}),
    ]


def test_a_motor_that_a_timing_relay_keeps_on_is_told_beside_what_a_fault_does() -> None:
    """K1 lets go two seconds after ES1 is pressed; stuck it never does."""
    plan = """
        supply PS 12 V 10 A
        fuse   F1 5 A
        estop  ES1 nc
        relay  K1 no off-delay 2 s coil 12 V 160 ohm with diode
        motor  M1 12 V stall 4 A may coast
        rung   PS.+, F1, ES1, K1.A1-A2, PS.-
        rung   F1.2, K1.17-18, M1, PS.-
    """
    told = {one.severity + ": " + one.what.partition(", with")[0] for one in found("emergency-stop", plan)}
    assert told == {
        "note: M1 is driven on after ES1 is pressed until a timing relay has run out",
        "warning: With K1 stuck operated, M1 is still driven while ES1 is pressed",
        "warning: M1 starts as soon as ES1 is reset",
    }


def test_all_relays_that_an_emergency_stop_leans_on_are_told_at_once() -> None:
    """Any of three contacts side by side keeps the motor going."""
    plan = """
        supply PS 12 V 10 A
        fuse   F1 5 A
        estop  ES1 nc
        relay  K1 K2 K3 no coil 12 V 160 ohm with diode
        motor  M1 12 V stall 4 A may coast
        rung   PS.+, F1, ES1, K1.A1-A2, PS.-
        rung   ES1.12, K2.A1-A2, PS.-
        rung   ES1.12, K3.A1-A2, PS.-
        rung   F1.2, ( K1.13-14 | K2.13-14 | K3.13-14 ), M1, PS.-
    """
    (stuck,) = (one for one in found("emergency-stop", plan) if one.reached == "fault")
    assert stuck.parts == ("ES1", "M1", "K1", "K2", "K3")
    assert stuck.what.endswith("while ES1 is pressed; K2 stuck operated or K3 stuck operated does the same")


HOMED = """
    supply PS 12 V 10 A
    fuse   F1 5 A
    switch S1 dpdt positions raise off lower
    relay  K1 no no coil 12 V 160 ohm with diode
    relay  K2 nc no coil 12 V 160 ohm with diode
    axis   deck from bottom to top
    limit  TOP no on deck at top
    limit  LOW nc on deck at bottom
    motor  M1 12 V stall 5 A drives deck toward top may coast
    rung   PS.+, F1, ( K2.23-24 | K1.13-14 ), K1.A1-A2, PS.-
    rung   F1.2, TOP, K2.A1-A2, PS.-
    rung   F1.2, K1.23-24, S1.com1
    rung   S1.raise1, K2.11-12, M1, S1.raise2
    rung   S1.lower1, LOW, M1.-
    rung   S1.lower2, M1.+
    wire   S1.com2 PS.-
"""
"""A deck that moves only once it has been cranked to the top: K1 then seals itself in over K2."""


@pytest.mark.parametrize("most", [FOLLOWED, 4], ids=["followed whole", "from nearby"])
def test_a_wire_to_a_limit_may_break_after_what_it_brought_about(most: int) -> None:
    """With the wire broken from the beginning nothing would ever move."""
    with following_at_most(most):
        (broken,) = found("limit-not-cutting", HOMED)
    assert (broken.reached, broken.parts) == ("fault", ("TOP", "deck"))
    assert broken.what.startswith("TOP stops deck at top only by closing TOP.com-no: with a wire to it broken, deck is")
    assert broken.steps == (
        "begin with PS on, S1 raise, deck at top",
        "K2 operates",
        "K1 operates",
        "fault: TOP.com-no open",
        "K2 releases",
    )
    assert replay(circuit_of(HOMED), broken) == ""


def test_a_wire_to_a_stop_may_break_before_all_relays_have_come_to_rest() -> None:
    """K2 would have cut off K1, which is in for a moment only and stays in if the wire breaks just then."""
    plan = """
        supply PS 12 V 10 A
        fuse   F1 5 A
        estop  ES1 nc no
        diode  D1
        relay  K1 no no no coil 12 V 160 ohm with diode
        relay  K2 nc no coil 12 V 160 ohm with diode
        motor  M1 12 V stall 5 A may coast
        rung   PS.+, F1, ES1.23-24, D1, K2.11-12, K1.A1-A2, PS.-
        rung   F1.2, K1.13-14, K2.11
        rung   ES1.24, ( K1.23-24 | K2.23-24 ), K2.A1-A2, PS.-
        rung   F1.2, K1.33-34, M1, PS.-
    """
    (broken,) = (one for one in found("emergency-stop", plan) if "a wire to it broken" in one.what)
    assert broken.steps == ("begin with PS on, ES1 pressed", "K1 operates", "fault: ES1.23-24 open")
    assert replay(circuit_of(plan), broken) == ""


def test_a_stop_that_springs_back_starts_the_motor_as_it_is_let_go() -> None:
    """The hand on the stop is what its reset takes away; S1 is still on then."""
    plan = """
        supply PS 12 V 10 A
        fuse   F1 5 A
        estop  ES1 nc momentary
        switch S1 spst positions off on
        motor  M1 12 V stall 5 A may coast
        rung   PS.+, F1, ES1, S1, M1, PS.-
    """
    springs, starts = found("emergency-stop", plan)
    assert springs.what == "ES1 springs back when it is let go"
    assert starts.what == "M1 starts as soon as ES1 is reset, with PS on, ES1 released, S1 on"
    assert starts.steps == ("begin with PS on, ES1 pressed, S1 on", "release ES1")


def test_of_combinations_that_operation_never_comes_to_the_first_is_told() -> None:
    """Of two relays side by side, without a wire to their coils, the first alone."""
    plan = """
        supply PS 12 V 10 A
        relay  K1 K2 no coil 12 V 160 ohm
        rung   PS.+, ( K1.13-14 | K2.13-14 ), PS.-
    """
    (short,) = found("supply-short", plan)
    assert short.example == {"PS": "on", "K1": "operated"}


def test_a_sneak_path_that_only_lights_lamps_is_a_warning() -> None:
    """Each of two lamps glows over a third one between them."""
    plan = """
        supply PS 12 V 10 A
        fuse   F1 5 A
        switch S1 S2 spst positions off on
        lamp   L1 L2 L3 12 V 2 W
        rung   PS.+, F1, S1, L1, PS.-
        rung   F1.2, S2, L2, PS.-
        rung   S1.on, L3, S2.on
    """
    assert [(one.parts, one.severity) for one in found("sneak-path", plan)] == [
        (("L1", "L3"), "warning"), (("L2", "L3"), "warning"),
    ]  # fmt: skip


def test_relays_that_chase_each_other_never_come_to_rest() -> None:
    """One is told by itself, several together."""
    plan = """
        supply PS 12 V 10 A
        button PB1 no
        relay  K1 K2 dpdt coil 12 V 160 ohm
        rung   PS.+, PB1, K2.11-12, K1.A1-A2, PS.-
        rung   PB1.14, K1.11-14, K2.A1-A2, PS.-
    """
    (chase,) = found("never-settles", plan)
    assert chase.what == "K1 and K2 never come to rest with PS on, PB1 pressed"


def test_a_timing_relay_with_a_control_input_may_have_its_supply_at_all_times() -> None:
    """K1's input is worked by a button, K2's is wired to plus."""
    plan = """
        supply PS 12 V 10 A
        fuse   F1 5 A
        button PB1 no
        relay  K1 K2 no on-delay 3 s controlled coil 12 V 160 ohm with diode
        rung   PS.+, F1, K1.A1-A2, PS.-
        rung   F1.2, PB1, K1.B1
        rung   F1.2, K2.A1-A2, PS.-
        rung   F1.2, K2.B1
    """
    assert [one.parts for one in found("load-always-on", plan)] == [("K2",)]


def test_each_coil_that_is_too_weak_is_told_by_its_name() -> None:
    """Behind a resistor: the second coil of a latching relay, the first of another one."""
    plan = """
        supply PS 12 V 10 A
        fuse   F1 5 A
        button PB1 PB2 no
        relay  K1 K2 no latching coil 12 V 160 ohm with diode
        resistor R1 R2 500 ohm
        rung   PS.+, F1, PB1, K1.A1-A2, PS.-
        rung   F1.2, PB2, R1, K1.B1-B2, PS.-
        rung   F1.2, PB1, R2, K2.A1-A2, PS.-
    """
    told = [one.what for one in found("relay-never-operates", plan)]
    assert [one.partition(":")[0] for one in told] == ["K1's coil B1-B2 never operates", "K2 never operates"]


def test_a_drum_that_coasts_through_its_cam_is_told() -> None:
    """By the figures of the motor and of the cam."""
    plan = """
        supply PS 12 V 10 A
        fuse   F1 5 A
        button PB1 no
        axis   drum turning through park half
        cam    CS1 nc on drum at park 20 deg
        motor  M1 12 V free 40 rpm coasts 99 deg may coast drives drum toward half
        rung   PS.+, F1, ( PB1 | CS1 ), M1, PS.-
    """
    (past,) = found("runs-past-limit", plan)
    assert past.what.endswith("after CS1 has switched, coasting in the end, but CS1 stays pressed for 20 deg")


def test_each_supply_without_a_fuse_is_told() -> None:
    """Whether or not one before it has a fuse."""
    plan = """
        supply P1 P2 12 V 10 A
        fuse   F1 3 A
        lamp   L1 L2 12 V 5 W
        rung   P1.+, F1, L1, P1.-
        rung   P2.+, L2, P2.-
    """
    assert [one.parts for one in found("supply-without-fuse", plan)] == [("P2", "L2")]


@pytest.mark.parametrize(
    ("most", "others"),
    [
        (4, "LS1 moved toward top, LS1.com-nc welded, K1 stuck operated and K1.13-14 welded"),
        (3, "LS1 moved toward top, LS1.com-nc welded, K1 stuck operated and 1 more"),
    ],
)
def test_of_faults_that_break_a_requirement_so_many_are_named(most: int, others: str) -> None:
    """The first in full, some others by name, and how many more there are."""
    plan = """
        supply PS 12 V 10 A
        fuse   F1 5 A
        switch S1 spst positions off on
        axis   deck from bottom to top
        limit  LS1 nc on deck at top
        relay  K1 no coil 12 V 160 ohm with diode
        motor  M1 12 V stall 5 A drives deck toward top may coast
        rung   PS.+, F1, S1, LS1, K1.A1-A2, PS.-
        rung   F1.2, K1.13-14, M1, PS.-
        require one fault never drives deck past top
    """
    with patch("circuitcheck.checks.broken_requirement.MOST_NAMED", most):
        (broken,) = found("broken-requirement", plan)
    assert broken.what.startswith("With LS1 stuck free, M1 drives deck on past top, though no single fault may do that")
    assert broken.what.endswith(f"; so it does with {others}")
    assert broken.parts == ("deck", "LS1", "K1", "M1")


@pytest.mark.parametrize("end", ["top", "bottom"])
@pytest.mark.parametrize(("load", "severity"), [("lamp", "note"), ("resistor", "warning")])
def test_a_second_limit_that_has_no_say_in_the_drive_is_told_at_either_end(end: str, load: str, severity: str) -> None:
    """One that lights a lamp is worth a note; one in the way of nothing but a resistor is a mistake."""
    load = {"lamp": "lamp B1 12 V 2 W", "resistor": "resistor B1 100 ohm"}[load]
    plan = f"""
        supply PS 12 V 10 A
        fuse   F1 5 A
        switch S1 spst positions off on
        axis   deck from bottom to top
        limit  LS1 LS2 nc on deck at {end}
        {load}
        motor  M1 12 V stall 4 A drives deck toward {end} may coast
        rung   PS.+, F1, S1, LS1, M1, PS.-
        rung   S1.on, LS2, B1, PS.-
    """
    (idle,) = found("limit-not-cutting", plan)
    assert (idle.what, idle.severity) == ("LS2 never changes what drives deck, pressed or not", severity)


def test_other_idle_contacts_are_told_beside_a_limit_that_guards_an_end() -> None:
    """A button beside the same detour, and a limit at an end to which nothing drives its axis."""
    more = (
        "button PB1 no\naxis leaf from left via half to right\nlimit LS2 nc on leaf at right\n"
        "rung S1.raise, PB1, M1.+\nrung S1.raise, LS2, M1.+\n"
    )
    told = [one.parts for one in found("idle-contact", HALFWAY.format(place="top") + more)]
    assert sorted(told) == [("LS2",), ("PB1",)]
