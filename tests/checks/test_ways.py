"""The way that current runs, step by step, and told in short."""

from itertools import pairwise

from circuitcheck.checks.ways import compressed, stretches
from tests.analysis.plans import circuit_of

CIRCUIT = circuit_of("""
supply PS 12 V 10 A
fuse   F1 3 A
button PB1 no no
lamp   L1 12 V 2 W
rung   PS.+, F1, PB1.13-14, PB1.24-23, L1, PS.-
""")
PATH = ("PS.+", "F1.1", "F1.2", "PB1.13", "PB1.14", "PB1.24", "PB1.23", "L1.1", "L1.2", "PS.-")


def test_each_step_of_a_way_is_told_with_the_part_that_it_runs_through() -> None:
    """Over wires through none; in either direction."""
    way = stretches(CIRCUIT, PATH)
    assert [(step.tail, step.head) for step in way] == list(pairwise(PATH))
    assert [step.part for step in way] == ["", "F1", "", "PB1", "", "PB1", "", "L1", ""]
    assert way[7].words == "through L1"
    assert [step.part for step in stretches(CIRCUIT, PATH[::-1])] == [step.part for step in way][::-1]


def test_there_is_no_step_where_nothing_joins_two_terminals() -> None:
    """A way may go on elsewhere; none at all has no steps."""
    assert [(step.tail, step.head) for step in stretches(CIRCUIT, ("F1.1", "F1.2", "L1.1", "L1.2"))] == [
        ("F1.1", "F1.2"), ("L1.1", "L1.2"),
    ]  # fmt: skip
    assert stretches(CIRCUIT, ()) == ()


def test_in_short_a_part_that_is_passed_is_told_once() -> None:
    """Two contacts of a button that a wire joins are passed one after the other; no terminal is told twice."""
    short = ["PS.+", "F1.1-2", "PB1.13-14", "PB1.24-23", "L1.1-2", "PS.-"]
    assert compressed(PATH, stretches(CIRCUIT, PATH)) == short
    twice = (*PATH[:3], *PATH[2:])
    assert compressed(twice, stretches(CIRCUIT, twice)) == short
