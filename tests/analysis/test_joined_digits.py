"""Two switches as one digit: at each of its values either box has its contacts as its own switch would."""

from itertools import product

import pytest

from circuitcheck.analysis.side_by_side import side_by_side
from circuitcheck.circuit.model import Circuit, Digit
from tests.analysis.plans import circuit_of

SWITCHES = (
    "spdt positions raise lower",
    "spdt positions lower raise",
    "spdt positions raise off lower",
    "spdt positions raise lower make-before-break",
    "spdt positions lower off raise momentary",
)
AXES = ("from low to high", "from low via middle to high", "from low via half middle to high")


def box(switch: str) -> Circuit:
    """A lamp behind either position of a switch."""
    return circuit_of(f"""
supply PS 12 V 10 A
switch S1 {switch}
lamp   L1 L2 12 V 2 W
rung   PS.+, S1.com-raise, L1, PS.-
rung   PS.+, S1.com-lower, L2, PS.-
""")


def switch_of(circuit: Circuit) -> Digit:
    """The digit of S1."""
    return next(digit for digit in circuit.digits if digit.name == "S1")


def own_values(joined: Digit, own: Digit) -> list[int | None]:
    """For each value of the digit for two, where that one switch stands: by names of positions and moves between."""

    def at(place: int) -> int | None:
        return own.values.index(joined.values[place]) if joined.values[place] in own.values else None

    found = [at(place) for place in range(len(joined.values))]
    for moment in joined.moments:
        start, end = min(moment.moves)
        passed = [number for number, one in enumerate(own.moments) if (at(start), at(end)) in one.moves]
        found.append(len(own.values) + passed[0] if passed else at(start))
    return found


def closed_at(circuit: Circuit, value: int | None) -> list[bool]:
    """Which of the switch's contacts are closed."""
    return [value in one.closed.values for one in circuit.conductors if one.part == "S1" and one.closed]


@pytest.mark.parametrize(("before", "after"), list(product(SWITCHES, repeat=2)))
def test_two_switches_worked_as_one_have_their_contacts_as_each_by_itself(before: str, after: str) -> None:
    """Positions by name, moments by what they lie between; a position that one lacks leaves its contacts open."""
    old, new = box(before), box(after)
    laid = side_by_side(old, new, {name: name for name in old.parts}, relays_together=True)
    joined = switch_of(laid.old)
    assert joined == switch_of(laid.new)
    assert set(joined.values) == {*switch_of(old).values, *switch_of(new).values}
    for own, circuit in ((old, laid.old), (new, laid.new)):
        for value, mine in enumerate(own_values(joined, switch_of(own))):
            assert closed_at(circuit, value) == closed_at(own, mine)


@pytest.mark.parametrize(("before", "after"), list(product(SWITCHES, repeat=2)))
def test_two_switches_worked_as_one_pass_whatever_either_passes(before: str, after: str) -> None:
    """Between two positions there is a moment if one of them has one, and it is called what that one calls it."""
    old, new = switch_of(box(before)), switch_of(box(after))
    laid = side_by_side(box(before), box(after), {"S1": "S1"}, relays_together=True)
    joined = switch_of(laid.old)
    for start, end in product(range(len(joined.values)), repeat=2):
        names = {
            moment.name
            for own in (old, new)
            for moment in own.moments
            if joined.values[start] in own.values and joined.values[end] in own.values
            if (own.values.index(joined.values[start]), own.values.index(joined.values[end])) in moment.moves
        }
        told = [moment.name for moment in joined.moments if (start, end) in moment.moves]
        assert len(told) == bool(names)
        assert set(told) <= names


@pytest.mark.parametrize(("before", "after"), list(product(AXES, repeat=2)))
def test_of_two_axes_the_one_with_more_places_gives_the_zones(before: str, after: str) -> None:
    """A limit at a place of both is pressed in the same zones, whichever box it is in."""
    limits = "limit LS1 nc on deck at low\nlimit LS2 nc on deck at high\n"
    old, new = (circuit_of(f"supply PS 12 V 1 A\naxis deck {axis}\n{limits}") for axis in (before, after))
    laid = side_by_side(old, new, {name: name for name in old.parts}, relays_together=True)
    finer = old if len(old.axes[0].places) >= len(new.axes[0].places) else new
    zones = len(next(digit for digit in finer.digits if digit.kind == "axis").values)
    assert [len(digit.values) for digit in laid.old.digits if digit.kind == "axis"] == [zones]
    for circuit in (laid.old, laid.new):
        assert [one.zones for one in circuit.limits] == [one.zones for one in finer.limits]
        assert circuit.axes[0].range == (1, zones - 2)


@pytest.mark.parametrize(
    "after",
    [
        "from low via half to top",
        "from base via half to high",
        "from base via low to high",
        "from low via high to top",
        "turning through low high",
    ],
)
def test_two_axes_whose_ends_differ_are_two(after: str) -> None:
    """Then nobody can say where the one stands when the other is somewhere; one that turns has no ends at all."""
    old, new = (circuit_of(f"supply PS 12 V 1 A\naxis deck {axis}\n") for axis in ("from low to high", after))
    laid = side_by_side(old, new, {"deck": "deck", "PS": "PS"}, relays_together=True)
    assert [digit.kind for digit in laid.old.digits] == ["supply", "axis", "axis"]
