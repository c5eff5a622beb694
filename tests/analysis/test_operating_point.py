"""The volts of loads in series, by the rule of the voltage divider."""

from circuitcheck.analysis.operating_point import volts_where_open
from tests.analysis.test_hands import where
from tests.reference.asking import facts_of


def test_equal_volts_come_together_and_the_most_come_first() -> None:
    """12 V over 30 ohm behind 90 or 30 ohm, either way round; with a switch at off nothing flows."""
    facts = facts_of("""
        supply PS 12 V 10 A
        switch S1 spdt positions much off little
        switch S2 dpdt positions ahead off back
        resistor R0 R2 30 ohm
        resistor R1 90 ohm
        rung   PS.+, S1.com
        rung   S1.much, R1
        rung   S1.little, R2
        rung   R2.2, R1.2, S2.com1
        rung   S2.ahead1, R0, S2.ahead2
        rung   S2.back1, R0.2
        rung   S2.back2, R0.1
        rung   S2.com2, PS.-
    """)
    number = [one.name for one in facts.circuit.loads].index("R0")
    high, low = volts_where_open(facts.circuit, facts.conduction, number, facts.feeding[number].open)
    assert (high.volts, low.volts) == (6.0, 3.0)
    on, much, little = where(facts, PS="on"), where(facts, S1="much"), where(facts, S1="little")
    ahead, back = where(facts, S2="ahead"), where(facts, S2="back")
    for fed, side in ((high, little), (low, much)):
        assert facts.possible(fed.forward).same_as(on & side & ahead)
        assert facts.possible(fed.backward).same_as(on & side & back)
