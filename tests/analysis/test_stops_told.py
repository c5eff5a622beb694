"""What is told of a motor's stops where there is nothing to reckon."""

from circuitcheck.analysis.motion.answers import motion_of
from tests.reference.asking import facts_of


def test_a_stop_in_which_a_motor_turns_weakly_is_told_without_figures() -> None:
    """Nobody can say how far it turns through a lamp; a stop beside it without current is reckoned as measured."""
    facts = facts_of("""
        supply PS 12 V 10 A
        switch S1 spdt positions full faint
        lamp   L1 12 V 20 ohm
        motor  M1 12 V stall 10 A coasts 110 deg free 1 A 40 rpm may coast
        rung   PS.+, S1.full
        rung   PS.+, L1, S1.faint
        rung   S1.com, M1, PS.-
    """)
    (sense,) = motion_of(facts, 0).senses
    stops = {stop.way.does[-1]: stop for stop in sense.stops}
    assert stops.keys() == {"weak", "coasting"}
    assert (stops["weak"].parts, stops["weak"].whole, stops["weak"].wanted) == ((), None, ())
    assert stops["coasting"].whole is not None
