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
    """A stop that springs back is no stop for another reason than one whose reset starts something."""
    springs, starts = found(
        "emergency-stop",
        """
        supply PS 12 V 10 A
        fuse   F1 5 A
        estop  ES1 nc momentary
        motor  M1 12 V stall 4 A
        rung   PS.+, F1, ES1, M1, PS.-
        """,
    )
    assert springs.why.startswith("An emergency stop stays as it was pressed")
    assert (springs.seen, springs.of) == (0, 0)
    assert starts.why.startswith("Resetting an emergency stop may only permit a start")


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


def test_a_finding_counts_unless_it_is_accepted_or_known() -> None:
    """Either is enough."""
    (finding,) = found("supply-without-fuse", PAST_THE_FUSE)
    assert finding.counts
    assert not finding._replace(accepted="a spare").counts
    assert not finding._replace(known=True).counts
