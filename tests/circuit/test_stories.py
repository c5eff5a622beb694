"""Stories that ask for what can't be: each is told with its place, what it is, and what would do."""

from pathlib import Path

import pytest

from circuitcheck.circuit.building import build_circuit
from circuitcheck.circuit.stories import Drive, Plot, Prefer, Run, Wait, Work, understand_story
from circuitcheck.plan.reading import read_text
from circuitcheck.plan.source import PlanError, Problem
from circuitcheck.plan.story_lines import read_story

PROP = """
supply PS 12 V 10 A
fuse   F1 10 A
switch S1 spdt positions raise lower
button PB1 no
outside OUT1 contact
relay  K1 spdt coil 12 V 160 ohm with diode
relay  K2 spdt on-delay 3 s coil 12 V 160 ohm with diode
relay  K3 spdt latching coil 12 V 160 ohm
lamp   L1 12 V 2 W
axis   deck from bottom via middle to top
axis   gate from shut to open
limit  LS1 spdt on deck at top
motor  M1 12 V stall 18 A drives deck toward top
"""
CIRCUIT = build_circuit(read_text("prop.plan", PROP))
DIGITS = {digit.name: number for number, digit in enumerate(CIRCUIT.digits)}


def understood(begin: str, *actions: str) -> Plot:
    """A story given in the call."""
    return understand_story(CIRCUIT, read_story(None, [begin] if begin else [], actions))


def problems_of(begin: str, *actions: str) -> tuple[Problem, ...]:
    """Every problem of a story, () if there is none."""
    try:
        understood(begin, *actions)
    except PlanError as error:
        return error.problems
    return ()


def test_what_no_setting_names_begins_as_usual() -> None:
    """Supplies on, relays released, axes at their first place, all else at its first position."""
    words = {CIRCUIT.digits[number].name: value for number, value in understood("").beginning.items()}
    assert words == {"PS": 1, "S1": 0, "PB1": 0, "OUT1": 0, "K1": 0, "K2": 0, "K3": 0, "deck": 1, "gate": 1}


def test_settings_say_how_it_begins() -> None:
    """A latching relay remembers, so that it may begin operated; an axis may stand between two places."""
    beginning = understood("PS off, S1 lower, deck between bottom and middle, K3 operated, gate at open").beginning
    assert {name: beginning[DIGITS[name]] for name in ("PS", "S1", "deck", "K3", "gate")} == {
        "PS": 0,
        "S1": 1,
        "deck": 2,
        "K3": 1,
        "gate": 3,
    }


def test_actions_are_understood_in_order() -> None:
    """Every kind of action, on one line or on several."""
    actions = understood("", "S1 lower slowly, press PB1", "OUT1 on", "run", "run deck 2 zones", "deck to top", "wait",
                         "wait K2", "K1 first").actions  # fmt: skip
    assert [action[:-1] for action in actions] == [
        Work(DIGITS["S1"], 1, True, actions[0].phrase)[:-1],
        Work(DIGITS["PB1"], 1, False, actions[0].phrase)[:-1],
        Work(DIGITS["OUT1"], 1, False, actions[0].phrase)[:-1],
        Run((DIGITS["deck"], DIGITS["gate"]), 0, actions[0].phrase)[:-1],
        Run((DIGITS["deck"],), 2, actions[0].phrase)[:-1],
        Drive(DIGITS["deck"], 5, actions[0].phrase)[:-1],
        Wait((DIGITS["K2"],), actions[0].phrase)[:-1],
        Wait((DIGITS["K2"],), actions[0].phrase)[:-1],
        Prefer(DIGITS["K1"], actions[0].phrase)[:-1],
    ]


@pytest.mark.parametrize(
    ("action", "pointed", "what", "help"),
    [
        ("K1 operated", "K1 operated", "K1 operated is nothing that a hand can do", "work what feeds it"),
        ("press K1", "press K1", "press K1 is nothing that a hand can do", "work what feeds it"),
        ("S1 rise", "rise", "no position rise at S1", "Nearest: raise."),
        ("S1 up", "up", "no position up at S1", "S1 can be raise or lower."),
        ("S1", "S1", "nothing says where S1 goes", "S1 can be raise or lower."),
        ("S1 between raise and lower", "S1 between raise and lower", "S1 can't stay between raise and lower", "slowly"),
        ("S9 raise", "S9", "no part S9", "Nearest: S1."),
        ("raise S1", "raise", "no part raise", "The name comes first: `S1 raise`."),
        ("turn S1 to raise", "turn", "no part turn", "The name comes first: `S1 raise`."),
        ("deck to topp", "topp", "no place topp on deck", "Nearest: top."),
        ("deck at top", "deck at top", "deck at top is nothing that can be done", "`deck to top`"),
        ("gate to open", "gate", "no motor drives gate", "drives gate toward PLACE"),
        ("run gate", "gate", "no motor drives gate", "begin"),
        ("run S1", "S1", "S1 is no axis", "There is deck gate."),
        ("run deck 0 zones", "0", "run deck 0 zones says no number of zones", "`run deck 2 zones`"),
        ("wait K1", "wait K1", "wait K1 waits for no timing relay", "Nearest: K2."),
        ("LS1 pressed", "LS1", "LS1 is nothing that can be worked", "`deck to top`"),
        ("M1 forward", "M1", "M1 is nothing that can be worked", "`run deck`"),
        ("L1 lit", "L1", "L1 is nothing that can be worked", "A lamp follows from the rest"),
        ("F1 off", "F1", "F1 is nothing that can be worked", "A fuse follows from the rest"),
        ("S1 lower,", ",", "nothing after the last comma", "take it away"),
        (", S1 lower", ",", "nothing before a comma", "Take the comma away."),
    ],
)
def test_an_action_that_cannot_be_is_told_with_what_would_do(action: str, pointed: str, what: str, help: str) -> None:
    """At its place in the call, the number of the --do as its line."""
    (problem,) = problems_of("", "S1 lower", action)
    assert (problem.place.file, problem.place.line) == ("--do", 2)
    assert action[problem.place.column - 1 : problem.place.end_column - 1] == pointed
    assert problem.what == what
    assert help in problem.help


@pytest.mark.parametrize(
    ("setting", "what", "help"),
    [
        ("K1 operated", "K1 can't begin in a position of its own", "Every relay is released when power comes up"),
        ("deck past top", "deck can't begin past top", "between its ends"),
        ("deck at roof", "no place roof on deck", "deck can be past bottom, bottom, between bottom and middle"),
        ("X1 on", "no part X1", "Nearest: S1."),
    ],
)
def test_a_beginning_that_cannot_be_is_told(setting: str, what: str, help: str) -> None:
    """Only what power-up can find."""
    (problem,) = problems_of(setting)
    assert problem.what == what
    assert help in problem.help


def test_contradictory_settings_are_told_with_both_places() -> None:
    """Of one thing, in two positions."""
    (problem,) = problems_of("S1 raise, PS on, S1 lower")
    assert problem.what == "S1 lower contradicts S1 raise"
    assert [place.column for place, _ in problem.also] == [1]


def test_the_same_setting_twice_contradicts_nothing() -> None:
    """Whoever says it in the story and again in the call means the same."""
    assert problems_of("S1 lower, S1 lower") == ()


def test_a_story_file_gives_settings_and_actions_and_the_call_goes_on(tmp_path: Path) -> None:
    """Comments and blank lines are silent; `begin with` reads as findings tell it."""
    story = tmp_path / "a.story"
    story.write_text("# a story\n\nbegin with S1 lower, PS off\nPS on  # power\n", encoding="utf-8")
    text = read_story(story, ["PB1 pressed"], ["S1 raise"])
    assert [phrase.text for phrase in text.beginning] == ["S1 lower", "PS off", "PB1 pressed"]
    assert [phrase.text for phrase in text.actions] == ["PS on", "S1 raise"]


@pytest.mark.parametrize(
    ("content", "what", "help"),
    [
        (b"", "is empty", "A story begins like: begin PS on, S1 lower"),
        (b"S1 raise\nbegin PS on\n", "begin after the first action", "Settings stand before all actions."),
        (b"S1 \xff\n", "the byte FF is not UTF-8", "UTF-8"),
    ],
)
def test_a_story_file_that_cannot_be_read_is_told(tmp_path: Path, content: bytes, what: str, help: str) -> None:
    """Like a plan's file."""
    story = tmp_path / "a.story"
    story.write_bytes(content)
    with pytest.raises(PlanError) as raised:
        read_story(story, (), ())
    (problem,) = raised.value.problems
    assert what in problem.what
    assert help in problem.help


def test_a_story_file_that_is_not_there_is_told_with_its_neighbours(tmp_path: Path) -> None:
    """The nearest name in the folder."""
    (tmp_path / "raise.story").write_text("run\n", encoding="utf-8")
    with pytest.raises(PlanError) as raised:
        read_story(tmp_path / "rise.story", (), ())
    assert raised.value.problems[0].help == "Nearest in that folder: raise.story."
