"""What loads do that others feed in series."""

from circuitcheck.analysis.series import sneaks_in_series
from tests.reference.asking import facts_of


def test_a_motor_that_is_driven_through_another_load_is_not_told_to_turn_weakly_as_well() -> None:
    """Each state has the most that its volts do; through the weaker lamp they do less."""
    facts = facts_of("""
        supply PS 12 V 10 A
        lamp   L0 12 V 2 W
        switch S1 spst positions off on
        switch S2 spst positions off on
        switch S3 spst positions off on
        lamp   L1 12 V 1 ohm
        lamp   L2 12 V 100 ohm
        motor  M1 12 V stall 1 A
        rung   PS.+, L0, PS.-
        rung   PS.+, S1.com-on, L1, M1, PS.-
        rung   PS.+, S2.com-on, L2, M1.+
        rung   PS.+, S3.com-on, M1.+
    """)
    motor = [load.name for load in facts.circuit.loads].index("M1")
    found = {
        (victim.effect, round(victim.volts, 1))
        for sneak in sneaks_in_series(facts)
        for victim in sneak.victims
        if victim.load == motor and len(sneak.hops) == 2
    }
    by_effect = {effect: [volts for one, volts in found if one == effect] for effect, _ in found}
    assert max(by_effect["is driven"]) > 11
    assert by_effect["turns weakly"] == [1.3]
