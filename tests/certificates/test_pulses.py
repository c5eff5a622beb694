"""Which motors are certified to be driven the wrong way in no moment, and to push no supply, and which are not."""

import random
from math import prod
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from circuitcheck.analysis.facts import analyse
from circuitcheck.certificates.verifier import NO_PULSE, NOT_PUSHED, box_of, claims_by_check
from circuitcheck.certificates.writing import certificate_of
from circuitcheck.checks import overvolted_supply, wrong_way_pulse
from circuitcheck.circuit.model import Circuit
from tests.analysis.plans import circuit_of, plan_texts
from tests.analysis.test_settling import TIMES, relay_plans
from tests.certificates.seen import Seen
from tests.certificates.seen_claims import holds
from tests.certificates.test_certificates import EXAMPLES, example
from tests.certificates.test_entries import MOST_STATES, entry, is_taken, taken
from tests.profiles import examples

WRONG = [*wrong_way_pulse.CHECK.wrong, *overvolted_supply.CHECK.wrong]


def left_over(circuit: Circuit) -> set[str]:
    """The claims about pulses and pushed supplies that have no certificate."""
    claims = claims_by_check(circuit)
    left = certificate_of(circuit)["without certificate"]
    return {claim for check in ("wrong-way-pulse", "overvolted-supply") for claim in claims[check] if claim in left}


def found_in(circuit: Circuit) -> set[str]:
    """What the checks find wrong, as the claims that it breaks."""
    facts = analyse(circuit)
    pulses = {f"{found.parts[0]} {NO_PULSE}" for found in wrong_way_pulse.find(facts)}
    return pulses | {f"{found.parts[0]} {NOT_PUSHED}" for found in overvolted_supply.find(facts)}


@pytest.mark.parametrize("text", [one.plan for one in WRONG])
def test_what_a_check_finds_wrong_has_no_certificate(text: str) -> None:
    """In the wrong plans of both checks just the claim is left over that is broken."""
    circuit = circuit_of(text)
    assert left_over(circuit) == found_in(circuit) != set()


@pytest.mark.parametrize("file", sorted((EXAMPLES / "wrong").glob("*.plan")), ids=lambda file: file.stem)
def test_nothing_that_is_found_in_a_wrong_example_is_certified(file: Path) -> None:
    """Whatever else is wrong with it."""
    circuit = example(file)
    assert left_over(circuit) >= found_in(circuit)


TWO_POLES = """
supply PS 12 V 10 A
fuse   F1 5 A
button PB1 no
relay  K1 dpdt coil 12 V 160 ohm with diode
motor  M1 12 V stall 10 A
rung   PS.+, F1, PB1, K1.A1-A2, PS.-
rung   K1.11, M1, K1.21
rung   PS.-, K1.12, K1.22
wire   F1.2 K1.14
wire   K1.24 {other}
"""


@pytest.mark.parametrize(("other", "pulsed"), [("F1.2", True), ("K1.22", False)])
def test_a_pole_that_lags_behind_its_twin_drives_a_motor_that_both_brake(other: str, pulsed: bool) -> None:
    """A jaw's relay joins the motor to + at both ends, or to − with one of its two poles and drives it."""
    circuit = circuit_of(TWO_POLES.format(other=other))
    assert (found_in(circuit) != set()) == pulsed
    assert left_over(circuit) == ({f"M1 {NO_PULSE}"} if pulsed else set())


@pytest.mark.parametrize("text", [one.plan for one in WRONG])
def test_nothing_comes_of_following_the_supplies_alone(text: str) -> None:
    """Where relays and switches are left out, they may stand anyhow at any moment."""
    circuit = circuit_of(text)
    box, supplies = box_of(circuit), frozenset(supply.digit for supply in circuit.supplies)
    for claim in found_in(circuit):
        assert not is_taken(box, entry(box, supplies, {}, claim), True, 0)


def test_a_pole_between_its_sides_brakes_no_motor() -> None:
    """A drum's brake is on either side of a pole; between them a lamp feeds the motor."""
    circuit = circuit_of("""
supply PS 12 V 10 A
fuse   F1 5 A
button PB1 no
relay  K1 spdt coil 12 V 160 ohm with diode
lamp   L1 12 V 100 W
motor  M1 12 V stall 4 A may coast
rung   PS.+, F1, PB1, K1.A1-A2, PS.-
rung   F1.2, L1, M1, PS.-
wire   K1.11 M1.+
wire   K1.12 PS.-
wire   K1.14 PS.-
""")
    assert found_in(circuit) == {f"M1 {NO_PULSE}"}
    assert f"M1 {NO_PULSE}" in left_over(circuit)


RUN_AND_DIRECTION = """
supply PS 12 V 10 A
fuse   F1 5 A
switch S1 spdt positions open off close
relay  K1 dpdt coil 12 V 160 ohm with resistor 680 ohm {run} "run"
relay  K2 dpdt coil 12 V 160 ohm with diode {direction} "direction"
diode  D1 D2
motor  M1 12 V stall 10 A
rung   PS.+, F1, S1.com-open, D1, K1.A1-A2, PS.-
rung   S1.close, D2, K1.A1
rung   S1.close, K2.A1-A2, PS.-
rung   F1.2, K1.14-11, K2.12, K2.24
rung   PS.-, K1.12, K2.22, K2.14
rung   K2.11, M1, K2.21
"""


@pytest.mark.parametrize(
    ("run", "direction", "sound"),
    [
        ("operate 8..12 ms release 2..4 ms", "operate 3..6 ms release 8..15 ms", True),
        ("operate 8..12 ms release 2..4 ms", "operate 3..8 ms release 8..15 ms", False),
        ("operate 8..12 ms release 2..8 ms", "operate 3..6 ms release 8..15 ms", False),
        ("operate 8..12 ms release 2..4 ms", "operate 3..6 ms release 1..2 ms", False),
        ("operate 8..12 ms", "operate 3..6 ms", False),
        ("", "", False),
    ],
)
def test_a_curtain_is_certified_where_the_run_relay_is_surely_the_slower_to_operate_and_the_quicker_to_release(
    run: str, direction: str, sound: bool
) -> None:
    """A diode across a coil makes it up to three times as slow to release. Times that touch leave both orders."""
    circuit = circuit_of(RUN_AND_DIRECTION.format(run=run, direction=direction))
    assert (found_in(circuit) == set()) == sound
    assert (left_over(circuit) == set()) == sound


WAITED_FOR = """
supply PS 12 V 10 A
fuse   F1 5 A
switch S1 spst positions off on
relay  K1 no coil 12 V 160 ohm with diode operate 8..12 ms release 1 ms
relay  K2 nc coil 12 V 160 ohm with diode operate 3..6 ms release 9..10 ms
relay  K3 no coil 12 V 160 ohm with diode operate 5..7 ms release 9..10 ms
motor  M1 12 V stall 10 A may coast
rung   PS.+, F1, S1, K1.A1-A2, PS.-
rung   S1.on, K3.A1-A2, PS.-
rung   S1.on, {gate} K2.A1-A2, PS.-
rung   F1.2, K1.13-14, K2.11-12, M1, PS.-
"""


@pytest.mark.parametrize(("gate", "sound"), [("", True), ("K3.13-14,", False)])
def test_a_quicker_relay_that_has_to_wait_for_another_may_be_the_later_one(gate: str, sound: bool) -> None:
    """K2 opens the lift's way before K1 closes it, unless K3 has to operate first."""
    circuit = circuit_of(WAITED_FOR.format(gate=gate))
    assert (found_in(circuit) == set()) == sound
    assert (left_over(circuit) == set()) == sound


FAST_AND_SLOW = """
supply PS1 24 V 10 A
supply PS2 12 V 10 A {electronic}
switch S1 dpdt positions fast off slow
relay  K1 spdt coil 24 V 600 ohm
motor  M1 24 V stall 10 A {free} may coast
wire   PS1.- PS2.-
rung   PS1.+, S1.fast1
rung   PS2.+, S1.slow1
rung   PS1.+, S1.com2
rung   S1.fast2, K1.A1-A2, PS1.-
wire   S1.slow2 K1.A1
rung   S1.com1, K1.14-11, M1, PS1.-
{brake}
"""


@pytest.mark.parametrize(
    ("electronic", "free", "brake", "pushed"),
    [
        ("withstands 15 V", "", "", True),
        ("limit 12 A", "", "", True),
        ("", "", "", False),
        ("withstands 24 V", "", "", False),
        ("withstands 23 V", "", "", True),
        ("withstands 23 V", "free 0.5..0.9 A 60 rpm", "", False),
        ("withstands 15 V", "", "wire K1.12 PS1.-", False),
    ],
)
def test_a_drum_that_turns_faster_than_its_slow_supply_bears_is_not_certified(
    electronic: str, free: str, brake: str, pushed: bool
) -> None:
    """Unless a relay brakes it in between. It makes 24 V less 0.5 A in 2.4 ohm, where that is told."""
    circuit = circuit_of(FAST_AND_SLOW.format(electronic=electronic, free=free, brake=brake))
    assert (f"M1 {NOT_PUSHED}" in found_in(circuit)) == pushed
    assert (f"M1 {NOT_PUSHED}" in left_over(circuit)) == pushed
    assert holds(Seen(circuit), f"M1 {NOT_PUSHED}") != pushed


LOWERED = """
supply PS 12 V 10 A withstands 16 V
switch S1 dpdt positions raise off lower
axis   deck from bottom to top, {figures}
motor  M1 12 V stall 16..18 A 20..22 N m free 1.5..2 A 40 rpm drives deck toward top
rung   PS.+, ( S1.raise1 | S1.lower2 )
rung   PS.-, ( S1.lower1 | S1.raise2 )
rung   S1.com1, M1, S1.com2
"""


@pytest.mark.parametrize(
    ("figures", "fed_back"),
    [
        ("friction 0.2..0.4 N m, gravity 4..5 N m", True),
        ("gravity 2 N m", True),
        ("friction 0.2..0.4 N m, gravity 1 N m", False),
        ("friction 0.2..0.4 N m", False),
    ],
)
def test_a_deck_whose_weight_drives_its_motor_is_not_certified(figures: str, fed_back: bool) -> None:
    """The motor takes 1.5 A at least as it runs free; more than that feeds back."""
    circuit = circuit_of(LOWERED.format(figures=figures))
    assert (f"M1 {NOT_PUSHED}" in found_in(circuit)) == fed_back
    assert (f"M1 {NOT_PUSHED}" in left_over(circuit)) == fed_back


@st.composite
def reversing_plans(draw: st.DrawFn) -> str:
    """A motor between the commons of two relays, whose contacts go to either end of one or two supplies, or on over a
    third; each coil hangs on a switch or a button, now and then over a contact of another relay."""
    ends = ["PS.+", "PS.-", "K3.11", *draw(st.sampled_from([(), ("PS2.+",), ("D1.cathode", "PS2.+")]))]
    bears = st.sampled_from(["", "withstands 25 V", "limit 12 A"])
    lines = [f"supply PS 12 V 10 A {draw(bears)}", "button PB1 no", "motor M1 24 V stall 10 A may coast"]
    lines += ["switch S1 spdt positions open off close", "rung PS.+, S1.com", "rung PS.+, PB1.13", "diode D1"]
    if "PS2.+" in ends:
        lines += [f"supply PS2 24 V 10 A {draw(bears)}", "wire PS.- PS2.-", "wire D1.anode PS.+"]
    for name in ("K1", "K2", "K3"):
        lines.append(f"relay {name} dpdt coil 12 V 160 ohm{draw(st.sampled_from(TIMES))}")
        lock = draw(st.sampled_from(["", "", ", K1.21-22", ", K2.21-24"]))
        lines.append(f"rung {draw(st.sampled_from(['S1.open', 'S1.close', 'PB1.14']))}{lock}, {name}.A1-A2, PS.-")
        throws = ends if name != "K3" else ["PS.+", "PS.-"]
        lines += [f"wire {name}.{mark} {draw(st.sampled_from(throws))}" for mark in ("12", "14")]
    return "\n".join([*lines, "wire K1.11 M1.+", f"wire M1.- {draw(st.sampled_from(['K2.11', 'PS.-']))}"])


@settings(max_examples=examples(8), suppress_health_check=list(HealthCheck), deadline=None)
@given(plan_texts().filter(lambda text: "motor" in text) | relay_plans(TIMES) | reversing_plans())
def test_whatever_is_taken_of_pulses_and_pushed_supplies_the_judge_sees_hold(text: str) -> None:
    """Over any digits, in a random plan: the judge tries every position of poles, tick by tick, and puts a source into
    the winding of each motor that turns."""
    circuit = circuit_of(text)
    if prod(digit.radix for digit in circuit.digits) <= MOST_STATES:
        claims = taken(box_of(circuit), random.Random(text))
        seen = Seen(circuit)
        pulses = [claim for claim in sorted(claims) if claim.endswith((NO_PULSE, NOT_PUSHED))]
        assert [claim for claim in pulses if not holds(seen, claim)] == [], text
