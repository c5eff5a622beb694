"""Several problems at once, problems with two places, and those that would only repeat another."""

from collections.abc import Callable

import pytest

from circuitcheck.plan.source import Problem

ProblemsOf = Callable[[str], tuple[Problem, ...]]
PARTS = """lamp L1 12 V 2 W
type cube relay spdt coil 12 V
module Shutter
  port plus minus
end
supply PS 12 V 10 A
fit R1 Shutter : plus PS.+, minus PS.-
"""


@pytest.mark.parametrize(
    ("statement", "line", "sentence"),
    [
        ("buzzer L1 12 V 0.02 A", 1, "L1 is first described here."),
        ("lamp L9 as cube", 2, "cube is described here."),
        ("fit R9 Shutter : plus PS.+", 3, "Shutter has the ports plus minus."),
        ("fit R9 Shutter : plus PS.+, plus PS.+, minus PS.-", 8, "plus is first joined here."),
        ("relay K9 coil 12 V coil 24 V", 8, "`coil` is first given here."),
    ],
)
def test_a_problem_shows_the_other_place_that_belongs_to_it(
    problems_of: ProblemsOf, statement: str, line: int, sentence: str
) -> None:
    """Each place has a sentence of its own."""
    (problem,) = problems_of(PARTS + statement)
    ((place, said),) = problem.also
    assert (place.line, said) == (line, sentence)


def test_all_problems_of_a_plan_are_told_at_once_in_order(problems_of: ProblemsOf) -> None:
    """Parts, wires and promises alike."""
    text = "expect L9 lit\nlamp L1 12 V 2 X\nwire L1.9 L2.1\nlamp L2 12 V 2 W\nwire L2.1 L2.9"
    assert [problem.what for problem in problems_of(text)] == ["no part L9", "no unit X", "no terminal L2.9"]


def test_nothing_more_is_said_of_a_part_that_was_not_understood(problems_of: ProblemsOf) -> None:
    """Its wires, its rungs and its promises would only repeat the same slip."""
    text = PARTS + "relay K9 spdt\nwire K9.A1 PS.+\nrung K9.11-14, L1\nnever K9 operated"
    assert [problem.what for problem in problems_of(text)] == ["relay K9 has no `coil`"]


def test_nothing_is_said_of_the_inside_of_a_module_that_is_not_there(problems_of: ProblemsOf) -> None:
    """Only the fit is at fault."""
    text = PARTS + "fit R9 Shuter : plus PS.+\nwire R9.K1.A1 PS.+\nnever R9.K1 operated"
    assert [problem.what for problem in problems_of(text)] == ["no module Shuter"]


def test_a_slip_in_a_type_is_told_once_where_the_type_stands(problems_of: ProblemsOf) -> None:
    """However many parts use the type."""
    (problem,) = problems_of("type cube relay spdt coil 12 s\nrelay K1 as cube\nrelay K2 as cube")
    assert problem.what == "12 s where volts, ohms, watts or an inductance (H or mH) are expected"
    assert problem.place.line == 1
