"""Fuses against the gates that their standards promise. Gates from memory are marked; no test rests on one alone."""

import math
from itertools import pairwise

import pytest

from circuitcheck.sizing.fuse_table import BLADE, FAST, LARGE_BLADE, NORTH_AMERICAN, SLOW, Family, family_of
from circuitcheck.sizing.fuses import let_through

SHARES = [share / 100 for share in range(50, 1200, 5)]


@pytest.mark.parametrize(
    ("family", "share", "least", "most"),
    [
        (BLADE, 1.6, 0.25, 50),
        (BLADE, 2.0, 0.15, 5),
        (LARGE_BLADE, 1.0, 360_000, math.inf),
        (LARGE_BLADE, 1.35, 0.75, 600),
        (LARGE_BLADE, 2.0, 0.15, 5),
        (LARGE_BLADE, 3.5, 0.08, 0.5),
        (LARGE_BLADE, 6.0, 0.0, 0.15),
        (SLOW, 1.5, 1800, math.inf),
        (SLOW, 2.1, 0.6, 120),
        (SLOW, 2.75, 0.6, 10),
        (SLOW, 4.0, 0.15, 3),
        (SLOW, 10.0, 0.02, 0.3),
        (NORTH_AMERICAN, 1.0, math.inf, math.inf),
        (NORTH_AMERICAN, 1.35, 0.0, 3600),
        (NORTH_AMERICAN, 2.0, 0.0, 120),
    ],
)
def test_a_fuse_holds_and_opens_as_its_standard_promises(
    family: Family, share: float, least: float, most: float
) -> None:
    """ISO 8820-3 as the Littelfuse 287 data sheet prints it, IEC 60127-2 sheet 3 as the Littelfuse 213 and 218 data
    sheets do, UL/CSA 248-14 as the Littelfuse Fuseology guide does."""
    assert family.times(share) == (least, most)


def test_between_two_gates_only_what_follows_from_both_is_promised() -> None:
    """At 180 % a blade holds as long as at 200 %, and has opened when at 160 % it would have."""
    assert BLADE.times(1.8) == (0.15, 50)


@pytest.mark.parametrize("family", [BLADE, LARGE_BLADE, SLOW, FAST, NORTH_AMERICAN])
def test_more_current_never_opens_a_fuse_later(family: Family) -> None:
    """Neither bound rises with the current, and the lower never passes the upper."""
    times = [family.times(share) for share in SHARES]
    for sooner, later in pairwise(times):
        assert sooner[0] >= later[0]
        assert sooner[1] >= later[1]
    assert all(least <= most for least, most in times)


def test_the_same_figure_is_not_the_same_fuse() -> None:
    """An IEC cartridge may hold at 150 % for half an hour what a UL/CSA 248-14 one must open at 135 % within one."""
    assert (SLOW.sure.percent, NORTH_AMERICAN.sure.percent) == (210, 135)


def test_what_was_not_looked_up_is_marked() -> None:
    """The small blade's gate at 350 % and the quick cartridge's sheet are from memory; that of 200 % isn't."""
    assert BLADE.from_memory(3.5)
    assert not BLADE.from_memory(2.0)
    assert all(gate.source.certainty == "from memory" for gate in FAST.gates)


def test_a_plan_s_words_name_the_family() -> None:
    """A blade where it says nothing; from 35 A on the larger one."""
    assert family_of((), 10) is BLADE
    assert family_of(("blade",), 40) is LARGE_BLADE
    assert (family_of(("cartridge", "slow"), 2), family_of(("cartridge", "fast"), 2)) == (SLOW, FAST)


def test_a_blade_lets_through_less_heat_the_more_current_flows() -> None:
    """From its gates: at 200 % of 10 A at most 20² · 5 = 2000 A² s, below 135 % without end (ISO 8820-3)."""
    assert let_through(BLADE, 10, 20) == 2000
    assert let_through(BLADE, 10, 13) == math.inf
    heats = [let_through(BLADE, 10, amps) for amps in range(14, 200)]
    assert heats == sorted(heats, reverse=True)
