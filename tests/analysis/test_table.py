"""The truth table of some of the motors, in a box where that is plain."""

from unittest.mock import patch

import pytest

from circuitcheck.analysis.table import TooManyRows, truth_table
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
    assert table.released.combinations.same_as(where(facts, S1="on"))


SEALED = """
    supply PS 12 V 10 A
    button PB1 PB2 no
    relay  K1 K2 no no coil 12 V 160 ohm with diode
    motor  M1 12 V stall 5 A may coast
    rung   PS.+, ( PB1 | K1.13-14 ), K1.A1-A2, PS.-
    rung   PS.+, ( PB2 | K2.13-14 ), K2.A1-A2, PS.-
    rung   PS.+, K1.23-24, M1, PS.-
"""


def test_relays_that_hold_themselves_in_are_told_besides() -> None:
    """One for each set of relays that stay operated with their buttons released."""
    facts = facts_of(SEALED)
    on, off1, off2 = (where(facts, **one) for one in ({"PS": "on"}, {"PB1": "released"}, {"PB2": "released"}))
    table = truth_table(facts, {}, ())
    told = [(list(one.relays[0]), list(one.relays[1]), list(one.motors[0])) for one in table.held]
    assert told == [
        (["operated"], ["released"], ["forward"]),
        (["released"], ["operated"], ["coasting"]),
        (["operated"], ["operated"], ["forward"]),
    ]
    first, second, both = (one.combinations for one in table.held)
    assert first.same_as(on & off1 & off2)
    assert second.same_as(on & off1 & off2)
    assert both.same_as(on & (off1 | off2))
    assert [one.motors[0][word].same_as(one.combinations) for one, (*_, (word,)) in zip(table.held, told, strict=True)]
    with patch("circuitcheck.analysis.table.MOST_ROWS", 3):
        assert len(truth_table(facts, {}, ()).held) == 3
    with patch("circuitcheck.analysis.table.MOST_ROWS", 2), pytest.raises(TooManyRows):
        truth_table(facts, {}, ())


UNDECIDED = """
    supply PS 12 V 10 A
    button PB1 PB2 PB3 no
    relay  K1 K2 K3 dpdt coil 12 V 160 ohm with diode
    motor  M1 M2 12 V stall 5 A may coast
    rung   PS.+, PB1, K1.11-12, K2.A1-A2, PS.-
    rung   PB1.14, K2.11-12, K1.A1-A2, PS.-
    rung   PS.+, PB2, K3.11-12, K3.A1-A2, PS.-
    rung   PS.+, ( K2.21-24 | K3.21-24 ), M1, PS.-
    rung   PS.+, K1.21-24, M2, PS.-
    rung   PS.+, PB3, PS.-
"""


def test_a_motor_has_one_word_or_a_verdict_in_each_combination() -> None:
    """Two relays lock each other out, a third breaks its own coil, which M2 doesn't notice, and a button shorts the
    supply."""
    facts = facts_of(UNDECIDED)
    table = truth_table(facts, {}, ())
    on, race, buzz, short = (
        where(facts, **one) for one in ({"PS": "on"}, {"PB1": "pressed"}, {"PB2": "pressed"}, {"PB3": "pressed"})
    )
    expected = {
        "shorted": on & short,
        "never settles": (on & buzz) - short,
        "order-dependent": (on & race) - buzz - short,
        "coasting": ~on | ~(race | buzz | short),
    }
    cells, beside = table.released.motors
    assert beside.keys() == {"shorted", "order-dependent", "coasting"}
    assert cells.keys() == expected.keys()
    assert all(cells[word].same_as(states) for word, states in expected.items())
    first, _, third = table.released.relays
    assert first["-"].same_as(on & (race | short))
    assert third["-"].same_as(on & (buzz | short))
    assert first.keys() == third.keys() == {"-", "released"}


LATCHING = """
    supply PS 12 V 10 A
    button PB1 PB2 no
    relay  K1 no no latching coil 12 V 160 ohm with diode
    motor  M1 12 V stall 5 A may coast
    rung   PS.+, PB1, K1.A1-A2, PS.-
    rung   PS.+, PB2, K1.B1-B2, PS.-
    rung   PS.+, K1.13-14, M1, PS.-
"""


def test_where_a_latching_relay_stood_before_is_one_of_the_inputs() -> None:
    """Set by one button and reset by the other; with both pressed it stays."""
    facts = facts_of(LATCHING)
    names = [digit.name for digit in facts.circuit.digits]
    table = truth_table(facts, {}, ())
    assert [names[digit] for digit in table.inputs] == ["PS", "PB1", "PB2", "K1"]
    on, set_, reset, before = (
        where(facts, **one) for one in ({"PS": "on"}, {"PB1": "pressed"}, {"PB2": "pressed"}, {"K1": "operated"})
    )
    operated = (on & set_ & ~reset) | (before & ~(on & reset & ~set_))
    (relay,), (motor,) = table.released.relays, table.released.motors
    assert relay.keys() == {"operated", "released"}
    assert relay["operated"].same_as(operated)
    assert relay["released"].same_as(~operated)
    assert motor["forward"].same_as(on & operated)
    assert table.released.combinations.everything
    assert table.held == ()
