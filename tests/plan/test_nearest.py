"""Which known names are offered for a misspelt one."""

import pytest

from circuitcheck.plan.nearest import nearest


@pytest.mark.parametrize(
    ("word", "known", "offered"),
    [
        ("rely", ["rung", "relay", "reel"], ("relay", "reel")),
        ("K1.15", ["K1.A1", "K1.A2", "K1.11", "K1.12", "K1.14", "K1.21"], ("K1.11", "K1.12", "K1.14", "K1.A1")),
        ("k1", ["S1", "K1", "K2"], ("K1", "S1", "K2")),
        ("coli", ["coil"], ("coil",)),
        ("drawbridge", ["lantern", "jaw"], ()),
        ("", ["a", "ab"], ()),
        ("K1", ["K1"], ()),
        ("x" * 100_000, ["x"], ()),
    ],
)
def test_the_nearest_names_come_first_and_far_ones_not_at_all(
    word: str, known: list[str], offered: tuple[str, ...]
) -> None:
    """At most four, by the number of slips of the hand between them."""
    assert nearest(word, known) == offered
