"""Conditions and states in words."""

import pytest

from circuitcheck.checks.narration import condition_words, state_words
from tests.reference.asking import facts_of

BOX = """
supply PS 12 V 10 A
switch S1 spdt positions raise off lower
button PB1 no
axis   deck from bottom via middle to top
motor  M1 12 V stall 4 A drives deck toward top
lamp   L1 12 V 2 W
"""


@pytest.mark.parametrize(
    "words",
    [
        "M1 stopped",
        "not M1 stopped",
        "deck past middle",
        "deck at top and L1 lit",
        "M1 forward or M1 reverse or L1 lit",
        "M1 stopped and (L1 lit or PB1 pressed)",
        "(M1 stopped and L1 lit) or not PB1 pressed",
        "not (M1 stopped and L1 lit)",
        "not (M1 stopped or L1 lit) and PB1 pressed",
    ],
)
def test_a_condition_is_told_as_the_plan_words_it(words: str) -> None:
    """With brackets where and and or meet."""
    (promise,) = facts_of(f"{BOX}expect {words}").circuit.promises
    assert condition_words(promise.condition) == words


def test_a_state_is_told_digit_by_digit() -> None:
    """An axis stands at a place, past it or between two; nothing named is anything."""
    circuit = facts_of(BOX).circuit
    number = {digit.name: place for place, digit in enumerate(circuit.digits)}
    zones = circuit.digits[number["deck"]].values
    told = [state_words(circuit, {number["S1"]: 2, number["deck"]: zone}) for zone in range(len(zones))]
    places = ["past bottom", "at bottom", "between bottom and middle", "at middle", "between middle and top", "at top"]
    assert told == [f"S1 lower, deck {place}" for place in [*places, "past top"]]
    assert state_words(circuit, {}) == "anything"
