"""What is told of a part that is described otherwise than before."""

import pytest

from circuitcheck.analysis.changed_parts import changed_parts
from circuitcheck.analysis.matching import match_parts
from tests.analysis.plans import circuit_of


def changes(old: str, new: str) -> list[str]:
    """The details of every part that changed."""
    before, after = circuit_of(old), circuit_of(new)
    return [detail for part in changed_parts(before, after, match_parts(before, after)) for detail in part.details]


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        ("fuse F1 5 A", "fuse F1 10 A", "5 A → 10 A"),
        ("strip X1 4 ways", "strip X1 6 ways", "ways 4 → 6"),
        ("motor M1 12 V free 40 rpm", "motor M1 12 V free 45 rpm", "free 40 rpm → 45 rpm"),
        ("motor M1 12 V stall 9 A 6 N m", "motor M1 12 V stall 9 A 8 N m", "stall 6 N m → 8 N m"),
        ("motor M1 12 V rotor 1 kg cm2", "motor M1 12 V rotor 2 kg cm2", "rotor 0.0001 kg m2 → 0.0002 kg m2"),
        ("axis a from b to c, drum 60 mm", "axis a from b to c, drum 70 mm", "drum 0.06 m → 0.07 m"),
    ],
)
def test_a_changed_figure_is_told_with_its_unit(old: str, new: str, told: str) -> None:
    """By what it is about, in SI units, whichever of several figures it is."""
    assert changes(old, new) == [told]


def test_a_coil_of_other_volts_is_told_though_its_resistance_stays() -> None:
    """Neither of two figures hides the other."""
    assert "coil 12 V → 6 V" in changes("relay K1 coil 12 V 90 ohm", "relay K1 coil 6 V 90 ohm")
