"""Axes that hunt or chatter, and ends that nothing brings an axis to, have no certificate."""

import random
from collections.abc import Iterator

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from circuitcheck.analysis.facts import analyse
from circuitcheck.certificates.verifier import (
    GETS_THERE,
    NOT_AGAIN,
    STEADY,
    box_of,
    claims_by_check,
    verify,
    wanted,
)
from circuitcheck.certificates.writing import certificate_of
from circuitcheck.checks import chattering_limit, hunting_axis, order_dependent
from circuitcheck.checks.registry import all_checks
from circuitcheck.circuit.model import Circuit
from tests.analysis.boxes import boxes
from tests.analysis.plans import circuit_of
from tests.certificates.seen import Seen
from tests.certificates.seen_claims import holds as seen_to_hold
from tests.certificates.test_certificates import as_read
from tests.certificates.test_entries import entry, is_taken, taken
from tests.profiles import examples

CHECKS = (chattering_limit.CHECK, hunting_axis.CHECK, order_dependent.CHECK)
WRONG = [(check.name, wrong.plan) for check in CHECKS for wrong in check.wrong]
RIGHT = [(one.check.name, right.plan) for one in all_checks() for right in one.check.right]


def left_over(circuit: Circuit, check: str) -> list[str]:
    """The claims of a check that have no certificate; what has one, the verifier confirms."""
    certificate = as_read(certificate_of(circuit))
    confirmed = verify(circuit, certificate)
    left = [claim for claim in claims_by_check(circuit)[check] if claim not in confirmed]
    assert set(left) <= set(certificate["without certificate"])
    return left


@pytest.mark.parametrize(("check", "text"), WRONG)
def test_what_a_check_finds_leaves_its_claims_over(check: str, text: str) -> None:
    """None of the claims on the check's own wrong plans is confirmed."""
    circuit = circuit_of(text)
    assert left_over(circuit, check) == claims_by_check(circuit)[check]


def found(circuit: Circuit) -> Iterator[str]:
    """The claims about axes that the checks find to be broken."""
    facts = analyse(circuit)
    for evidence in chattering_limit.find(facts):
        yield f"{evidence.parts[0]} {NOT_AGAIN}"
    for evidence in hunting_axis.find(facts):
        turns = "back and forth" in evidence.what
        yield f"{evidence.parts[0]} {STEADY if turns else GETS_THERE}"


@settings(max_examples=examples(25), suppress_health_check=list(HealthCheck), deadline=None)
@given(boxes())
def test_what_is_certified_of_an_axis_no_check_finds_fault_with(text: str) -> None:
    """In random boxes of two relays, whose axis springs back or coasts off its limits, hunts, or gets nowhere."""
    circuit = circuit_of(text)
    assert set(found(circuit)).isdisjoint(verify(circuit, as_read(certificate_of(circuit))))


@pytest.mark.parametrize(("check", "text"), RIGHT)
def test_of_right_plans_just_what_is_noted_of_axes_is_left_over(check: str, text: str) -> None:
    """Several let their axis run off a limit for want of a brake."""
    circuit = circuit_of(text)
    left = {*left_over(circuit, "chattering-limit"), *left_over(circuit, "hunting-axis")}
    assert left == set(found(circuit)), check


SHUTTLE = """
supply PS 12 V 10 A
switch S1 dpdt positions raise off lower{momentary}
button PB1 no
axis   deck from bottom{via} to top{springs}
limit  LS1 LS2 spdt on deck at top
limit  LS3 LS4 spdt on deck at bottom
relay  K1 dpdt {function}coil 12 V 160 ohm
motor  M1 12 V stall 5 A drives deck toward top
rung   PS.+, S1.com1
rung   S1.raise1, {raising}, M1, {falling}, S1.lower1
wire   S1.raise2 M1.-
rung   S1.lower2, M1.+
rung   PS.+, {call}, K1.A1-A2, PS.-
{second}
wire   S1.com2 PS.-
"""
CONTACTS = ("LS1.com-nc", "LS3.com-nc", "LS2.com-no", "LS4.com-no", "K1.11-14", "K1.21-22", "PB1")


@st.composite
def shuttles(draw: st.DrawFn) -> str:
    """A deck that a switch drives both ways over whatever limits there are, and a relay that these may call."""
    as_usual, latching = draw(st.integers(0, 2)), draw(st.booleans())
    contacts = [*CONTACTS[:as_usual], *draw(st.permutations(CONTACTS[as_usual:]))]
    further = [draw(st.sampled_from(("", ", {}", "_| {}"))).format(one) for one in contacts[4:]]
    paths = [first + more for first, more in zip(contacts, [*further, ""], strict=False)]
    raising, falling, call, second = (f"( {path.replace('_', ' ')} )" if "_" in path else path for path in paths)
    return SHUTTLE.format(
        momentary=draw(st.sampled_from(("", " momentary"))),
        via=draw(st.sampled_from(("", " via middle"))),
        springs=draw(st.sampled_from(("", ", springs back"))),
        function="latching " if latching else "",
        raising=raising, falling=falling, call=call,
        second=f"rung PS.+, {second}, K1.B1-B2, PS.-" if latching else "",
    )  # fmt: skip


@settings(max_examples=examples(6), suppress_health_check=list(HealthCheck), deadline=None)
@given(shuttles())
def test_whatever_entry_about_an_axis_is_taken_the_judge_sees_it_hold(text: str) -> None:
    """Over any digits, of a deck that may hunt, chatter, or never come to one of its ends."""
    circuit = circuit_of(text)
    seen = Seen(circuit)
    for claim in taken(box_of(circuit), random.Random(text)):
        assert seen_to_hold(seen, claim), (claim, text)


TURNING = """
supply PS 12 V 10 A
fuse   F1 5 A
switch S1 spst positions off on
relay  K1 dpdt latching coil 12 V 160 ohm with diode
axis   beam from left to right
limit  LS1 no on beam at left
limit  LS2 no on beam at right
motor  M1 12 V stall 8 A drives beam toward right may coast
rung   PS.+, F1, LS1, K1.A1-A2, PS.-
rung   F1.2, LS2, K1.B1-B2, PS.-
rung   F1.2, S1, K1.14-11, M1, K1.21-24, PS.-
wire   K1.12 PS.-
wire   K1.22 S1.on
"""


def test_a_beam_that_each_end_turns_round_leaves_just_the_claim_over_that_it_is_steady() -> None:
    """It swings to and fro while its switch is on, as it may be meant to: both its ends are brought about."""
    circuit = circuit_of(TURNING)
    assert left_over(circuit, "hunting-axis") == [f"beam {STEADY}"]
    assert not seen_to_hold(Seen(circuit), f"beam {STEADY}")


ONE_WAY = """
supply PS 12 V 10 A
fuse   F1 5 A
button PB1 no
axis   trapdoor from shut to open
limit  LS1 nc on trapdoor at open
motor  M1 12 V stall 8 A drives trapdoor toward open may coast
rung   PS.+, F1, PB1, LS1, M1, PS.-
"""


STOPS_HALFWAY = """
supply PS 12 V 10 A
fuse   F1 5 A
switch S1 dpdt positions raise off lower
axis   trapdoor from shut via half to open
limit  LS1 nc on trapdoor from half to open
motor  M1 12 V stall 8 A drives trapdoor toward open may coast
rung   PS.+, F1, S1.com1-raise1, LS1, M1, S1.raise2-com2, PS.-
wire   S1.lower1 M1.-
wire   S1.lower2 M1.+
"""


@pytest.mark.parametrize("plan", [ONE_WAY, STOPS_HALFWAY])
def test_an_end_to_which_nothing_drives_leaves_its_claim_over(plan: str) -> None:
    """A trapdoor that is shut by hand, and one whose limit stops it halfway."""
    circuit = circuit_of(plan)
    assert left_over(circuit, "hunting-axis") == [f"trapdoor {GETS_THERE}"]


BACK_FROM_WHERE_IT_NEVER_WAS = """
supply PS 12 V 10 A
fuse   F1 5 A
button PB1 no
relay  K1 K2 no no coil 12 V 160 ohm with diode
axis   deck from bottom to top, springs back
limit  LS1 LS2 LS3 spdt on deck at top
motor  M1 12 V stall 5 A drives deck toward top may coast
rung   PS.+, F1, ( LS1.com-no | K1.13-14 ), K1.A1-A2, PS.-
rung   F1.2, ( K1.23-24, LS2.com-nc | K2.13-14 ), K2.A1-A2, PS.-
rung   F1.2, LS3.com-nc, ( PB1 | K2.23-24 ), M1, PS.-
"""


def test_an_axis_may_go_back_off_its_limit_to_where_operation_never_is_and_chatter_from_there() -> None:
    """K1 remembers that the deck was at its top; once it springs back from there, K2 drives it on for ever."""
    assert left_over(circuit_of(BACK_FROM_WHERE_IT_NEVER_WAS), "chattering-limit") == [f"deck {NOT_AGAIN}"]


BRAKED_AT_ITS_STOP = """
supply PS 12 V 10 A
fuse   F1 5 A
switch S1 spst positions off on
relay  K1 spdt coil 12 V 160 ohm with diode
axis   lid from shut to open{springs}
limit  LS1 nc on lid at open
motor  M1 12 V stall 5 A drives lid toward open
rung   PS.+, F1, S1, LS1, K1.A1-A2, PS.-
rung   F1.2, K1.14-11, M1, PS.-
wire   K1.12 PS.-
"""


@pytest.mark.parametrize(("springs", "left"), [("", []), (", springs back", [f"lid {NOT_AGAIN}"])])
def test_a_brake_holds_an_axis_that_is_not_said_to_spring_back(springs: str, left: list[str]) -> None:
    """A lid whose relay brakes its motor once the limit opens."""
    assert left_over(circuit_of(BRAKED_AT_ITS_STOP.format(springs=springs)), "chattering-limit") == left


ONLY_WHERE_IT_SPRINGS_BACK = """
supply PS 12 V 10 A
fuse   F1 5 A
button PB1 no
axis   deck from bottom to top, springs back
limit  LS1 no on deck at top
limit  LS2 LS3 nc on deck at top
relay  K1 3pdt coil 12 V 160 ohm with diode
relay  K2 spdt coil 12 V 160 ohm with diode
motor  M1 12 V stall 5 A drives deck toward top may coast
rung   PS.+, F1, ( LS1 | K1.11-14 ), K1.A1-A2, PS.-
rung   F1.2, K1.21-24, LS3{feeding}, K2.A1-A2, PS.-
rung   F1.2, {driving}, LS2, M1, PS.-
"""


@pytest.mark.parametrize(
    ("feeding", "driving"), [(", K2.11-12", "( PB1 | K1.31-34 )"), ("", "( PB1 | K2.11-14 )")], ids=["buzzing", "calm"]
)
def test_an_axis_chatters_where_relays_move_only_once_it_has_sprung_back(feeding: str, driving: str) -> None:
    """A relay that has sealed itself in at the top feeds another one as soon as the deck is off it."""
    circuit = circuit_of(ONLY_WHERE_IT_SPRINGS_BACK.format(feeding=feeding, driving=driving))
    assert left_over(circuit, "chattering-limit") == [f"deck {NOT_AGAIN}"]
    assert not seen_to_hold(Seen(circuit), f"deck {NOT_AGAIN}")


def test_an_axis_may_chatter_where_it_does_not_follow_what_relays_want_once_it_has_sprung_back() -> None:
    """The other relay drives nothing, but what it wants there is taken to be unknown."""
    box = box_of(circuit_of(ONLY_WHERE_IT_SPRINGS_BACK.format(feeding="", driving="PB1")))
    written = entry(box, frozenset(range(len(box.circuit.digits))), {}, f"deck {NOT_AGAIN}")
    assert is_taken(box, written, True, 0)
    other = box.circuit.relays[1]
    known = {answer: box.sets.both(states, written.reached) for answer, states in wanted(box, other).items()}
    box.told["wants", other.digit] = known | {None: box.sets.opposite(written.reached)}
    assert not is_taken(box, written, True, 0)


WITH_ONE_PARKED = """
supply PS 12 V 10 A
fuse   F1 5 A
switch S1 spst positions off on
switch S2 dpdt positions raise off lower
button PB1 no
relay  K1 no coil 12 V 160 ohm with diode
relay  K2 no no coil 12 V 160 ohm with diode
axis   deck from bottom to top
motor  M1 12 V stall 8 A drives deck toward top may coast
rung   PS.+, F1, S1, K1.A1-A2, PS.-
rung   F1.2, {call}, K2.A1-A2, PS.-
rung   F1.2, K2.13-14, S2.com1-raise1, M1, S2.raise2-com2, PS.-
wire   S2.lower1 M1.-
wire   S2.lower2 M1.+
"""


@pytest.mark.parametrize(("call", "is_brought"), [("PB1", True), ("K2.23-24", False)])
def test_where_relays_are_parked_an_axis_has_to_come_to_its_ends_from_wherever_it_begins(
    call: str, is_brought: bool
) -> None:
    """A relay that only its own contact feeds might stand operated, but operation never gets there."""
    box = box_of(circuit_of(WITH_ONE_PARKED.format(call=call)))
    names = [digit.name for digit in box.circuit.digits]
    still = {names.index("K1"): 0, names.index("S1"): 0}
    digits = frozenset(range(len(names))) - {*still}
    assert is_taken(box, entry(box, digits, still, f"deck {GETS_THERE}"), True, 0) == is_brought
