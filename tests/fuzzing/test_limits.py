"""Plans that are meant to bring the tool down are refused soon, and told why."""

import time

import pytest

from circuitcheck.circuit.building import build_circuit
from circuitcheck.examination import examine_plan
from circuitcheck.plan.reading import read_text
from circuitcheck.plan.source import PlanError

MANY_ZONES = "axis deck from a via " + " via ".join(f"p{number}" for number in range(3000)) + " to b"
MANY_SUPPLIES = "\n".join(f"supply P{number} 12 V 10 A" for number in range(9))
MANY_ROTARIES = f"switch {' '.join(f'S{n}' for n in range(4_000))} 1 poles 12 ways positions {' '.join('abcdefghijkl')}"
MANY_TERMINALS = "\n".join(f"connector J{number} 100 ways" for number in range(601))
IN_SERIES = """
supply PS 12 V 10 A
fuse F1 5 A
{resistors}
rung PS.+, F1, {names}, PS.-
"""


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
        (MANY_ROTARIES, "more than 10^4000 combinations of switches and relays up to here"),
        (MANY_TERMINALS, "more than 60,000 terminals up to here"),
        ("lamp" + " L1" * 100_000, "a statement of more than 100,000 signs"),
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
    assert time.process_time() - begun < 5


def test_the_limits_themselves_are_allowed() -> None:
    """A hundred places and eight supplies are more than any prop has."""
    assert told_of("\n".join(MANY_SUPPLIES.split("\n")[:8])) == []
    assert told_of("axis deck from a via " + " via ".join(f"p{n}" for n in range(98)) + " to b") == []


def in_series(count: int) -> str:
    """So many resistors one after another."""
    names = [f"R{number}" for number in range(count)]
    return IN_SERIES.format(resistors="\n".join(f"resistor {one} 100 ohm" for one in names), names=", ".join(names))


def test_thousands_of_loads_in_series_have_no_verdict_and_it_is_told_soon() -> None:
    """Each would be asked with all the others."""
    begun = time.process_time()
    with pytest.raises(PlanError) as told:
        examine_plan(read_text("hostile.plan", in_series(2_000)), 0.0)
    assert told.value.problems[0].what.startswith("what R0 gets depends on too many other loads at once")
    assert time.process_time() - begun < 5


@pytest.mark.slow
def test_as_many_loads_in_series_as_may_hang_together_have_a_verdict() -> None:
    """The limit itself is allowed."""
    assert examine_plan(read_text("hostile.plan", in_series(200)), 0.0).counts.combinations == 2


@pytest.mark.parametrize(
    ("named", "wanted"),
    [
        ("type TYPE{0} lamp 12 V 2 W", "lamp L{0} as TYPF{0}"),
        ("lamp LAMP{0} 12 V 2 W", "wire LAMQ{0}.1 LAMQ{0}.2"),
        ("axis AXIS{0} from a to b", "limit L{0} nc on AXIT{0} at a"),
    ],
)
def test_thousands_of_misspelt_names_are_told_soon(named: str, wanted: str) -> None:
    """The first are told what they may have been meant for."""
    text = "\n".join(line.format(number) for line in (named, wanted) for number in range(2_000))
    begun = time.process_time()
    told = told_of(text)
    assert len(told) >= 2_000
    assert time.process_time() - begun < 10
