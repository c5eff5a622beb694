"""What a finding tells beside where it is: why, the way of the current, the words of the moment, who is concerned."""

from textwrap import dedent

import pytest

from circuitcheck.analysis.facts import analyse
from circuitcheck.analysis.poles_apart import with_poles_apart
from circuitcheck.analysis.promised import promised_never_to_restart
from circuitcheck.checks.check import Finding
from circuitcheck.checks.fingerprints import fingerprints
from circuitcheck.checks.registry import all_checks, run_checks
from circuitcheck.circuit.building import build_circuit
from circuitcheck.plan.reading import read_text
from tests.reference.asking import facts_of


def found(check: str, text: str) -> list[Finding]:
    """What one check finds."""
    facts = analyse(build_circuit(read_text("a.plan", dedent(text))))
    return list(run_checks(facts, tuple(one for one in all_checks() if one.check.name == check)))


PAST_THE_FUSE = """
supply PS 12 V 10 A
fuse   F1 3 A
button PB1 PB2 no
lamp   L1 L2 12 V 5 W
rung   PS.+, F1, PB1, L1, PS.-
rung   PS.+, PB2, L2, PS.-
"""


def test_the_way_past_a_fuse_is_told_terminal_by_terminal() -> None:
    """From + over the button that has to be pressed and through the lamp to −."""
    (finding,) = found("supply-without-fuse", PAST_THE_FUSE)
    assert finding.parts == ("PS", "PB2", "L2")
    assert finding.path == ("PS.+", "PB2.13", "PB2.14", "L2.1", "L2.2", "PS.-")
    assert finding.example == {"PS": "on", "PB2": "pressed"}


def test_a_way_over_wires_alone_names_no_part() -> None:
    """A supply whose two ends were joined."""
    (finding,) = found("supply-without-fuse", "supply PS 12 V 10 A\nwire PS.+ PS.-\n")
    assert finding.what == "PS feeds a way that has no fuse, over wires alone"
    assert finding.path == ("PS.+", "PS.-")


def test_a_finding_that_has_a_reason_of_its_own_tells_that_one() -> None:
    """A stop that springs back is no stop for another reason than one that doesn't stop."""
    (finding,) = found(
        "emergency-stop",
        """
        supply PS 12 V 10 A
        fuse   F1 5 A
        estop  ES1 nc momentary
        motor  M1 12 V stall 4 A
        rung   PS.+, F1, ES1, M1, PS.-
        """,
    )
    assert finding.why.startswith("An emergency stop stays as it was pressed")
    assert (finding.seen, finding.of) == (0, 0)


def test_a_fingerprint_is_thirty_two_hexadecimal_digits() -> None:
    """Services keep it in columns of a fixed width."""
    (finding,) = found("supply-without-fuse", PAST_THE_FUSE)
    (fingerprint,) = fingerprints([("a", finding)])
    assert len(fingerprint) == 32
    assert int(fingerprint, 16) >= 0


def test_a_promise_of_several_things_that_never_comes_about_names_all_their_parts() -> None:
    """Also those within brackets, each once."""
    (finding,) = found(
        "broken-promise",
        """
        supply PS 12 V 10 A
        fuse   F1 5 A
        button PB1 no
        lamp   L1 L2 12 V 5 W
        rung   PS.+, F1, PB1, L1, PS.-
        rung   F1.2, L2, PS.-
        expect L1 lit and L2 lit when PS on
        """,
    )
    assert {"L1", "L2"} <= set(finding.parts)


def test_power_that_a_promise_names_is_no_part_of_what_breaks_it() -> None:
    """Only the motor is, which starts again."""
    plan = """
        supply PS 12 V 10 A
        fuse   F1 5 A
        motor  M1 12 V stall 4 A
        rung   PS.+, F1, M1, PS.-
        never  M1 starts when power returns
    """
    (finding,) = found("broken-promise", plan)
    assert finding.parts == ("M1",)


@pytest.mark.parametrize(("form", "words"), [("", "between its sides"), ("make-before-break", "on both sides")])
def test_a_pole_on_its_way_is_between_its_sides_or_on_both(form: str, words: str) -> None:
    """One that only opens or only closes has no such moment."""
    apart = with_poles_apart(facts_of(f"supply PS 12 V 1 A\nrelay K1 spdt {form} coil 12 V 160 ohm").circuit)
    (pole,) = (digit for digit in apart.circuit.digits if digit.kind == "pole")
    assert pole.values[2:] == (words,)
    closing = with_poles_apart(facts_of("supply PS 12 V 1 A\nrelay K1 no coil 12 V 160 ohm").circuit)
    assert [len(digit.values) for digit in closing.circuit.digits if digit.kind == "pole"] == [2]


@pytest.mark.parametrize(
    ("supplies", "returning", "motors"),
    [
        ("P1", "power returns", {"M1"}),
        ("P1", "P1 returns", {"M1"}),
        ("P1 P2", "power returns", {"M1"}),
        ("P1 P2", "P1 returns", set()),
    ],
)
def test_a_motor_is_promised_not_to_restart_whichever_supply_returns(
    supplies: str, returning: str, motors: set[str]
) -> None:
    """What is said of one of two supplies leaves the other open; other promises are about something else."""
    plan = f"supply {supplies} 12 V 10 A\nmotor M1 M2 12 V stall 4 A\nnever M1 starts when {returning}\n"
    plan += "never M2 driven when P1 off\nalways M2 stopped\n"
    assert promised_never_to_restart(facts_of(plan)) == motors


def test_a_slip_in_the_name_of_an_accepted_check_is_told_with_the_checks_of_like_names() -> None:
    """The check that finds acceptances of no use can't be accepted itself, so it is never proposed."""
    lamp = 'supply PS 12 V 1 A\nfuse F1 1 A\nlamp L1 12 V 2 W\nrung PS.+, F1, L1, PS.-\naccept {} on L1 because "so"\n'
    (slip,) = found("unused-acceptance", lamp.format("load-alway-on"))
    assert "load-always-on" in slip.remedy
    (itself,) = found("unused-acceptance", lamp.format("unused-acceptances"))
    assert "unused-acceptance" not in itself.remedy
    (own,) = found("unused-acceptance", lamp.format("unused-acceptance"))
    assert own.what == "L1 has unused-acceptance accepted, which is no check that can be accepted"


HALFWAY = """
supply PS 12 V 10 A
fuse   F1 5 A
switch S1 spdt positions raise off lower
axis   deck from bottom via middle to top
limit  LS1 nc on deck at {place}
motor  M1 12 V stall 4 A drives deck toward top
rung   PS.+, F1, S1.com
rung   S1.raise, LS1, M1, PS.-
wire   S1.raise M1.+
"""


@pytest.mark.parametrize(
    ("place", "told"), [("top", []), ("middle", ["LS1.com-nc changes nothing in any combination"])]
)
def test_a_limit_that_does_nothing_is_idle_only_where_it_has_no_end_to_guard(place: str, told: list[str]) -> None:
    """At an end of a driven axis it is told as a limit that doesn't cut."""
    text = HALFWAY.format(place=place)
    assert [one.what for one in found("idle-contact", text)] == told
    assert bool(found("limit-not-cutting", text))


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


def test_an_axis_that_operation_never_moves_is_not_called_lost() -> None:
    """Its relay has no wire to its coil, which is what has to be told."""
    plan = """
        supply PS 12 V 10 A
        fuse   F1 5 A
        relay  K1 no coil 12 V 160 ohm
        axis   deck from bottom to top
        limit  LS1 spdt on deck at top
        lamp   L1 12 V 2 W
        motor  M1 12 V stall 4 A drives deck toward top
        rung   PS.+, F1, K1.13-14, LS1.com-nc, M1, PS.-
        rung   F1.2, LS1.com-no, L1, PS.-
    """
    assert found("lost-axis", plan) == []


def test_what_operation_never_comes_to_is_counted_among_all_combinations() -> None:
    """Of two relays without a wire to their coils, a button and a supply: on, both in, the button either way."""
    plan = """
        supply PS 12 V 10 A
        fuse   F1 5 A
        button PB1 no
        lamp   L1 12 V 2 W
        relay  K1 K2 no coil 12 V 160 ohm
        rung   PS.+, F1, K1.13-14, K2.13-14, PS.-
        rung   F1.2, PB1, L1, PS.-
    """
    (short,) = found("supply-short", plan)
    assert (short.severity, short.reached) == ("note", "combination")
    assert (short.seen, short.of) == (2, 16)
    assert short.example == {"PS": "on", "K1": "operated", "K2": "operated"}


def test_a_resistor_in_a_dead_relay_is_told_with_its_coil_alone() -> None:
    """A button's two contacts never close together, so nothing reaches either."""
    plan = """
        supply PS 12 V 10 A
        fuse   F1 1 A
        button PB1 no nc
        relay  K1 no coil 12 V 160 ohm with resistor 470 ohm
        rung   PS.+, F1, PB1.13-14, PB1.21-22, K1.A1-A2, PS.-
    """
    (dead,) = found("dead-part", plan)
    assert (dead.what, dead.parts) == ("K1 gets no volts in any combination of contacts", ("K1",))


@pytest.mark.parametrize(("beside", "idle"), [("", ["PB1", "PB2"]), ("lamp L2 12 V 2 W\nwire L2.1 L1.1\n", [])])
def test_no_contact_is_called_idle_beside_a_load_that_lacks_a_wire(beside: str, idle: list[str]) -> None:
    """What the wire will change nobody knows; without such a load a detour that closes with the way itself is idle."""
    plan = (
        "supply PS 12 V 10 A\nfuse F1 1 A\nbutton PB1 no\nbutton PB2 no no\nlamp L1 12 V 2 W\n"
        "rung PS.+, F1, PB2.13-14, L1, PS.-\nrung F1.2, PB1, PB2.23-24, L1.1\n"
    )
    assert [part for one in found("idle-contact", plan + beside) for part in one.parts] == idle


def test_a_contact_that_is_open_at_the_end_may_still_be_what_stops_the_drive_there() -> None:
    """It keeps K1 in, and so K2 out, on the way; without it K2 holds itself in, and leads past the limit."""
    plan = """
        supply PS 12 V 10 A
        fuse   F1 5 A
        switch S1 dpdt positions raise off lower
        axis   deck from bottom to top
        limit  TOP nc nc on deck at top
        limit  LOW nc no on deck at bottom
        relay  K1 spdt coil 12 V 160 ohm with diode
        relay  K2 no no on-delay 1 s coil 12 V 160 ohm with diode
        motor  M1 12 V stall 4 A drives deck toward top may coast
        rung   PS.+, F1, S1.com1
        rung   S1.raise1, ( TOP.com1-nc1 | K2.17-18 ), M1, S1.raise2
        rung   S1.lower1, LOW.com1-nc1, M1.-
        rung   S1.lower2, M1.+
        wire   S1.com2 PS.-
        rung   F1.2, TOP.com2-nc2, K1.A1-A2, PS.-
        rung   F1.2, ( LOW.com2-no2, K1.11-12 | K2.27-28 ), K2.A1-A2, PS.-
    """
    (finding,) = found("limit-not-cutting", plan)
    assert finding.what.startswith("TOP stops deck at top only by closing TOP.com2-nc2:")


def test_a_finding_is_accepted_for_the_reason_that_was_given_for_its_own_check() -> None:
    """Not for that of another one of the same part."""
    plan = (
        "supply PS 12 V 1 A\nlamp L1 12 V 2 W\nrung PS.+, L1, PS.-\n"
        'accept supply-without-fuse on L1 because "a spare"\naccept load-always-on on L1 because "a pilot lamp"\n'
    )
    (finding,) = found("load-always-on", plan)
    assert finding.accepted == "a pilot lamp"


def test_what_has_no_say_in_a_finding_stands_at_its_first_position_on_the_way_that_is_told() -> None:
    """PB2, pressed, or LS1, at the top, would make the way shorter; but the short is there without them."""
    plan = """
        supply PS 12 V 10 A
        switch S1 spst positions off on
        button PB2 no
        axis   deck from bottom to top
        limit  LS1 no on deck at top
        splice X1 X2 X3 X4
        rung   PS.+, X1, X2, X3, X4, S1, PS.-
        rung   PS.+, ( PB2 | LS1 ), X4
    """
    (short,) = found("supply-short", plan)
    assert short.example == {"PS": "on", "S1": "on"}
    assert short.path == ("PS.+", "X1", "X2", "X3", "X4", "S1.com", "S1.on", "PS.-")


def test_a_relay_may_stick_while_it_still_waits_for_its_time() -> None:
    """K2 is the quicker one; K1, which would cut the motor off again, sticks before it has moved."""
    plan = """
        supply PS 12 V 10 A
        fuse   F1 5 A
        estop  ES1 nc
        relay  K1 spdt coil 12 V 160 ohm operate 20..25 ms release 3..5 ms with diode
        relay  K2 no coil 12 V 160 ohm operate 5..8 ms release 3..5 ms with diode
        motor  M1 12 V stall 4 A
        lamp   L1 12 V 2 W
        rung   PS.+, F1, K2.13-14, K1.11-12, M1, PS.-
        rung   F1.2, K1.A1-A2, PS.-
        rung   F1.2, K2.A1-A2, PS.-
        rung   F1.2, ES1, L1, PS.-
    """
    (stuck,) = found("emergency-stop", plan)
    assert stuck.what == "With K1 stuck released, M1 is still driven while ES1 is pressed"
    assert stuck.steps == ("begin with PS on, ES1 pressed", "K2 operates", "K1 sticks released")


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


def test_a_finding_counts_unless_it_is_accepted_or_known() -> None:
    """Either is enough."""
    (finding,) = found("supply-without-fuse", PAST_THE_FUSE)
    assert finding.counts
    assert not finding._replace(accepted="a spare").counts
    assert not finding._replace(known=True).counts


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
