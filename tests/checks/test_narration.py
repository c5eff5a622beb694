"""Conditions and states in words."""

import pytest

from circuitcheck.analysis.faults.fault import Fault
from circuitcheck.analysis.faults.shortest import FaultStory
from circuitcheck.analysis.single_state import Change, Story
from circuitcheck.analysis.supposed import Change as Supposed
from circuitcheck.checks.narration import (
    change_words,
    condition_words,
    example_words,
    fault_story_words,
    state_words,
    story_words,
)
from circuitcheck.checks.reading_back import read_back
from circuitcheck.circuit.stories import usual_beginning
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


EVERY_KIND = """
supply PS 12 V 10 A
switch S1 spdt positions raise off lower
button PB1 no
outside OUT1 contact
relay  K1 no pulse 2 s pause 1 s coil 12 V 160 ohm
relay  K2 no one-shot 2 s coil 12 V 160 ohm
relay  K3 no latching coil 12 V 160 ohm
axis   deck from bottom to top
motor  M1 12 V stall 4 A drives deck toward top
"""


def test_every_change_has_a_verb_of_its_own() -> None:
    """Whatever part it is that moves, to each of its values."""
    circuit = facts_of(EVERY_KIND).circuit
    told = [
        change_words(circuit, Change(number, 0, value, {}))
        for number, digit in enumerate(circuit.digits)
        for value in range(digit.radix)
    ]
    assert told == [
        "PS fails", "PS is switched on",
        "turn S1 to raise", "turn S1 to off", "turn S1 to lower", "S1 passes between raise and lower",
        "release PB1", "press PB1",
        "OUT1 turns off", "OUT1 turns on",
        "K1 releases", "K1 operates", "K1 pauses",
        "K2 releases", "K2 operates", "K2 ends its pulse",
        "K3 releases", "K3 operates",
        "deck moves past bottom", "deck moves to bottom", "deck moves between bottom and top", "deck moves to top",
        "deck moves past top",
    ]  # fmt: skip


def test_a_story_begins_with_everything_but_released_relays() -> None:
    """That a relay is released at power-up needs no telling; that one was left operated does."""
    circuit = facts_of(EVERY_KIND).circuit
    names = [digit.name for digit in circuit.digits]
    beginning = {names.index(name): value for name, value in (("PS", 0), ("PB1", 0), ("K1", 0), ("K3", 1))}
    told = story_words(circuit, Story(beginning, (Change(names.index("PS"), 0, 1, {}),)))
    assert told == ("begin with PS off, PB1 released, K3 operated", "PS is switched on")
    assert example_words(circuit, beginning) == {
        "PS": "off", "PB1": "released", "K1": "released", "K3": "operated",
    }  # fmt: skip


def test_a_control_that_sticks_is_worked_all_the_same() -> None:
    """Its number comes after those of all digits; what really moves is told as ever."""
    circuit = facts_of(EVERY_KIND).circuit
    names = [digit.name for digit in circuit.digits]
    first, second, axis = 0, names.index("S1"), names.index("deck")
    stuck = [Change(len(names) + digit, 0, 1, {}) for digit in (first, second)]
    after = (*stuck, Change(first, 0, 1, {}), Change(axis, 1, 2, {}))
    fault = Fault("contact does not open", "S1", "S1", "stuck", Supposed())
    told = fault_story_words(circuit, fault, FaultStory(Story({second: 0}, ()), after, {}))
    assert told == (
        "begin with S1 raise",
        f"fault: {fault.called}",
        "PS is switched on: it stays as it is",
        "turn S1 to off: it stays as it is",
        "PS is switched on",
        "deck moves between bottom and top",
    )


def test_what_is_told_of_a_story_can_be_read_back() -> None:
    """All that the first step doesn't name stands as usual; a step at which nothing of the plan moves is left open."""
    circuit = facts_of(EVERY_KIND).circuit
    names = [digit.name for digit in circuit.digits]
    moves = [(names.index("PB1"), 1), (names.index("K1"), 1), (names.index("deck"), 2)]
    begun = usual_beginning(circuit) | {names.index("S1"): 2, names.index("K3"): 1}
    told = story_words(circuit, Story(begun, tuple(Change(digit, 0, value, {}) for digit, value in moves)))
    assert read_back(circuit, told) == (begun, moves)
    assert read_back(circuit, ["begin with S1 lower, K3 operated", "K2 sticks", told[1]]) == (begun, [None, moves[0]])
    assert read_back(circuit, ["begin with anything"]) == (usual_beginning(circuit), [])
