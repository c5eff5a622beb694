"""Random texts end in a verdict or in problems; those that once did not are kept here."""

from random import Random

import pytest

from circuitcheck.plan.parsing import StatementParser
from tests.fuzzing.__main__ import try_some
from tests.fuzzing.texts import any_text
from tests.fuzzing.whole_tool import put_through

COIL_WITH_RESISTOR_IN_SERIES = """
supply PS 12 V 10 A
fuse   F1 5 A
switch S1 spdt positions open off close
relay  K1 dpdt coil 12 V 160 ohm with resistor 680 ohm
motor  M1 12 V stall 10 A
rung   PS.+, F1, S1.com-open, K1.A1-A2, PS.-
rung   F1.2, M1, K1.A1
"""
SUPPLY_THAT_CURRENT_RUNS_BACK_THROUGH = """
supply PS1 12 V 5 A
supply PS2 5 V 4 A
fuse   F1 3 A
fuse   F2 2 A
switch S1 spst positions off on
button TEST no
lamp   L1 5 V 3 W
lamp   L2 12 V 5 W
wire   PS1.+ PS2.+
rung   PS2.+, F2, S1, L1, PS2.-
rung   PS1.+, F1, TEST, L2, PS1.-
wire   TEST.14 L1.1
"""
MANY_WIRES_ON_ONE_SPLICE = "supply PS 12 V 10 A\nsplice N1\n" + "wire N1 PS.-\n" * 15_000


@pytest.mark.parametrize(
    "text", [COIL_WITH_RESISTOR_IN_SERIES, SUPPLY_THAT_CURRENT_RUNS_BACK_THROUGH, MANY_WIRES_ON_ONE_SPLICE]
)
def test_what_once_brought_the_tool_down_has_a_verdict(text: str) -> None:
    """Each text was found by `python -m tests.fuzzing`, and made small."""
    assert put_through(text, StatementParser()) == "examined"


def test_the_same_number_gives_the_same_text() -> None:
    """What is told of a text can be looked at again."""
    assert any_text(Random(7)) == any_text(Random(7)) != any_text(Random(8))


def test_a_hundred_random_texts_end_in_a_verdict_or_in_problems() -> None:
    """No traceback, and none takes two seconds."""
    some = try_some(range(100))
    assert some.amiss == []
    assert some.examined > 10


@pytest.mark.slow
def test_two_thousand_random_texts_end_in_a_verdict_or_in_problems() -> None:
    """The same with more of them."""
    some = try_some(range(100, 2100))
    assert some.amiss == []
    assert some.examined > 200
    assert some.again < 400
