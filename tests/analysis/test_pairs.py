"""Two boxes side by side: power-up, and switches that pass a moment on their way."""

from circuitcheck.analysis.comparing import compare_behaviour
from circuitcheck.analysis.matching import match_parts
from tests.analysis.plans import circuit_of
from tests.analysis.test_matching import STRAIGHT, compared

THROUGH_A_SHORT = """
supply PS 12 V 10 A
switch S1 spdt positions raise lower make-before-break
relay  K2 no no coil 12 V 160 ohm
diode  D1
lamp   L1 12 V 2 W
wire   PS.+ S1.raise
wire   PS.- S1.lower
rung   S1.com, D1, K2.A1-A2, PS.-
rung   PS.+, K2.13-14, K2.A1
"""


def test_latching_relays_of_each_boxs_own_have_to_fit_however_either_stands_at_power_up() -> None:
    """A relay that never operates holds the lamp back in one box; the other may stand so that nothing there fits."""
    straight, held_back = (
        "supply PS 12 V 5 A\nrelay K1 no latching coil 12 V 160 ohm\nlamp L1 12 V 2 W\nrelay K3 no coil 12 V 160 ohm\n"
        f"rung PS.+, {over}K1.13-14, L1, PS.-\n"
        for over in ("", "K3.13-14, ")
    )
    for before, after in ((straight, held_back), (held_back, straight)):
        old, new = circuit_of(before), circuit_of(after.replace("K1", "K9"))
        parts = {name: other for name, other in match_parts(old, new).items() if name != "K1"}
        (apart,) = compare_behaviour(old, new, parts).apart
        assert not apart.parting.happenings
    both_lit = circuit_of(STRAIGHT), circuit_of(STRAIGHT.replace("K1", "K9"))
    parts = {name: other for name, other in match_parts(*both_lit).items() if name != "K1"}
    assert compare_behaviour(*both_lit, parts).same


def test_what_lies_beyond_a_short_that_a_switch_passes_makes_no_difference() -> None:
    """The lamp needs a relay of the one position in the other, and on the way between the supply is shorted."""
    after = THROUGH_A_SHORT + "rung PS.-, L1, PS.-\n"
    comparison = compared(THROUGH_A_SHORT + "rung PS.+, K2.23-24, L1, S1.com\n", after)
    assert comparison.same
    assert comparison.unreached == ("L1",)
