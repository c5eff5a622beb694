"""How long relays take, from the plan's figures."""

import pytest

from circuitcheck.analysis.move_times import ANY_MOVE_TIMES, coils_with_diode, move_times
from circuitcheck.analysis.time_left import ANY_TIME
from tests.analysis.plans import circuit_of

PLAN = "supply PS 12 V 1 A\nrelay K1 no coil 12 V 160 ohm {}\nrelay K2 no coil 12 V 160 ohm operate 1 ms\n{}"
MILLISECOND = 10**6


@pytest.mark.parametrize(
    ("figures", "across", "operate", "release"),
    [
        ("operate 4..10 ms release 2..5 ms", "", (4, 10), (2, 5)),
        ("release 2..5 ms, 20 ms with diode", "", None, (2, 5)),
        ("release 2..5 ms, 20 ms with diode", "diode D1\nrung K1.A2, D1, K1.A1\n", None, (2, 20)),
        ("release 2..5 ms", "diode D1\nrung K1.A2, D1, K1.A1\n", None, (2, 15)),
        ("release 2..5 ms", "diode D1\nrung K2.A2, D1, K2.A1\n", None, (2, 5)),
        ("release 2..5 ms with diode", "", None, (2, 15)),
    ],
)
def test_a_relay_takes_the_times_of_its_figures(
    figures: str, across: str, operate: tuple[int, int] | None, release: tuple[int, int]
) -> None:
    """In nanoseconds; a plain diode across the coil, built in or soldered, makes it let go later."""
    found = move_times(circuit_of(PLAN.format(figures, across)))[0]
    assert found.operate == (tuple(one * MILLISECOND for one in operate) if operate else ANY_TIME)
    assert found.release == tuple(one * MILLISECOND for one in release)


def test_a_relay_without_figures_takes_any_time() -> None:
    """It isn't listed; one that has one figure takes any time for its other move."""
    found = move_times(circuit_of(PLAN.format("", "")))
    assert found.keys() == {1}
    assert found[1]._replace(operate=ANY_TIME) == ANY_MOVE_TIMES
    assert move_times(circuit_of("supply PS 12 V 1 A\nrelay K1 no coil 12 V 160 ohm\n")) == {}


def test_only_a_diode_straight_across_the_coil_slows_its_release() -> None:
    """Not one with something in series, and no latching relay, which another coil resets."""
    resistor = "diode D1\nresistor R1 10 ohm\nrung K1.A2, D1, R1, K1.A1\n"
    assert coils_with_diode(circuit_of(PLAN.format("", resistor))) == frozenset()
    assert coils_with_diode(circuit_of(PLAN.format("with diode", ""))) == {0}
    assert coils_with_diode(circuit_of(PLAN.format("latching with diode", ""))) == frozenset()
