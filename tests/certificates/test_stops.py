"""What is certified of emergency stops and of limits at the ends of axes."""

import random
from itertools import product

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from circuitcheck.certificates.verifier import (
    HAS_A_SAY,
    NOT_RESET,
    OBEYS,
    OBEYS_BROKEN,
    OBEYS_STUCK,
    STAYS_PRESSED,
    WITHIN_BROKEN,
    WITHIN_ENDS,
    box_of,
    claims_by_check,
    claims_of,
    rewired,
    verify,
    wanted,
    with_broken,
)
from circuitcheck.certificates.writing import certificate_of
from circuitcheck.checks import emergency_stop, limit_not_cutting
from tests.analysis.plans import circuit_of
from tests.certificates.seen import Seen
from tests.certificates.seen_claims import holds as seen_to_hold
from tests.certificates.test_certificates import as_read
from tests.certificates.test_entries import taken
from tests.profiles import examples

WRONG_STOPS = (
    ("only the coil", [OBEYS_STUCK]),
    ("one of two ways", [OBEYS]),
    ("turns again", [NOT_RESET]),
    ("pull in a relay", [OBEYS_STUCK, OBEYS_BROKEN]),
)
WRONG_LIMITS = (
    ("no limit at the top", f"deck {WITHIN_ENDS}"),
    ("pull in a relay", f"deck {WITHIN_BROKEN}"),
    ("bridged by a wire", f"TOP2 {HAS_A_SAY.format('deck')}"),
)


def left_over(text: str, check: str) -> list[str]:
    """The claims of a check that get no certificate."""
    circuit = circuit_of(text)
    left = certificate_of(circuit)["without certificate"]
    return [claim for claim in claims_by_check(circuit)[check] if claim in left]


@pytest.mark.parametrize(("words", "claims"), WRONG_STOPS, ids=[words for words, _ in WRONG_STOPS])
def test_a_wrong_emergency_stop_leaves_just_what_is_wrong_with_it_over(words: str, claims: list[str]) -> None:
    """Of each plan that the check finds wrong all else is certified."""
    (plan,) = (one.plan for one in emergency_stop.CHECK.wrong if words in one.title)
    assert left_over(plan, "emergency-stop") == [f"M1 {claim.format('ES1')}" for claim in claims]


def test_a_stop_that_springs_back_leaves_just_that_over() -> None:
    """It stops the motor all the same."""
    (plan,) = (one.plan for one in emergency_stop.CHECK.wrong if "springs back" in one.title)
    assert left_over(plan, "emergency-stop") == [f"ES1 {STAYS_PRESSED}"]


@pytest.mark.parametrize(("words", "claim"), WRONG_LIMITS, ids=[words for words, _ in WRONG_LIMITS])
def test_a_wrong_limit_leaves_just_what_is_wrong_with_it_over(words: str, claim: str) -> None:
    """Of each plan that the check finds wrong all else is certified."""
    (plan,) = (one.plan for one in limit_not_cutting.CHECK.wrong if words in one.title)
    assert left_over(plan, "limit-not-cutting") == [claim]


CURTAIN = """
supply PS 12 V 10 A
fuse   F1 5 A
estop  ES1 nc {more}
button PB1 no
relay  K1 dpdt coil 12 V 160 ohm with diode
relay  K2 dpdt coil 12 V 160 ohm with diode
axis   curtain from shut to open
limit  LS1 spdt on curtain at open
limit  LS2 spdt on curtain at open
motor  M1 12 V stall 5 A drives curtain toward open may coast
lamp   L1 12 V 2 W
"""
TWO_RELAYS = """
rung   PS.+, F1, ES1.11-12, PB1, K1.A1-A2, PS.-
rung   PB1.14, {second}K2.A1-A2, PS.-
rung   F1.2, K1.11-14, K2.11-14, LS1.com-nc, LS2.com-nc, M1, PS.-
"""


def test_a_stop_that_cuts_two_relays_outlasts_one_that_sticks() -> None:
    """Only where the one is operated by the other, one that sticks holds both."""
    both = CURTAIN.format(more="") + TWO_RELAYS
    assert left_over(both.format(second=""), "emergency-stop") == []
    through = both.format(second="").replace("rung   PB1.14, ", "rung   F1.2, K1.21-24, ")
    assert left_over(through, "emergency-stop") == [f"M1 {OBEYS_STUCK.format('ES1')}"]


def test_a_wire_to_a_contact_that_lights_a_lamp_may_break() -> None:
    """Both at the stop and at each of two limits at one end, each of which has a say."""
    circuit = circuit_of(
        CURTAIN.format(more="no")
        + TWO_RELAYS.format(second="")
        + "rung F1.2, ES1.23-24, L1, PS.-\nwire LS1.no L1.1\nwire LS2.no L1.1\n"
    )
    claims = {f"M1 {OBEYS_BROKEN.format('ES1')}", f"curtain {WITHIN_BROKEN}"}
    claims |= {f"{limit} {HAS_A_SAY.format('curtain')}" for limit in ("LS1", "LS2")}
    assert claims <= set(verify(circuit, as_read(certificate_of(circuit))))


def test_a_wire_that_lets_a_relay_chatter_once_it_breaks_leaves_that_over() -> None:
    """A stop whose one contact holds the relay that stops the motor, and whose other one it breaks itself."""
    chattering = """
supply PS 12 V 10 A
fuse   F1 5 A
estop  ES1 no no
button PB1 no
relay  K1 dpdt coil 12 V 160 ohm with diode
motor  M1 12 V stall 5 A may coast
rung   PS.+, F1, ( ES1.13-14 | ES1.23-24, K1.21-22 ), K1.A1-A2, PS.-
rung   F1.2, PB1, K1.11-12, M1, PS.-
"""
    left = left_over(chattering, "emergency-stop")
    assert left == [f"M1 {claim.format('ES1')}" for claim in (OBEYS_STUCK, OBEYS_BROKEN)]


def test_where_nothing_can_break_nothing_is_claimed_of_it() -> None:
    """A stop that closes no contact, a plan with no relays, and limits that are not wired."""
    claims = claims_of(
        circuit_of("supply PS 12 V 10 A\nestop ES1 nc\nmotor M1 12 V stall 5 A\nrung PS.+, ES1, M1, PS.-")
    )
    assert f"M1 {NOT_RESET.format('ES1')}" in claims
    assert not {f"M1 {OBEYS_STUCK.format('ES1')}", f"M1 {OBEYS_BROKEN.format('ES1')}"} & set(claims)
    claims = claims_by_check(circuit_of(CURTAIN.format(more="")))["limit-not-cutting"]
    assert claims == [f"curtain {WITHIN_ENDS}"]


ARMED = """
supply PS 12 V 10 A
fuse   F1 5 A
estop  ES1 nc no
button START no
relay  K1 no no coil 12 V 160 ohm with diode
relay  K2 nc no coil 12 V 160 ohm with diode
motor  M1 12 V stall 5 A may coast
rung   PS.+, F1, ( K2.23-24 | K1.13-14 ), K1.A1-A2, PS.-
rung   F1.2, ES1.23-24, K2.A1-A2, PS.-
rung   F1.2, START, K1.23-24, K2.11-12, M1, PS.-
"""

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


@pytest.mark.parametrize(
    ("plan", "check", "claim"),
    [
        (ARMED, "emergency-stop", f"M1 {OBEYS_BROKEN.format('ES1')}"),
        (HOMED, "limit-not-cutting", f"deck {WITHIN_BROKEN}"),
    ],
)
def test_a_wire_may_break_after_what_it_brought_about(plan: str, check: str, claim: str) -> None:
    """K1 seals itself in once the contact has closed for the first time, and lets the motor run from then on."""
    assert claim in left_over(plan, check)


def test_a_stop_that_springs_back_resets_itself() -> None:
    """S1 is still on then, and the motor starts."""
    plan = """
supply PS 12 V 10 A
fuse   F1 5 A
estop  ES1 nc momentary
switch S1 spst positions off on
motor  M1 12 V stall 5 A may coast
rung   PS.+, F1, ES1, S1, M1, PS.-
"""
    assert left_over(plan, "emergency-stop") == [f"ES1 {STAYS_PRESSED}", f"M1 {NOT_RESET.format('ES1')}"]


CONTACTS = ("ES1.11-12", "ES1.23-24", "PB1.13-14", "K1.11-14", "K1.21-22", "K2.11-12", "K2.21-24")
LIMITS = ("LT.com1-no1", "LT.com2-nc2", "LB.com1-no1", "LB.com2-nc2")
LOADS = ("K1.A1-A2", "K2.A1-A2", "M1", "L1")


@st.composite
def stopping_plans(draw: st.DrawFn) -> str:
    """A lantern's axis with an emergency stop, a limit at each end and two relays, with contacts in whatever order."""
    contacts = draw(st.permutations((*CONTACTS, *LIMITS, "wire")))
    lines = [
        "supply PS 12 V 10 A\nestop ES1 nc no\nbutton PB1 no\nlamp L1 12 V 2 W",
        f"axis deck from bottom to top\nlimit LT no nc on deck at top\nlimit LB no nc on deck at {draw(PLACES)}",
        f"motor M1 12 V stall 5 A drives deck toward {draw(PLACES)} may coast",
        "relay K1 dpdt coil 12 V 160 ohm with diode",
    ]
    kind = "dpdt latching" if draw(st.booleans()) else "dpdt"
    lines.append(f"relay K2 {kind} coil 12 V 160 ohm")
    lines += ["rung PS.+, K1.11-14, K2.B1-B2, PS.-"] if kind.endswith("latching") else []
    for load in LOADS:
        many = draw(st.integers(0, 3))
        row = [contact for contact in contacts[:many] if contact != "wire"]
        contacts = contacts[many:]
        if len(row) > 1 and draw(st.booleans()):
            row = [f"( {row[0]} | {row[1]} )", *row[2:]]
        lines.append(f"rung {', '.join(('PS.+', *row, load, 'PS.-'))}")
    return "\n".join(lines)


PLACES = st.sampled_from(("top", "bottom"))


@settings(max_examples=examples(15), suppress_health_check=list(HealthCheck), deadline=None)
@given(stopping_plans())
def test_with_a_wire_broken_relays_want_what_they_want_in_a_box_without_it(text: str) -> None:
    """Whatever is known of them from the whole box is what is found anew."""
    box = box_of(circuit_of(text))
    for number, relay in product(box.loosened, box.circuit.relays):
        anew = rewired(box, [box.circuit.conductors[number]], ())
        assert wanted(with_broken(box, number), relay) == wanted(anew, relay)


@pytest.mark.slow
@settings(max_examples=examples(10), suppress_health_check=list(HealthCheck), deadline=None)
@given(stopping_plans())
def test_whatever_is_taken_of_a_random_stop_the_judge_sees_it_hold(text: str) -> None:
    """Over any digits, whoever wrote it."""
    circuit = circuit_of(text)
    claims = {*taken(box_of(circuit), random.Random(text)), *verify(circuit, as_read(certificate_of(circuit)))}
    seen, by_check = Seen(circuit), claims_by_check(circuit)
    asked = (*by_check["emergency-stop"], *by_check["limit-not-cutting"])
    assert [claim for claim in asked if claim in claims and not seen_to_hold(seen, claim)] == [], text
