"""What a hand switch passes through between its positions."""

from collections.abc import Callable

from circuitcheck.circuit.model import Circuit, Digit

Build = Callable[[str], Circuit]


def closed_pairs(circuit: Circuit, value: int) -> set[str]:
    """Names of the contacts that are closed at a value of the only digit."""
    return {one.name for one in circuit.conductors if one.closed and value in one.closed.values}


def moments(digit: Digit) -> dict[str, set[tuple[str, str]]]:
    """The digit's moments by name, each with its moves in words."""
    return {
        moment.name: {(digit.values[start], digit.values[end]) for start, end in moment.moves}
        for moment in digit.moments
    }


def test_an_on_off_switch_needs_no_moment(build: Build) -> None:
    """On its way everything is open, as in its off position."""
    assert build("switch S1 spst positions off on").digits[0].moments == ()


def test_a_changeover_is_open_for_a_moment_between_its_positions(build: Build) -> None:
    """Break before make: the old throw is left before the new one is met."""
    circuit = build("switch S1 spdt positions raise lower")
    assert moments(circuit.digits[0]) == {"between raise and lower": {("raise", "lower"), ("lower", "raise")}}
    assert closed_pairs(circuit, 2) == set()


def test_a_centre_off_switch_has_a_moment_only_from_side_to_side(build: Build) -> None:
    """From a side to the centre all is open at the end anyway."""
    circuit = build("switch S1 spdt positions raise off lower")
    assert moments(circuit.digits[0]) == {"between raise and lower": {("raise", "lower"), ("lower", "raise")}}


def test_all_moves_of_a_rotary_switch_share_one_open_moment(build: Build) -> None:
    """Whichever throws a break-before-make switch goes between, it has none on the way."""
    circuit = build("switch S1 2 poles 4 ways positions off low mid high")
    (moves,) = moments(circuit.digits[0]).values()
    assert moves == {(a, b) for a in ("low", "mid", "high") for b in ("low", "mid", "high") if a != b}


def test_a_make_before_break_switch_has_both_throws_for_a_moment(build: Build) -> None:
    """Each pair of positions has a moment of its own, in which both are joined."""
    circuit = build("switch S1 1 pole 3 ways make-before-break positions low mid high")
    digit = circuit.digits[0]
    assert list(moments(digit)) == ["between low and mid", "between low and high", "between mid and high"]
    assert closed_pairs(circuit, 3) == {"S1.com-low", "S1.com-mid"}
    assert closed_pairs(circuit, 5) == {"S1.com-mid", "S1.com-high"}


def test_a_make_before_break_switch_leaves_off_without_a_moment(build: Build) -> None:
    """What off and a position have together is what the position has."""
    assert build("switch S1 spst make-before-break positions off on").digits[0].moments == ()


def test_a_changeover_button_is_open_for_a_moment(build: Build) -> None:
    """Between released and pressed, 11 touches neither 12 nor 14."""
    circuit = build("button PB1 spdt")
    assert list(moments(circuit.digits[0])) == ["between released and pressed"]
    assert closed_pairs(circuit, 2) == set()


def test_a_button_with_separate_contacts_needs_no_moment(build: Build) -> None:
    """A contact that only opens or only closes has no third state."""
    assert build("button PB1 nc no").digits[0].moments == ()
