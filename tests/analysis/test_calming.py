"""Which relays are seen to come to rest, on circuits for which that is plain."""

import pytest

from circuitcheck.analysis.calming import surely_calm
from circuitcheck.analysis.facts import analyse
from tests.analysis.plans import circuit_of

RELAYS = """
supply PS 12 V 10 A
button PB1 PB2 no
relay  K1 K2 dpdt coil 12 V 160 ohm with diode
"""


def is_calm(text: str) -> bool:
    """Is it seen of the relays of a plan?"""
    return surely_calm(analyse(circuit_of(text)))


@pytest.mark.parametrize(
    "rungs",
    [
        # Each by itself.
        "rung PS.+, PB1, K1.A1-A2, PS.-\nrung PS.+, PB2, K2.A1-A2, PS.-",
        # One that operates keeps the other from it, but lets none release; one that releases may let the other operate.
        "rung PS.+, PB1, K2.11-12, K1.A1-A2, PS.-\nrung PS.+, PB2, K1.11-12, K2.A1-A2, PS.-",
        # One that operates makes another release, which holds itself; but whatever releases lets none operate.
        "rung PS.+, PB1, K1.A1-A2, PS.-\nrung PS.+, ( PB2 | K1.11-12, K2.11-14 ), K2.A1-A2, PS.-",
        # What one makes operate at once can't wait for the other to release.
        "rung PS.+, PB1, K1.A1-A2, PS.-\nrung PS.+, K1.11-14, K2.A1-A2, PS.-",
    ],
    ids=["apart", "locked", "held", "one after the other"],
)
def test_relays_that_push_one_way_only_are_seen_to_come_to_rest(rungs: str) -> None:
    """In some order of moves each has only so many."""
    assert is_calm(RELAYS + rungs)


@pytest.mark.parametrize(
    "rungs",
    [
        "rung PS.+, K1.11-12, K1.A1-A2, PS.-",
        "rung PS.+, K1.11-12, K2.A1-A2, PS.-\nrung PS.+, K2.11-14, K1.A1-A2, PS.-",
        "rung PS.+, PB1, K1.11-12, K2.A1-A2, PS.-\nrung PS.+, K2.11-14, K1.A1-A2, PS.-",
    ],
    ids=["itself", "each other", "each other while a button is held"],
)
def test_relays_that_undo_what_they_do_are_not_seen_to_come_to_rest(rungs: str) -> None:
    """They go round for ever, some of them only at times."""
    assert not is_calm(RELAYS + rungs)


def test_a_timer_that_breaks_its_own_coil_rests_while_it_runs() -> None:
    """Only its release comes at once, and brings about nothing that doesn't wait for the time again."""
    timer = "supply PS 12 V 10 A\nrelay K1 spdt on-delay 3 s coil 12 V 160 ohm\n"
    assert is_calm(timer + "rung PS.+, K1.15-16, K1.A1-A2, PS.-")
