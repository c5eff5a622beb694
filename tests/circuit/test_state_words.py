"""A state written in a call: what it means, and how slips are answered."""

import pytest

from circuitcheck.circuit.state_words import understand_state
from circuitcheck.plan.source import PlanError
from circuitcheck.plan.state_words import read_state
from tests.analysis.plans import circuit_of

CIRCUIT = circuit_of("""
supply PS 12 V 10 A
switch S1 spdt positions raise lower
relay  K1 spdt coil 12 V 160 ohm with diode
lamp   L1 12 V 2 W
axis   deck from bottom to top
limit  LS1 spdt on deck at top
""")


def understood(text: str) -> dict[str, str]:
    """The positions by name."""
    return understand_state(CIRCUIT, read_state(text))


def told(text: str) -> list[tuple[int, int, str, str]]:
    """Each problem: from which column to which, what, and what helps."""
    try:
        understood(text)
    except PlanError as error:
        return [(one.place.column, one.place.end_column, one.what, one.help) for one in error.problems]
    return []


@pytest.mark.parametrize(
    ("text", "meant"),
    [
        ("", {}),
        ("S1=raise", {"S1": "raise"}),
        (" S1 = lower ,deck=past  top ", {"S1": "lower", "deck": "past top"}),
        ("S1=between raise and lower, K1=operated", {"S1": "between raise and lower", "K1": "operated"}),
        ("S1=raise, S1=raise", {"S1": "raise"}),
    ],
)
def test_settings_name_digits_and_their_positions(text: str, meant: dict[str, str]) -> None:
    """Blanks don't matter; moments, relays and zones past an end may be named."""
    assert understood(text) == meant


@pytest.mark.parametrize(
    ("text", "problem"),
    [
        ("S1=raise, S2=raise", (11, 13, "no part S2", "Nearest: S1.")),
        ("S1=rise", (4, 8, "no position rise on S1", "Nearest: raise.")),
        ("deck=tap", (6, 9, "no place tap on deck", "Nearest: top.")),
        ("S1 raise", (1, 9, "S1 raise has no =", "Write it like S1=raise.")),
        ("PS=on, deck at top", (8, 19, "deck at top has no =", "Write it like deck=top.")),
        ("S1=", (1, 4, "S1= gives nothing a position", "Write it like S1=POSITION.")),
        ("S1=raise,,PS=on", (10, 11, "nothing between two commas", "Take one of them away.")),
        ("LS1=pressed", (1, 4, "LS1 has no positions of its own", "deck presses it: write e.g. deck=top.")),
        ("S1=raise, S1=lower", (14, 19, "S1=lower contradicts S1=raise",
                                "It stands in one position: take one of the two away.")),
    ],
)  # fmt: skip
def test_a_slip_is_told_with_its_place_and_what_would_do(text: str, problem: tuple[int, int, str, str]) -> None:
    """Near names are offered."""
    assert told(text) == [problem]


def test_what_follows_from_the_rest_has_no_position() -> None:
    """A lamp is told to name what it hangs on."""
    assert told("L1=lit")[0][3] == "A lamp follows from the rest: name a control, a supply, an axis or a relay."


def test_all_problems_are_told_at_once() -> None:
    """Each with its own place."""
    assert [what for _, _, what, _ in told("S2=raise, S1=rise")] == ["no part S2", "no position rise on S1"]
