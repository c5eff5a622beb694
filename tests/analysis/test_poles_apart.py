"""The circuit in which each relay pole stands for itself."""

from circuitcheck.analysis.facts import analyse
from circuitcheck.analysis.poles_apart import OPERATED, PASSING, RELEASED, PolesApart, as_guided, with_poles_apart
from tests.analysis.plans import circuit_of
from tests.analysis.test_carrying import states_of

RELAYS = """
supply PS 12 V 10 A
relay  K1 no no nc force-guided coil 12 V 160 ohm
relay  K2 spdt no force-guided coil 12 V 160 ohm
relay  K3 no nc coil 12 V 160 ohm
relay  K4 spdt no make-before-break coil 12 V 160 ohm
switch S1 spst positions off on
"""
TWO_SIDES = ("on its released side", "on its operated side")


def relays_apart() -> tuple[PolesApart, list[str]]:
    """With the names of all digits."""
    apart = with_poles_apart(circuit_of(RELAYS))
    return apart, [digit.name for digit in apart.circuit.digits]


def test_each_pole_has_a_digit_and_knows_its_relay() -> None:
    """Behind those of the plan itself; a changeover pole may also be between its sides, or at both."""
    apart, names = relays_apart()
    poles = {names[digit]: apart.circuit.digits[digit].values for own in apart.poles for digit in own}
    assert poles == dict.fromkeys(("K1.13", "K1.23", "K1.31", "K2.23", "K3.13", "K3.21", "K4.23"), TWO_SIDES) | {
        "K2.11": (*TWO_SIDES, "between its sides"),
        "K4.11": (*TWO_SIDES, "on both sides"),
    }
    assert names[: -len(poles)] == ["PS", "K1", "K2", "K3", "K4", "S1"]
    assert {names[digit]: number for digit, number in apart.relay_of.items()} == {
        pole: int(pole[1]) - 1 for pole in poles
    }


def test_a_contact_follows_its_pole() -> None:
    """A make-before-break pole closes both of its contacts on its way; a switch's contact is as it was."""
    apart, names = relays_apart()
    closed = {one.name: one.closed for one in apart.circuit.conductors if one.closed}
    told = {name: (names[contact.digit], set(contact.values)) for name, contact in closed.items()}
    assert told == {
        "K1.13-14": ("K1.13", {OPERATED}),
        "K1.23-24": ("K1.23", {OPERATED}),
        "K1.31-32": ("K1.31", {RELEASED}),
        "K2.11-12": ("K2.11", {RELEASED}),
        "K2.11-14": ("K2.11", {OPERATED}),
        "K2.23-24": ("K2.23", {OPERATED}),
        "K3.13-14": ("K3.13", {OPERATED}),
        "K3.21-22": ("K3.21", {RELEASED}),
        "K4.11-12": ("K4.11", {RELEASED, PASSING}),
        "K4.11-14": ("K4.11", {OPERATED, PASSING}),
        "K4.23-24": ("K4.23", {OPERATED}),
        "S1.com-on": ("S1", {1}),
    }


def test_guided_contacts_that_close_and_open_are_paired_within_their_relay() -> None:
    """Not with themselves, and not those of other relays or of one that isn't guided."""
    apart, names = relays_apart()
    assert {(names[closing], names[opening]) for closing, opening in apart.guided} == {
        ("K1.13", "K1.31"),
        ("K1.23", "K1.31"),
        ("K2.23", "K2.11"),
    }


def test_no_state_stays_in_which_guided_contacts_are_closed_together_that_never_are() -> None:
    """Of states that tell of both poles, and of no others."""
    small = with_poles_apart(circuit_of("supply PS 12 V 10 A\nrelay K1 no no nc force-guided coil 12 V 160 ohm"))
    spaces = analyse(small.circuit).spaces
    first, second, opening = small.poles[0]
    every = spaces.over(space := spaces.of(range(len(small.circuit.digits))), space.full)
    left = as_guided(small, every)
    for state in states_of(small.circuit):
        closes = OPERATED in (state[first], state[second])
        assert (state in left) == (not (closes and state[opening] == RELEASED))
    both = spaces.where(first, (OPERATED,)) & spaces.where(opening, (RELEASED,))
    assert not as_guided(small, both)
    alone = spaces.where(first, (OPERATED,))
    assert as_guided(small, alone).same_as(alone)
