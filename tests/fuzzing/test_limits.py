"""Plans that are meant to bring the tool down are refused soon, and told why."""

import time

import pytest

from circuitcheck.circuit.building import build_circuit
from circuitcheck.plan.reading import read_text
from circuitcheck.plan.source import PlanError

MANY_ZONES = "axis deck from a via " + " via ".join(f"p{number}" for number in range(3000)) + " to b"
MANY_SUPPLIES = "\n".join(f"supply P{number} 12 V 10 A" for number in range(9))


def told_of(text: str) -> list[str]:
    """What is wrong with the circuit of a plan, nothing where there is one."""
    try:
        build_circuit(read_text("hostile.plan", text))
    except PlanError as error:
        return [problem.what for problem in error.problems]
    return []


@pytest.mark.parametrize(
    ("text", "what"),
    [
        (MANY_ZONES, "deck has more than 100 places"),
        (MANY_SUPPLIES, "more than 8 supplies in one plan"),
        ("switch S1 1 poles 999999999 ways positions a b", "1e+09 ways cannot be meant"),
        ("switch S1 999999 poles 2 ways positions a b", "999999 poles cannot be meant"),
        ("connector J1 99999999999 ways", "1e+11 ways cannot be meant"),
        ("supply PS 999999999999 V 1 A", "1e+12 V cannot be meant"),
        ("lamp L1 12 V 0 W", "0 W cannot be meant"),
    ],
)
def test_numbers_that_nobody_means_are_refused_soon(text: str, what: str) -> None:
    """However large they are, nothing is made of them first."""
    begun = time.process_time()
    assert what in told_of(text)
    assert time.process_time() - begun < 2


def test_the_limits_themselves_are_allowed() -> None:
    """A hundred places and eight supplies are more than any prop has."""
    assert told_of("\n".join(MANY_SUPPLIES.split("\n")[:8])) == []
    assert told_of("axis deck from a via " + " via ".join(f"p{n}" for n in range(98)) + " to b") == []
