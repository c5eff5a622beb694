"""Which digits of two circuits are taken for one, and what is then told of two that behave alike."""

import pytest

from circuitcheck.analysis.comparing import Comparison, compare_behaviour
from circuitcheck.analysis.matching import match_parts
from circuitcheck.analysis.side_by_side import side_by_side
from circuitcheck.circuit.model import Circuit
from tests.analysis.plans import circuit_of

BOX = "supply PS 12 V 10 A\nfuse F1 5 A\nlamp L1 12 V 2 W\nrung PS.+, F1, L1, PS.-\n"


def digits_called(name: str, old: str, new: str) -> int:
    """How many digits have the name once two boxes, each with one part more, lie side by side."""
    one, other = circuit_of(BOX + old + "\n"), circuit_of(BOX + new + "\n")
    laid = side_by_side(one, other, {name: name}, relays_together=True)
    return sum(digit.name == name for digit in laid.old.digits)


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("switch X spst positions off on", "switch X spdt positions off on far"),
        ("axis X from low to high", "axis X from bottom to top"),
        ("axis X from low to high", "axis X from low via half to high"),
        ("axis X from low via half to high", "axis X from low to high"),
        ("relay X spdt coil 12 V 160 ohm", "relay X dpdt coil 12 V 90 ohm"),
    ],
)
def test_what_has_the_same_positions_or_more_of_them_is_one_digit(old: str, new: str) -> None:
    """Places of an axis are matched by order; of two axes the finer one's zones count."""
    assert digits_called("X", old, new) == 1


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("switch X spst positions off on", "relay X spdt coil 12 V 160 ohm"),
        ("axis X from low to high", "axis X turning through low high"),
        ("axis X turning through low high", "axis X turning through low half high"),
        ("axis X from low via half to high", "axis X from high to low"),
        ("axis X from low via half to high", "axis X from low to half"),
        ("relay X spdt coil 12 V 160 ohm", "relay X spdt one-shot 3 s coil 12 V 160 ohm"),
    ],
)
def test_what_cannot_be_matched_position_by_position_stays_two_digits(old: str, new: str) -> None:
    """Of another kind, or with other ends."""
    assert digits_called("X", old, new) == 2


def compared(old: Circuit, new: Circuit) -> Comparison:
    """The verdict of the tool."""
    return compare_behaviour(old, new, match_parts(old, new))


LATCHING = """
button PB1 PB2 no
relay  K1 spdt latching coil 12 V 160 ohm with diode
relay  K2 spdt coil 12 V 160 ohm with diode
lamp   L2 12 V 2 W
rung   F1.2, PB1, K1.A1-A2, PS.-
rung   F1.2, PB2, K1.B1-B2, PS.-
rung   F1.2, K1.11-14, K2.A1-A2, PS.-
rung   F1.2, {contact}, L2, PS.-
"""


def test_a_latching_relay_that_both_have_begins_alike_in_both() -> None:
    """Else a box would differ from itself: the lamp by the relay's own contact, or by one of a relay that it feeds."""
    old, new = (circuit_of(BOX + LATCHING.format(contact=contact)) for contact in ("K1.11-14", "K2.11-14"))
    assert compared(old, new).same
    assert not compared(old, circuit_of(BOX + LATCHING.format(contact="K1.11-12"))).same
