"""When a condition holds, and how a promise reads."""

import random
from math import prod

import pytest
from hypothesis import HealthCheck, given, settings

from circuitcheck.certificates.verifier import box_of, claims_by_check, promise_words, promises, truth, verify
from circuitcheck.certificates.writing import certificate_of
from circuitcheck.plan.syntax import Promise
from tests.analysis.plans import circuit_of
from tests.certificates.promised import EVERY_WORD, NOT_TOLD, claims_about, promised_plans
from tests.certificates.seen import Seen
from tests.certificates.seen_promises import is_so
from tests.certificates.test_certificates import as_read, holds
from tests.certificates.test_entries import MOST_STATES
from tests.plan.test_statements import said
from tests.profiles import examples

UNHURRIED = list(HealthCheck)
LOOKED_AT = 60
"""Of the states of a random plan."""


@settings(max_examples=examples(20), suppress_health_check=UNHURRIED, deadline=None)
@given(promised_plans())
def test_a_condition_holds_where_the_judge_sees_it_hold(text: str) -> None:
    """In each state in which no supply is shorted: what surely holds does, and what can't be so is not."""
    circuit = circuit_of(text)
    seen, box = Seen(circuit), box_of(circuit)
    small = prod(one.radix for one in circuit.digits) <= MOST_STATES
    states = list(seen.judge.every_state()) if small else []
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


BOTH_WAYS = (
    "M1 forward",
    "M1 reverse",
    "M1 coasting",
    "M2 weak",
    "L1 lit",
    "L1 glows",
    "BZ1 on",
    "deck stops at bottom",
)
"""What is so in some of the plan's states and not in others."""


@pytest.mark.parametrize("plan", [EVERY_WORD, NOT_TOLD])
def test_every_word_means_what_it_means_to_the_judge(plan: str) -> None:
    """In all states of a plan: weak, braked one way, driven toward its beginning; and of lamps that are not followed it
    is only told in which states they may be lit."""
    claims = claims_about(circuit_of(plan))
    circuit = circuit_of(plan + "\n".join(f"expect {one}\nexpect not {one}" for one in claims))
    seen, box = Seen(circuit), box_of(circuit)
    for words, promise in promises(circuit).items():
        surely, maybe = truth(box, promise.condition)
        told = {
            (holds(box, surely, state), holds(box, maybe, state), is_so(seen, promise.condition, state))
            for state in seen.judge.every_state()
        }
        assert told >= {(True, True, True), (False, False, False)} or words.removeprefix("expect ") not in BOTH_WAYS
        open_to = told - {(True, True, True), (False, False, False)}
        assert open_to <= {(False, True, True), (False, True, False)}
        assert bool(open_to) == (plan == NOT_TOLD and "L" in words)


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
        "the promise is kept: expect W1.L1 dark when (W1.S1 off and W1.L1 dark) or W1.L2 dark",
    ]
    assert claims[-1] == "the promise is put to the test: never not (W1.L1 dark and not W2.L1 lit) when PS off"
    assert len(claims) == 10
    assert set(claims) <= set(verify(circuit, as_read(certificate_of(circuit))))
