"""Promises that are certified are kept and were put to the test; those that are not are left over."""

import pytest

from circuitcheck.certificates.verifier import KEPT, TESTED, all_promised, promise_words, verify
from circuitcheck.certificates.writing import certificate_of
from circuitcheck.checks import broken_promise
from tests.analysis.plans import circuit_of
from tests.benchmarks.panels import chain
from tests.certificates.promised import NOT_TOLD
from tests.certificates.test_certificates import as_read


def left_of(text: str) -> list[str]:
    """What is claimed of a plan's promises and has no certificate."""
    circuit = circuit_of(text)
    proved = verify(circuit, as_read(certificate_of(circuit)))
    return [claim for claim in all_promised(circuit) if claim not in proved]


@pytest.mark.parametrize(
    "promise",
    [
        "never L2 lit",
        "expect L2 dark",
        "expect not L2 lit",
        "never PX on when L2 lit",
        "after L2 lit within settling PX off",
        "after PX on within settling L2 dark",
    ],
)
def test_of_lamps_that_are_not_followed_nothing_is_certified(promise: str) -> None:
    """L2 is lit, but the verifier doesn't tell."""
    assert KEPT.format(promise) in left_of(f"{NOT_TOLD}{promise}\n")


@pytest.mark.parametrize("plan", [one.plan for one in broken_promise.CHECK.wrong])
def test_a_promise_that_is_broken_is_left_over(plan: str) -> None:
    """It alone, of all that each plan promises: kept or put to the test, whichever it is not."""
    marked = [number for number, line in enumerate(plan.splitlines(), 1) if "#! broken-promise" in line]
    broken = [promise_words(one) for one in circuit_of(plan).promises if one.place.line in marked]
    assert [claim.split(": ")[1] for claim in left_of(plan)] == broken


def test_what_never_comes_about_is_not_put_to_the_test_but_kept() -> None:
    """Nor does it come to hold."""
    plan = """
supply PS 12 V 10 A
fuse   F1 3 A
button PB1 no
relay  K1 no no coil 12 V 160 ohm with diode
lamp   L1 12 V 5 W
rung   PS.+, F1, PB1, K1.A1-A2, PS.-
rung   F1.2, K1.13-14, L1, PS.-
expect L1 lit when PB1 released and K1 operated
after  PB1 released and K1 operated and PS on within settling L1 lit
always L1 lit when K1 operated and PS on
"""
    never, passing, _ = (promise_words(one) for one in circuit_of(plan).promises)
    assert left_of(plan) == [KEPT.format(passing), TESTED.format(never)]


HELD_ON = """
supply PS 12 V 10 A
fuse   F1 5 A
button PB1 no
relay  K1 no off-delay 0.5 s coil 12 V 160 ohm
relay  K2 no off-delay 3 s coil 12 V 160 ohm
motor  M1 M2 M3 12 V stall 4 A
rung   PS.+, F1, PB1, K1.A1-A2, PS.-
rung   F1.2, K1.17-18, K2.A1-A2, PS.-
rung   F1.2, K1.17-18, M1, PS.-
rung   F1.2, K2.17-18, M2, PS.-
rung   F1.2, M3, PS.-
"""


@pytest.mark.parametrize(
    ("within", "answer", "is_kept"),
    [
        ("0.5 s", "M1 stopped", True),
        ("0.4 s", "M1 stopped", False),
        ("settling", "M1 stopped", False),
        ("3.5 s", "M2 stopped", True),
        ("3.4 s", "M2 stopped", False),
        ("9 s", "M3 stopped", False),
        ("settling", "M3 driven or PS off", True),
    ],
)
def test_times_of_timing_relays_add_up(within: str, answer: str, is_kept: bool) -> None:
    """K1 lets go after half a second, and only then does K2 begin to wait; nothing ever stops M3."""
    promise = f"after PB1 released within {within} {answer}"
    assert left_of(f"{HELD_ON}{promise}") == ([] if is_kept else [KEPT.format(promise)])


def test_times_of_timing_relays_that_run_side_by_side_add_up_as_well() -> None:
    """So less is certified than is true: the lantern burns for three seconds, and five are counted."""
    plan = """
supply PS 12 V 10 A
fuse   F1 5 A
button PB1 no
relay  K1 no off-delay 2 s coil 12 V 160 ohm
relay  K2 no off-delay 3 s coil 12 V 160 ohm
lamp   L1 12 V 2 W
rung   PS.+, F1, PB1, K1.A1-A2, PS.-
rung   PB1.14, K2.A1-A2, PS.-
rung   F1.2, ( K1.17-18 | K2.17-18 ), L1, PS.-
after  PB1 released within 5 s L1 dark
after  PB1 released within 4 s L1 dark
"""
    assert left_of(plan) == [KEPT.format("after PB1 released within 4 s L1 dark")]


TWO_SUPPLIES = """
supply P1 P2 12 V 10 A
fuse   F1 F2 5 A
button PB1 no
relay  K1 no no coil 12 V 160 ohm with diode
motor  M1 M2 12 V stall 4 A
rung   P1.+, F1, ( PB1 | K1.13-14 ), K1.A1-A2, P1.-
rung   P2.+, F2, K1.23-24, M1, P2.-
rung   F1.2, M2, P1.-
"""


@pytest.mark.parametrize(
    ("motor", "supply", "restarts"),
    [("M1", "P1", False), ("M1", "P2", True), ("M2", "P2", False), ("M2", "P1", True), ("M1", "power", True)],
)
def test_the_motor_and_the_supply_that_a_promise_names_are_those_that_are_looked_at(
    motor: str, supply: str, restarts: bool
) -> None:
    """K1 lets go with P1 and waits for PB1; that P2 was away it never sees."""
    promise = f"never {motor} starts when {supply} returns"
    assert left_of(f"{TWO_SUPPLIES}{promise}\n") == ([KEPT.format(promise)] if restarts else [])


def test_a_motor_that_one_supply_starts_before_the_other_returns_does_start() -> None:
    """K1 takes M1 away from P1 as soon as P2 is there, but P1 may return first."""
    plan = """
supply P1 P2 12 V 10 A
fuse   F1 F2 5 A
relay  K1 nc coil 12 V 160 ohm with diode
motor  M1 12 V stall 4 A
rung   P2.+, F2, K1.A1-A2, P2.-
rung   P1.+, F1, K1.11-12, M1, P1.-
never  M1 starts when power returns
"""
    assert left_of(plan) == [KEPT.format("never M1 starts when power returns")]


OF_EACH_MOTOR = """
expect M{n} braked when S{n} off
never  M{n} starts when power returns
never  M{n} driven when S{n} raise and deck{n} at top
after  ES1 pressed within settling M{n} stopped
expect H0 lit when M{n} driven
"""


def test_what_is_promised_of_motors_that_hang_together_is_certified() -> None:
    """Where all of it is too much to follow, somebody can bring each case about with the other motors parked."""
    assert left_of(chain(2) + "".join(OF_EACH_MOTOR.format(n=n) for n in (1, 2))) == []
