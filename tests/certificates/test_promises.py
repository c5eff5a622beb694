"""Promises that are certified are kept and were put to the test; those that are not are left over."""

import random
from math import prod

import pytest
from hypothesis import HealthCheck, given, settings

from circuitcheck.certificates.verifier import (
    KEPT,
    TESTED,
    all_promised,
    box_of,
    claims_by_check,
    promise_words,
    promises,
    truth,
    verify,
)
from circuitcheck.certificates.writing import certificate_of
from circuitcheck.checks import broken_promise
from circuitcheck.circuit.model import Circuit
from circuitcheck.plan.syntax import Promise
from tests.analysis.plans import circuit_of
from tests.certificates.promised import promised_plans
from tests.certificates.seen import Seen
from tests.certificates.seen_claims import holds as seen_to_hold
from tests.certificates.seen_promises import is_so
from tests.certificates.test_certificates import as_read, holds
from tests.certificates.test_entries import MOST_STATES, taken
from tests.plan.test_statements import said
from tests.profiles import examples

UNHURRIED = list(HealthCheck)
LOOKED_AT = 60
"""Of the states of a random plan."""


def is_small(circuit: Circuit) -> bool:
    """Can the judge look at each of its states?"""
    return prod(one.radix for one in circuit.digits) <= MOST_STATES


def left_of(text: str) -> list[str]:
    """What is claimed of a plan's promises and has no certificate."""
    circuit = circuit_of(text)
    certificate = as_read(certificate_of(circuit))
    return [claim for claim in all_promised(circuit) if claim not in verify(circuit, certificate)]


@settings(max_examples=examples(30), suppress_health_check=UNHURRIED, deadline=None)
@given(promised_plans())
def test_a_condition_holds_where_the_judge_sees_it_hold(text: str) -> None:
    """In each state in which no supply is shorted: what surely holds does, and what can't be so is not."""
    circuit = circuit_of(text)
    seen, box = Seen(circuit), box_of(circuit)
    states = list(seen.judge.every_state()) if is_small(circuit) else []
    looked_at = random.Random(text).sample(states, min(len(states), LOOKED_AT))
    sound = [state for state in looked_at if not seen.judge.judged(state).shorted]
    for promise in promises(circuit).values():
        for condition in (promise.condition, promise.when):
            if condition and "starts" not in promise_words(promise):
                surely, maybe = truth(box, condition)
                for state in sound:
                    told = (holds(box, surely, state), holds(box, maybe, state))
                    assert is_so(seen, condition, state) in told, (text, promise_words(promise), state)
                    assert told != (True, False)


@settings(max_examples=examples(15), suppress_health_check=UNHURRIED, deadline=None)
@given(promised_plans())
def test_whatever_is_claimed_of_promises_over_any_digits_the_judge_sees_it_hold(text: str) -> None:
    """Kept and put to the test, in a random plan."""
    circuit = circuit_of(text)
    if is_small(circuit):
        claims = taken(box_of(circuit), random.Random(text)) & {*all_promised(circuit)}
        seen = Seen(circuit)
        assert [claim for claim in sorted(claims) if not seen_to_hold(seen, claim)] == [], text


def all_said(promise: Promise) -> tuple[object, ...]:
    """All of a promise but its places."""
    return promise.keyword, said(promise.condition), said(promise.when), promise.within and promise.within.high


@settings(max_examples=examples(15), suppress_health_check=UNHURRIED, deadline=None)
@given(promised_plans())
def test_the_words_of_a_promise_say_what_it_says(text: str) -> None:
    """Read as a statement they are the same promise, so no two that differ have the same words."""
    circuit = circuit_of(text)
    lines = (line for line in text.splitlines() if not line.startswith(("expect", "never", "always", "after")))
    again = circuit_of("\n".join([*lines, *map(promise_words, circuit.promises)])).promises
    assert [all_said(one) for one in again] == [all_said(one) for one in circuit.promises]


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
    assert left_of(plan) == [TESTED.format(never), KEPT.format(passing)]


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


def test_promises_that_say_the_same_are_one_and_those_of_each_module_its_own() -> None:
    """Names are in full, and brackets tell which words belong together."""
    circuit = circuit_of("""
module Wing
port   plus minus
switch S1 spst positions off on
lamp   L1 L2 12 V 2 W
rung   plus, S1, L1, minus
rung   S1.on, L2, minus
expect L1 dark when S1 off and (L1 dark or L2 dark)
expect L1 dark when (S1 off and L1 dark) or L2 dark
end
supply PS 12 V 10 A
fuse   F1 3 A
wire   PS.+ F1.1
fit    W1 Wing : plus F1.2, minus PS.-
fit    W2 Wing : plus F1.2, minus PS.-
never  not (W1.L1 dark and not W2.L1 lit) when PS off
never  not (W1.L1 dark and not W2.L1 lit) while PS off
""")
    claims = claims_by_check(circuit)["broken-promise"]
    assert claims[:2] == [
        "the promise is kept: expect W1.L1 dark when W1.S1 off and (W1.L1 dark or W1.L2 dark)",
        "the promise is put to the test: expect W1.L1 dark when W1.S1 off and (W1.L1 dark or W1.L2 dark)",
    ]
    assert claims[2] == "the promise is kept: expect W1.L1 dark when (W1.S1 off and W1.L1 dark) or W1.L2 dark"
    assert claims[-1] == "the promise is put to the test: never not (W1.L1 dark and not W2.L1 lit) when PS off"
    assert len(claims) == 10
    assert set(claims) <= set(verify(circuit, as_read(certificate_of(circuit))))
