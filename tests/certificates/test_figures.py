"""What is certified of coils behind wires, and of motors that turn on, holds as the judge and the check reckon it."""

from math import prod

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from circuitcheck.analysis.facts import analyse
from circuitcheck.analysis.resistances import Setting, conductor_ohms
from circuitcheck.certificates.verifier import GETS_ENOUGH, STOPS_IN_TIME, claims_by_check, ohms_of, verify
from circuitcheck.certificates.writing import certificate_of
from circuitcheck.checks import runs_past_limit, starved_coil
from circuitcheck.checks.check import Check
from tests.analysis.plans import circuit_of
from tests.certificates.plans_with_figures import DECK, WIRINGS, plans_with_figures, plans_with_ohms
from tests.certificates.seen import Seen
from tests.certificates.seen_claims import holds as seen_to_hold
from tests.certificates.test_certificates import EXAMPLES, as_read, example
from tests.profiles import examples

UNHURRIED = list(HealthCheck)
MOST_STATES = 1_500
SIZES = (0.05, 0.22, 0.25, 0.34, 0.5, 0.75, 1, 1.5, 2.5, 4, 6, 10, 16)
"""In mm2."""


def certified(text: str) -> set[str]:
    """All that the verifier confirms of a plan."""
    circuit = circuit_of(text)
    return {*verify(circuit, as_read(certificate_of(circuit)))}


def left_over(check: Check, text: str) -> list[str]:
    """The parts of which the check's claim is not confirmed."""
    return [claim.split()[0] for claim in claims_by_check(circuit_of(text))[check.name] if claim not in certified(text)]


@pytest.mark.parametrize(
    ("check", "left"),
    [(starved_coil.CHECK, [["K1"], ["K1"], ["K2"]]), (runs_past_limit.CHECK, [["M1"]])],
    ids=["starved-coil", "runs-past-limit"],
)
def test_what_is_wrong_leaves_just_its_claim_over(check: Check, left: list[list[str]]) -> None:
    """On each of the check's own plans."""
    assert [left_over(check, one.plan) for one in check.wrong] == left
    assert not any(left_over(check, one.plan) for one in check.right)


@settings(max_examples=examples(60), suppress_health_check=UNHURRIED, deadline=None)
@given(plans_with_ohms())
def test_a_coil_of_which_it_is_certified_gets_enough_in_each_state(text: str) -> None:
    """By the judge's reckoning of all loads of a random plan at once, and by the check's of each with its share."""
    circuit = circuit_of(text)
    if prod(digit.radix for digit in circuit.digits) <= MOST_STATES:
        confirmed = [one for one in claims_by_check(circuit)["starved-coil"] if one in certified(text)]
        found = [one.what for one in starved_coil.find(analyse(circuit))] if confirmed else []
        seen = Seen(circuit)
        for claim in confirmed:
            assert seen_to_hold(seen, claim), text
            assert not any(what.startswith(claim.removesuffix(GETS_ENOUGH)) for what in found), text


@settings(max_examples=examples(8), suppress_health_check=UNHURRIED, deadline=None)
@given(plans_with_figures())
def test_a_motor_of_which_it_is_certified_stops_where_there_is_room(text: str) -> None:
    """By the judge's reckoning in each order of relays of a random deck, and by the check's."""
    circuit = circuit_of(text)
    if f"M1 {STOPS_IN_TIME}" in certified(text):
        assert seen_to_hold(Seen(circuit), f"M1 {STOPS_IN_TIME}"), text
        assert not list(runs_past_limit.find(analyse(circuit))), text


@settings(max_examples=examples(40), deadline=None)
@given(st.sampled_from(SIZES) | st.integers(5, 2000).map(lambda hundredths: hundredths / 100))
def test_no_wire_has_more_ohms_than_the_verifier_takes_it_to_have(area: float) -> None:
    """And a quarter less at most, at any size, in the tool's own tables."""
    circuit = circuit_of(f"conditions ambient 5..50 °C, wire {area} mm2 3 m\nlamp L1 12 V 2 W\nsplice N1\nwire N1 L1.1")
    (most,), (ohms,) = ohms_of(circuit), conductor_ohms(circuit, Setting(wire_celsius=50))
    assert 0.75 * most < ohms <= most * (1 + 1e-9)


CABLE = """
conditions ambient 5..40 °C
supply PS 12 V 5 A{supply}
fuse   F1 5 A
button PB1 no
switch S1 spst positions off on
relay  K1 no coil 12 V 60 ohm with diode
motor  M1 12 V stall 6 A may coast
wire   PS.+ F1.1     : 0.75 mm2 {metres} m
wire   F1.2 PB1.13
wire   PB1.14 K1.A1  : 0.75 mm2 {metres} m
wire   K1.A2 PS.-
rung   F1.2, S1, M1, PS.-
{more}
"""


def is_fed(metres: float, supply: str = "", more: str = "") -> bool:
    """Is it certified that the coil gets enough behind a cable of this length, half of it shared with the motor?"""
    return f"K1 {GETS_ENOUGH}" in certified(CABLE.format(metres=metres, supply=supply, more=more))


def test_a_coil_is_certified_almost_as_far_from_the_supply_as_it_gets_enough() -> None:
    """12 V less 9.71 V at 40 °C: 10 m of 28 mohm each, where the motor takes 6 A; the check finds nothing up to 15 m
    and something from there on."""
    lengths = [metres for metres in range(1, 30) if is_fed(metres)]
    plans = [circuit_of(CABLE.format(metres=metres, supply="", more="")) for metres in range(1, 30)]
    fine = [plan for plan in plans if not list(starved_coil.find(analyse(plan)))]
    assert lengths == list(range(1, len(lengths) + 1))
    assert 0.8 * len(fine) <= len(lengths) <= len(fine)


@pytest.mark.parametrize(
    ("supply", "more", "fed"),
    [
        (" internal 100 mohm", "", True),
        (" internal 400 mohm", "", False),
        (" limit 8 A", "", True),
        (" limit 6 A", "", False),
        (" internal 100 mohm", "lamp L1 12 V 240 W\nrung F1.2, L1, PS.-", False),
        (" internal 20 mohm", "supply PT 12 V 10 A\nwire PT.- PS.-\nlamp L1 12 V 240 W\nrung PT.+, L1, PT.-", True),
        ("", "diode D1\nrung F1.2, D1, K1.A1", True),
    ],
)
def test_what_a_supply_and_other_loads_leave_decides(supply: str, more: str, fed: bool) -> None:
    """A motor of 6 A and a lamp of 20 A that share two metres of wire and the supply with the coil; or have their
    own."""
    assert is_fed(2, supply, more) == fed


def test_behind_a_supply_that_a_stalled_motor_brings_to_its_limit_no_coil_is_certified() -> None:
    """What is left then is not known: 18 A of a drawbridge's motor, where 12 A are given at most."""
    left = certificate_of(example(EXAMPLES / "wrong" / "drawbridge_feeds_back.plan"))["without certificate"]
    assert left[:2] == [f"K2 {GETS_ENOUGH}", f"K3 {GETS_ENOUGH}"]


def test_of_two_brushes_that_a_relay_feeds_one_at_a_time_only_one_counts() -> None:
    """A winch of 18 A at one brush and 27 A at the other: both together would leave the coil too little."""
    text = """
supply PS 12 V 30 A internal 70 mohm
button PB1 PB2 no
relay  K1 spdt coil 12 V 160 ohm with diode
relay  K2 spdt coil 12 V 160 ohm with diode
motor  M1 two-speed 12 V stall 18 A may coast
rung   PS.+, PB1, K1.A1-A2, PS.-
rung   PS.+, PB2, K2.A1-A2, PS.-
rung   PS.+, K2.11
wire   K2.12 M1.low
wire   {} M1.high
wire   M1.- PS.-
"""
    assert left_over(starved_coil.CHECK, text.format("K2.14")) == []
    assert left_over(starved_coil.CHECK, text.format("PS.+")) == ["K1", "K2"]


def test_each_coil_of_a_latching_relay_is_looked_at_by_itself() -> None:
    """The one that sets it back hangs on a hundred metres of thin wire."""
    text = """
supply PS 12 V 10 A
button PB1 PB2 no
relay  K1 no latching coil 12 V 160 ohm operate 11.9 V
rung   PS.+, PB1, K1.A1-A2, PS.-
rung   PS.+, PB2.13
wire   PB2.14 K1.B1 : 0.22 mm2 100 m
rung   K1.B2, PS.-
"""
    assert left_over(starved_coil.CHECK, text) == ["K1.B1-B2"]


WHEEL = """
supply PS 12 V 10 A
fuse   F1 5 A
button PB1 spdt
axis   wheel turning through park
cam    CS1 spdt on wheel at park 10 deg
motor  M1 12 V free 30 rpm {motor} drives wheel toward park
rung   F1.2, PB1.14
rung   PS.+, F1, CS1.nc
rung   CS1.com, PB1.12
rung   CS1.no, PS.-
rung   PB1.11, {brush}, PS.-
"""


@pytest.mark.parametrize(
    ("motor", "left"),
    [
        ("brakes in 9 deg", []),
        ("brakes in 9.5 deg", ["M1"]),
        ("brakes in 3..9.5 deg", ["M1"]),
        ("coasts 5 deg", ["M1"]),
        ("brakes in 3.7 deg", []),
        ("brakes in 4 deg two-speed", ["M1"]),
    ],
)
def test_a_wheel_stops_on_its_cam(motor: str, left: list[str]) -> None:
    """30 rpm for the 5 ms in which the cam's contact travels are 0.9 deg; how far it goes on braked has to be told. The
    high brush makes it half as fast again."""
    brush = "M1.high--" if "two-speed" in motor else "M1"
    assert left_over(runs_past_limit.CHECK, WHEEL.format(motor=motor, brush=brush)) == left


@pytest.mark.parametrize(
    ("times", "left"),
    [("release 2..5 ms", []), ("release 2..25 ms", ["M1"]), ("", []), ("with diode", ["M1"])],
)
def test_how_long_a_relay_takes_to_let_go_decides(times: str, left: list[str]) -> None:
    """40 rpm are 0.24 deg in each millisecond; of 10 deg 6 go to the brake. Where no times are told it is what relays
    usually take, and thrice as much with a diode."""
    (right,) = runs_past_limit.CHECK.right
    text = right.plan.replace("release 2..5 ms", times)
    assert left_over(runs_past_limit.CHECK, text) == left


@pytest.mark.parametrize(("room", "left"), [(17, []), (16, ["M1"])])
def test_the_times_of_relays_that_wait_for_one_another_add_up(room: int, left: list[str]) -> None:
    """30 ms of one with a diode and 10 ms of the other, then 5 ms for the contact: at 40 rpm 10.8 deg, and 6 braked."""
    figures = {"motor": "free 40 rpm brakes in 6 deg", "load": f"overtravel {room} deg"}
    text = DECK.format(metres=1, inside=10, times="", places="bottom to top", wiring=WIRINGS[1], **figures)
    assert left_over(runs_past_limit.CHECK, text) == left


@pytest.mark.parametrize(("to", "left"), [("N1", []), ("TOP.no", ["M1"])])
def test_a_motor_that_still_gets_a_few_volts_has_not_stopped(to: str, left: list[str]) -> None:
    """Two of its twelve, by way of the limit's other contact; without them it coasts as far as was measured."""
    text = f"""
supply PS 12 V 10 A
supply PT 2 V 10 A
switch S1 spst positions off on
splice N1
axis   deck from bottom to top, overtravel 100 deg
limit  TOP spdt on deck at top
motor  M1 12 V free 30 rpm coasts 90 deg may coast drives deck toward top
rung   PS.+, TOP.nc
wire   PT.+ {to}
rung   TOP.com, S1, M1, PS.-
wire   PT.- PS.-
"""
    assert left_over(runs_past_limit.CHECK, text) == left
