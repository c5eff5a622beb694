"""No entry that the verifier takes is false, whoever wrote it, over whichever digits."""

import random
from collections.abc import Iterator
from math import prod

from hypothesis import HealthCheck, given, settings

from circuitcheck.certificates.verifier import (
    CALM,
    NOT_THROWN,
    STAYS_STILL,
    Box,
    Course,
    Operation,
    Refused,
    Set,
    State,
    all_alike,
    box_of,
    broken,
    confirm_calm,
    confirm_lasting,
    confirm_operation,
    drives,
)
from circuitcheck.certificates.writing import certificate_of, conduction_of
from tests.analysis.boxes import boxes
from tests.analysis.plans import circuit_of, plan_texts
from tests.analysis.test_settling import relay_plans
from tests.analysis.test_vicinity import interlocked
from tests.certificates.plans_with_figures import plans_with_figures
from tests.certificates.promised import promised_plans
from tests.certificates.seen import Seen
from tests.certificates.seen_claims import holds as seen_to_hold
from tests.certificates.test_certificates import holds
from tests.profiles import examples

UNHURRIED = list(HealthCheck)
MOST_STATES = 800
"""Of a plan that is looked at in each state."""


def entry(box: Box, digits: frozenset[int], still: State, claim: str) -> Operation:
    """The claim over these digits, with as few states reached as solve the equations."""
    course = Course(box, digits, still)
    reached = course.following(course.standing() if still else course.beginning(), course.steps)
    return Operation(digits, still, reached, [claim])


def is_taken(box: Box, operation: Operation, calm: bool, moving: Set) -> bool:
    """Does the verifier confirm the entry?"""
    try:
        confirm_operation(box, operation, calm, moving)
    except Refused:
        return False
    return True


def is_calm(box: Box, which: str) -> bool:
    """Does the verifier confirm that relays come to rest so?"""
    try:
        confirm_calm(box, which)
    except Refused:
        return False
    return True


def is_lasting(box: Box, entries: list[Operation]) -> bool:
    """Does the verifier confirm that no relay takes away what another one wants, where these entries lead?"""
    try:
        confirm_lasting(box, entries)
    except Refused:
        return False
    return True


def parts_of(box: Box, calm: bool, chance: random.Random) -> Iterator[tuple[frozenset[int], State]]:
    """Some digits to follow, all supplies among them, and some relays that controls may park."""
    digits = box.circuit.digits
    supplies = {supply.digit for supply in box.circuit.supplies}
    relays = {relay.digit for relay in box.circuit.relays}
    yield frozenset(range(len(digits))), {}
    for share in (0.0, 0.2, 0.4, 0.6, 0.8, 0.9):
        yield frozenset(supplies | {one for one in range(len(digits)) if chance.random() < share}), {}
    for share in (0.2, 0.4, 0.5, 0.6, 0.8) if calm else ():
        still = {
            number: 0 if number in relays else chance.randrange(len(digit.values))
            for number, digit in enumerate(digits)
            if (number in relays or digit.kind == "control") and chance.random() < share
        }
        yield frozenset(range(len(digits))) - {*still}, still


def taken(box: Box, chance: random.Random) -> set[str]:
    """All claims that the verifier confirms over some of these parts."""
    conduction, moving, _ = conduction_of(box)
    calm = conduction is not None and any(is_calm(box, which) for which in CALM)
    found: dict[str, Operation] = {}
    for digits, still in parts_of(box, calm, chance) if conduction else ():
        for claim in broken(Course(box, digits, still), calm, moving):
            written = entry(box, digits, still, claim)
            if claim not in found and is_taken(box, written, calm, moving):
                found[claim] = written
    lasting = conduction is not None and is_lasting(box, list(found.values()))
    return {*found, *(all_alike(box.circuit) if lasting else ())}


@settings(max_examples=examples(10), suppress_health_check=UNHURRIED, deadline=None)
@given(plan_texts() | relay_plans() | interlocked() | boxes() | plans_with_figures() | promised_plans())
def test_whatever_entry_is_taken_the_judge_sees_it_hold(text: str) -> None:
    """Over any digits, and with any relays parked, in a random plan."""
    circuit = circuit_of(text)
    if prod(digit.radix for digit in circuit.digits) <= MOST_STATES:
        claims = taken(box_of(circuit), random.Random(text))
        seen = Seen(circuit) if claims else None
        assert seen is None or [claim for claim in sorted(claims) if not seen_to_hold(seen, claim)] == [], text


def test_a_motor_is_thrown_by_a_switch_that_is_not_followed() -> None:
    """Over the supply alone nothing moves from the one direction to the other; what is left free does."""
    box = box_of(
        circuit_of("""
supply PS 12 V 10 A
fuse   F1 5 A
switch S1 dpdt positions raise lower
motor  M1 12 V stall 8 A may coast
rung   PS.+, F1, S1.com1-raise1, M1, S1.raise2-com2, PS.-
wire   S1.lower1 M1.-
wire   S1.lower2 M1.+
""")
    )
    supply = frozenset({box.circuit.supplies[0].digit})
    assert not is_taken(box, entry(box, supply, {}, f"M1 {NOT_THROWN}"), True, 0)


def test_supplies_that_a_switch_may_join_hold_a_motor_that_hangs_on_one_of_them() -> None:
    """A ramp's motor between the rails − of two supplies gets the volts of the one whose + a switch joins to there."""
    circuit = circuit_of("""
supply PA 12 V 10 A
supply PB 5 V 10 A
switch S1 spst positions off on
switch S2 spst positions off on
motor  M1 12 V stall 8 A may coast
rung   PA.-, S1, PB.+
rung   PA.-, S2, M1, PB.-
""")
    box, on = box_of(circuit), (1,) * len(circuit.digits)
    assert not holds(box, drives(box, circuit.motors[0]).get(0, 0), on)
    assert f"M1 {STAYS_STILL}" in certificate_of(circuit)["without certificate"]


def test_a_winding_that_is_shut_brakes_no_motor_whose_other_winding_is_fed() -> None:
    """A two-speed fan that is thrown from forward on one winding to reverse on the other."""
    circuit = circuit_of("""
supply PS 12 V 10 A
fuse   F1 5 A
switch S1 spdt positions blow suck
motor  M1 two-speed 12 V stall 8 A may coast
rung   PS.+, F1, M1.low
wire   M1.high PS.-
wire   M1.- S1.com
wire   S1.blow PS.-
wire   S1.suck F1.2
""")
    assert f"M1 {NOT_THROWN}" in certificate_of(circuit)["without certificate"]
    assert not seen_to_hold(Seen(circuit), f"M1 {NOT_THROWN}")
