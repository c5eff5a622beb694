"""The truth table of some of the motors, in a box where that is plain."""

import pytest

from circuitcheck.analysis.table import truth_table
from tests.analysis.test_hands import where
from tests.reference.asking import facts_of

BOX = """
    supply PS 12 V 10 A
    switch S1 S2 S3 spst positions off on
    relay  K1 K2 no coil 12 V 160 ohm with diode
    motor  M1 M2 12 V stall 5 A may coast
    rung   PS.+, S1, K1.A1-A2, PS.-
    rung   PS.+, S2, K2.A1-A2, PS.-
    rung   PS.+, K1.13-14, M1, PS.-
    rung   PS.+, K2.13-14, S3, M2, PS.-
"""


@pytest.mark.parametrize(
    ("motors", "inputs", "relays"),
    [
        ((0,), ["PS", "S1"], (0,)),
        ((1,), ["PS", "S2", "S3"], (1,)),
        ((), ["PS", "S1", "S2", "S3"], (0, 1)),
    ],
)
def test_a_table_of_some_motors_is_about_what_has_a_say_in_them(
    motors: tuple[int, ...], inputs: list[str], relays: tuple[int, ...]
) -> None:
    """And about their relays; with none named it is about all of them."""
    facts = facts_of(BOX)
    table = truth_table(facts, {}, motors)
    assert [facts.circuit.digits[digit].name for digit in table.inputs] == inputs
    assert table.relays == relays
    assert table.motors == (motors or (0, 1))
    assert table.held == ()
    running = (where(facts, PS="on", S1="on"), where(facts, PS="on", S2="on", S3="on"))
    for motor, cells in zip(table.motors, table.released.motors, strict=True):
        assert cells.keys() == {"forward", "coasting"}
        assert cells["forward"].same_as(running[motor])
        assert cells["coasting"].same_as(~running[motor])


def test_what_is_given_is_told_though_nothing_hangs_on_it() -> None:
    """Only the positions that are asked for, and no combination with others."""
    facts = facts_of(BOX)
    names = [digit.name for digit in facts.circuit.digits]
    table = truth_table(facts, {names.index("S3"): (1,)}, (0,))
    assert [names[digit] for digit in table.inputs] == ["PS", "S1", "S3"]
    assert table.positions == ((0, 1), (0, 1), (1,))
    table = truth_table(facts, {names.index("S1"): (1,)}, (0,))
    assert table.released.motors[0]["forward"].same_as(where(facts, PS="on", S1="on"))
