"""Which digits of two circuits are taken for one, and what is then told of two that behave alike."""

from typing import NamedTuple

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


class Laid(NamedTuple):
    """A digit X that two boxes share: its values and which moves pass which moment, then where contacts are closed."""

    values: str
    moments: list[tuple[str, set[tuple[int, int]]]]
    old: dict[str, set[int]]
    new: dict[str, set[int]]


ON_THE_WAY, FROM_UP = "between raise and lower", "between up and lower"
SHARED = {
    "one passes both contacts open and the other closed": (
        "switch X spdt positions raise lower",
        "switch X spdt positions raise lower make-before-break",
        Laid(
            "raise, lower",
            [(ON_THE_WAY, {(0, 1), (1, 0)})],
            {"X.com-raise": {0}, "X.com-lower": {1}},
            {"X.com-raise": {0, 2}, "X.com-lower": {1, 2}},
        ),
    ),
    "each stays where it was, or all open, while only the other is on its way": (
        "switch X spdt positions raise off lower",
        "switch X spdt positions up lower make-before-break",
        Laid(
            "raise, off, lower, up",
            [(ON_THE_WAY, {(0, 2)}), (ON_THE_WAY, {(2, 0)}), (FROM_UP, {(2, 3)}), (FROM_UP, {(3, 2)})],
            {"X.com-raise": {0}, "X.com-lower": {2, 6}},
            {"X.com-up": {3, 6, 7}, "X.com-lower": {2, 5, 6, 7}},
        ),
    ),
    "positions of only one come last": (
        "switch X spst positions off on",
        "switch X spdt positions on off far",
        Laid(
            "off, on, far",
            [("between on and far", {(1, 2)}), ("between on and far", {(2, 1)})],
            {"X.com-on": {1, 3}},
            {"X.com-on": {1}, "X.com-far": {2}},
        ),
    ),
    "the new axis is the finer": (
        "axis X from low to high\nlimit A no on X at low\nlimit B no on X at high",
        "axis X from low via half to high\nlimit A no on X at low\nlimit B no on X at half",
        Laid(
            "past low, low, between low and half, half, between half and high, high, past high",
            [],
            {"A.com-no": {0, 1}, "B.com-no": {5, 6}},
            {"A.com-no": {0, 1}, "B.com-no": {3}},
        ),
    ),
    "the old axis is the finer": (
        "axis X from low via a b to high\nlimit A no on X at low\nlimit B no on X from a to b",
        "axis X from low via b to high\nlimit A no on X at high\nlimit B no on X from low to b",
        Laid(
            "past low, low, between low and a, a, between a and b, b, between b and high, high, past high",
            [],
            {"A.com-no": {0, 1}, "B.com-no": {3, 4, 5}},
            {"A.com-no": {7, 8}, "B.com-no": {0, 1, 2, 3, 4, 5}},
        ),
    ),
}


@pytest.mark.parametrize("name", SHARED)
def test_contacts_close_in_the_shared_positions_as_in_their_own(name: str) -> None:
    """Limits and the range of an axis go with its zones; the supply beside it is one digit too."""
    old, new, expected = SHARED[name]
    one, other = (circuit_of(f"{text}\nsupply PS 12 V 10 A\n") for text in (old, new))
    laid = side_by_side(one, other, {"X": "X", "PS": "PS"}, relays_together=True)
    assert laid.old.digits == laid.new.digits
    number, digit = next(pair for pair in enumerate(laid.old.digits) if pair[1].name == "X")
    assert ", ".join(digit.values) == expected.values
    assert [(one.name, set(one.moves)) for one in digit.moments] == expected.moments
    for circuit, closed in ((laid.old, expected.old), (laid.new, expected.new)):
        contacts = [(contact.name, contact.closed) for contact in circuit.conductors if contact.closed]
        assert {name: set(one.values) for name, one in contacts} == closed
        assert {one.digit for _, one in contacts} == {number}
        assert {limit.name: set(limit.zones) for limit in circuit.limits} == {
            name.partition(".")[0]: zones for name, zones in closed.items() if circuit.axes
        }
        assert [(axis.digit, axis.range) for axis in circuit.axes] == [(number, (1, len(digit.values) - 2))] * len(
            circuit.axes
        )
        assert [laid.old.digits[supply.digit].name for supply in circuit.supplies] == ["PS"]


def test_relays_that_both_have_are_told_by_their_numbers() -> None:
    """Under whatever names and in whatever order; what only one has is a digit of its own at the end."""
    one = circuit_of("relay K1 K2 K3 no coil 12 V 160 ohm\nbutton PB1 no\n")
    other = circuit_of("button PB1 no\nrelay KB KA K4 no coil 12 V 160 ohm\n")
    parts = {"K1": "KA", "K2": "KB", "PB1": "PB1"}
    for together, names in (
        (True, ["K1", "K2", "PB1", "K3", "K4"]),
        (False, ["PB1", "K1", "K2", "K3", "KB", "KA", "K4"]),
    ):
        laid = side_by_side(one, other, parts, relays_together=together)
        assert laid.relays == ((0, 1), (1, 0))
        assert [digit.name for digit in laid.old.digits] == names
        assert [names[relay.digit] for relay in laid.old.relays] == ["K1", "K2", "K3"]
        its_own = ["K2", "K1", "K4"] if together else ["KB", "KA", "K4"]
        assert [names[relay.digit] for relay in laid.new.relays] == its_own


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
