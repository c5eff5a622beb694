"""Ranges in words."""

from math import inf, pi

import pytest

from circuitcheck.checks.ranges_told import span_words, turn_words
from tests.analysis.plans import circuit_of


@pytest.mark.parametrize(
    ("span", "factor", "words"),
    [
        ((2.0, 2.0), 1, "2 s"),
        ((0.123456, 0.123456), 1, "0.123 s"),
        ((5.01, 19.7), 1, "5..19.7 s"),
        ((5.01, 19.71), 1, "5..19.8 s"),
        ((0.0123, 0.0171), 1, "0.012..0.018 s"),
        ((0.0, 0.0171), 1e3, "0..17.1 s"),
        ((99.99, 100.01), 1, "99.9..101 s"),
        ((10.55, 10.65), 1, "10.5..10.7 s"),
        ((1.5, inf), 1, "1.5..no end s"),
        ((inf, inf), 1, "no end"),
        ((-2.34, 1.0), 1, "-2.4..1 s"),
    ],
)
def test_a_range_is_told_so_that_nothing_falls_outside(span: tuple[float, float], factor: float, words: str) -> None:
    """The least rounded down, the greatest up, with two figures, or three from ten on; one figure as it is."""
    assert span_words(span, factor, "s") == words


def test_how_far_something_turns_is_told_in_what_its_axis_goes_by() -> None:
    """Degrees, or what the drum winds."""
    plan = "supply PS 12 V 1 A\naxis deck from low to high{}\n"
    wound, turned = (circuit_of(plan.format(figures)).axes[0] for figures in (", drum 60 mm", ""))
    assert turn_words(wound, (1.0, 1.0)) == "30 mm"
    ranging = wound._replace(figures=wound.figures._replace(drum_metres=(0.06, 0.08)))
    assert turn_words(ranging, (1.0, 2.0)) == "30..80 mm"
    assert turn_words(turned, (pi / 2, pi / 2)) == turn_words(None, (pi / 2, pi / 2)) == "90 deg"
