"""No entry about promises that the verifier takes is false, whoever wrote it, over whichever digits."""

import random
from math import prod

import pytest
from hypothesis import HealthCheck, given, settings

from circuitcheck.certificates.verifier import KEPT, TESTED, Course, all_promised, box_of, promise_words
from tests.analysis.plans import circuit_of
from tests.certificates.promised import promised_plans
from tests.certificates.seen import Seen
from tests.certificates.seen_claims import holds as seen_to_hold
from tests.certificates.test_entries import MOST_STATES, entry, is_taken, taken
from tests.profiles import examples

UNHURRIED = list(HealthCheck)


@settings(max_examples=examples(15), suppress_health_check=UNHURRIED, deadline=None)
@given(promised_plans())
def test_whatever_is_claimed_of_promises_over_any_digits_the_judge_sees_it_hold(text: str) -> None:
    """Kept and put to the test, in a random plan."""
    circuit = circuit_of(text)
    if prod(one.radix for one in circuit.digits) <= MOST_STATES:
        claims = taken(box_of(circuit), random.Random(text)) & {*all_promised(circuit)}
        seen = Seen(circuit)
        assert [claim for claim in sorted(claims) if not seen_to_hold(seen, claim)] == [], text


def over(text: str, names: str, claim: str, besides: str = "", still: str = "") -> bool:
    """Does the verifier confirm the claim over the digits of these names? besides: those of relays in all states of
    which operation is said to begin as well. still: those that stand still, off and released."""
    box = box_of(circuit_of(text))
    digits = {digit.name: number for number, digit in enumerate(box.circuit.digits)}
    parked = {digits[name]: 0 for name in still.split()}
    one = entry(box, frozenset(digits[name] for name in names.split()), parked, claim)
    course = Course(box, one.digits, {})
    for name in besides.split():
        more = box.sets.both(course.standing(), box.sets.where(digits[name], (1,)))
        one = one._replace(reached=course.following(box.sets.either(one.reached, more), course.steps))
    return is_taken(box, one, True, 0)


WAITS_FOR_ITSELF = """
supply PS 12 V 10 A
fuse   F1 3 A
button PB1 no
relay  K1 no no coil 12 V 160 ohm with diode
lamp   L1 L2 12 V 5 W
rung   PS.+, F1, K1.13-14, K1.A1-A2, PS.-
rung   F1.2, K1.23-24, L1, PS.-
rung   F1.2, PB1, L2, PS.-
expect L1 lit when K1 operated
after  K1 operated within settling L1 lit
"""


@pytest.mark.parametrize("promise", ["expect L1 lit when K1 operated", "after K1 operated within settling L1 lit"])
def test_what_never_comes_about_is_put_to_the_test_by_no_entry(promise: str) -> None:
    """Not where K1 may stand anyhow since nobody follows it; nor by states that lead to each other, PB1 pressed and let
    go, and to which nothing else leads."""
    assert over(WAITS_FOR_ITSELF, "PS PB1 K1", KEPT.format(promise), besides="K1")
    assert not over(WAITS_FOR_ITSELF, "PS", TESTED.format(promise))
    assert not over(WAITS_FOR_ITSELF, "PS PB1 K1", TESTED.format(promise), besides="K1")


def test_where_relays_are_parked_a_case_is_brought_about_from_power_up_all_the_same() -> None:
    """That K1 might stand there, in by itself, proves nothing; that PB1 brings K1 about does, whatever S2 does."""
    parked = """switch S2 spst positions off on
relay  K2 no coil 12 V 160 ohm with diode
rung   F1.2, S2, K2.A1-A2, PS.-
"""
    claim = TESTED.format("expect L1 lit when K1 operated")
    plan = f"{WAITS_FOR_ITSELF}{parked}"
    assert not over(plan, "PS PB1 K1", claim, still="K2 S2")
    assert over(plan.replace("F1, K1.13-14", "F1, PB1.13-14"), "PS PB1 K1", claim, still="K2 S2")


def test_a_relay_that_hangs_on_what_is_not_followed_brings_nothing_about() -> None:
    """K1 waits for K2, and K2 for itself."""
    promise = "expect L1 lit when K1 operated"
    plan = f"""
supply PS 12 V 10 A
fuse   F1 3 A
button PB1 no
relay  K1 K2 no no coil 12 V 160 ohm with diode
lamp   L1 12 V 5 W
rung   PS.+, F1, PB1, K2.13-14, K1.A1-A2, PS.-
rung   F1.2, K2.23-24, K2.A1-A2, PS.-
rung   F1.2, K1.13-14, L1, PS.-
{promise}
"""
    assert not over(plan, "PS PB1 K1", TESTED.format(promise))


def is_kept(text: str) -> bool:
    """Does the judge see a plan's promise kept?"""
    circuit = circuit_of(text)
    return seen_to_hold(Seen(circuit), KEPT.format(promise_words(circuit.promises[0])))


def test_a_case_may_come_to_hold_by_what_is_not_followed() -> None:
    """Where K1 has let go again and K2 is in, nothing that is followed brings the case about, but PB1 does."""
    promise = "after PB1 pressed or K1 operated within settling K1 operated or K2 released"
    plan = f"""
supply PS 12 V 10 A
fuse   F1 3 A
button PB1 no
relay  K1 no off-delay 1 s coil 12 V 160 ohm with diode
relay  K2 no nc coil 12 V 160 ohm with diode
lamp   L1 12 V 5 W
rung   PS.+, F1, K2.21-22, K1.A1-A2, PS.-
rung   F1.2, ( K1.17-18 | K2.13-14 ), K2.A1-A2, PS.-
rung   F1.2, PB1, L1, PS.-
{promise}
"""
    assert not is_kept(plan)
    assert not over(plan, "PS K1 K2", KEPT.format(promise))


def test_a_case_may_come_to_hold_with_power_up() -> None:
    """K2 lets K1 in, and is in before anybody can press PB1; but not where power finds it pressed."""
    promise = "after PB1 pressed within settling K1 operated or PS off"
    plan = f"""
supply PS 12 V 10 A
fuse   F1 3 A
button PB1 no nc
relay  K1 no coil 12 V 160 ohm with diode
relay  K2 no no coil 12 V 160 ohm with diode
rung   PS.+, F1, ( PB1.21-22 | K2.13-14 ), K2.A1-A2, PS.-
rung   F1.2, PB1.13-14, K2.23-24, K1.A1-A2, PS.-
{promise}
"""
    assert not is_kept(plan)
    assert not over(plan, "PS PB1 K1 K2", KEPT.format(promise))


def test_a_timer_is_counted_on_only_where_all_is_followed_that_has_it_run() -> None:
    """K1 lets go of the motor two seconds after PB1, unless S1 has it stay in."""
    promise = "after PB1 released within 3 s M1 stopped"
    plan = f"""
supply PS 12 V 10 A
fuse   F1 3 A
button PB1 no
switch S1 spst positions off on
relay  K1 no no off-delay 2 s coil 12 V 160 ohm with diode
motor  M1 12 V stall 4 A
rung   PS.+, F1, ( PB1 | S1.com-on, K1.27-28 ), K1.A1-A2, PS.-
rung   F1.2, K1.17-18, M1, PS.-
{promise}
"""
    assert not is_kept(plan)
    assert not over(plan, "PS PB1 K1", KEPT.format(promise))
    assert over(plan.replace("S1.com-on", "PB1.13-14"), "PS PB1 K1", KEPT.format(promise))
