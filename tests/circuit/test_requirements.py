"""What a plan may require of the box with one fault in it."""

from collections.abc import Callable

import pytest

from circuitcheck.circuit.model import Circuit
from circuitcheck.plan.source import PlanError

Build = Callable[[str], Circuit]
PARTS = """supply PS 12 V 10 A
estop ES1 nc
button PB1 no
axis deck from bottom via middle to top
axis wheel turning through park
"""


def test_an_end_of_an_axis_and_an_emergency_stop_can_be_required_of(build: Build) -> None:
    """Both kinds are kept, with their names."""
    text = f"{PARTS}require one fault never drives deck past top\nrequire ES1 works after one fault\n"
    assert [(one.subject.text, one.past and one.past.text) for one in build(text).requirements] == [
        ("deck", "top"),
        ("ES1", None),
    ]


@pytest.mark.parametrize(
    ("requirement", "what", "help"),
    [
        ("one fault never drives dekc past top", "no axis dekc", "Nearest: deck."),
        ("one fault never drives deck past tpo", "no place tpo on deck", "Nearest: top."),
        ("one fault never drives deck past middle", "middle is no end of deck", "bottom or top"),
        ("one fault never drives wheel past park", "nothing is past park on wheel", "It turns without an end."),
        ("one fault never drives ES1 past top", "ES1 is no axis", "ES1 is an estop."),
        ("ES2 works after one fault", "no emergency stop ES2", "Nearest: ES1"),
        ("PB1 works after one fault", "PB1 is no emergency stop", "PB1 is a button."),
    ],
)
def test_what_does_not_exist_is_told_with_what_does(build: Build, requirement: str, what: str, help: str) -> None:
    """One problem, at the word that is wrong."""
    with pytest.raises(PlanError) as raised:
        build(f"{PARTS}require {requirement}\n")
    (problem,) = raised.value.problems
    assert problem.what == what
    assert help in problem.help
    assert problem.place.line == 6


def test_a_module_requires_of_its_own_axis(build: Build) -> None:
    """In each place where it is fitted, by the full name."""
    module = "module Lift\nport plus\naxis deck from bottom to top\nrequire one fault never drives deck past top\nend\n"
    text = f"supply PS 12 V 10 A\n{module}fit A1 Lift : plus PS.+\nfit A2 Lift : plus PS.+\n"
    assert [one.subject.text for one in build(text).requirements] == ["A1.deck", "A2.deck"]
