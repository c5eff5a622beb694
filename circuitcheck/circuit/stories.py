"""What a story means in a circuit: its phrases as positions of digits, or what is wrong with them.

A person can work a control, a supply or an outside contact, let driven axes move, and wait for timers. All else follows
from that, so that whoever asks for it by name is told what moves it.
"""

import re
from typing import NamedTuple

from circuitcheck.circuit.model import Circuit, Digit
from circuitcheck.circuit.story_names import Unclear, digit_number, value_of
from circuitcheck.circuit.wording import suggestion
from circuitcheck.plan.source import PlanError, Problem
from circuitcheck.plan.story_lines import Phrase, StoryText
from circuitcheck.plan.syntax import Word

_ZONES = re.compile(r"([1-9][0-9]{0,3})(?: zones?)?", re.ASCII)


class Work(NamedTuple):
    """Brings digit number `digit` to `value`. slowly: relays settle while a switch is between its positions."""

    digit: int
    value: int
    slowly: bool
    phrase: Phrase


class Drive(NamedTuple):
    """Lets the axis of digit number `digit` move until it stands in `zone`."""

    digit: int
    zone: int
    phrase: Phrase


class Run(NamedTuple):
    """Lets the axes of these digits move, until nothing drives them or so many zones are passed (0: no matter)."""

    digits: tuple[int, ...]
    zones: int
    phrase: Phrase


class Wait(NamedTuple):
    """Lets the times of these relays (by their digits) run out, one after the other."""

    digits: tuple[int, ...]
    phrase: Phrase


class Prefer(NamedTuple):
    """From here on the relay of digit number `digit` is the quickest."""

    digit: int
    phrase: Phrase


Action = Work | Drive | Run | Wait | Prefer


class Plot(NamedTuple):
    """A story understood. beginning: every digit's value; actions in order."""

    beginning: dict[int, int]
    actions: tuple[Action, ...]


def understand_story(circuit: Circuit, story: StoryText) -> Plot:
    """The story's settings and actions. Raises PlanError with every problem.

    What no setting names begins so: supplies on, relays released, axes and all else at their first place or position.
    """
    problems: list[Problem] = []
    beginning = _beginning(circuit, story.beginning, problems)
    actions: list[Action] = []
    for phrase in story.actions:
        try:
            actions.append(_action(circuit, phrase))
        except Unclear as unclear:
            problems.append(unclear.problem)
    if problems:
        raise PlanError(tuple(problems), story.sources)
    return Plot(beginning, tuple(actions))


def usual_beginning(circuit: Circuit) -> dict[int, int]:
    """Supplies on, relays released, axes at their first place, all else at its first position."""
    beginning = {number: int(digit.kind == "supply") for number, digit in enumerate(circuit.digits)}
    return beginning | {axis.digit: axis.range[0] for axis in circuit.axes}


def _beginning(circuit: Circuit, settings: tuple[Phrase, ...], problems: list[Problem]) -> dict[int, int]:
    given: dict[int, tuple[int, Phrase]] = {}
    for phrase in settings:
        try:
            number, value = _setting(circuit, phrase)
        except Unclear as unclear:
            problems.append(unclear.problem)
            continue
        before, first = given.setdefault(number, (value, phrase))
        if before != value:
            what = f"{phrase.text} contradicts {first.text}"
            also = ((first.place, f"{first.words[0].text} is first set here."),)
            problems.append(Problem(phrase.place, what, "It begins in one position: take one of the two away.", also))
    return usual_beginning(circuit) | {number: value for number, (value, _) in given.items()}


def _setting(circuit: Circuit, phrase: Phrase) -> tuple[int, int]:
    name, *rest = phrase.words
    number = digit_number(circuit, name)
    digit = circuit.digits[number]
    if digit.kind == "relay" and not _latches(circuit, number):
        help = f"Every relay is released when power comes up; set what operates {name.text}, and it operates by itself."
        raise Unclear(phrase.place, f"{name.text} can't begin in a position of its own", help)
    rest = rest[1:] if digit.kind == "axis" and len(rest) > 1 and rest[0].text == "at" else rest
    value = value_of(digit, phrase, rest)
    axis = next((one for one in circuit.axes if one.digit == number), None)
    if axis is not None and not axis.range[0] <= value <= axis.range[1]:
        help = (
            f"Power comes up with {name.text} between its ends or at one of them; what drives it past one is told then."
        )
        raise Unclear(phrase.place, f"{name.text} can't begin {digit.values[value]}", help)
    return number, value


def _action(circuit: Circuit, phrase: Phrase) -> Action:
    name, *rest = phrase.words
    known = {digit.name for digit in circuit.digits}
    if name.text in ("press", "release") and name.text not in known and rest:
        number = digit_number(circuit, rest[0])
        words = [Word({"press": "pressed", "release": "released"}[name.text], phrase.place), *rest[1:]]
        return Work(number, value_of(_workable(circuit, number, phrase), phrase, words), False, phrase)
    if name.text == "run" and name.text not in known:
        return _run(circuit, phrase, rest)
    if name.text == "wait" and name.text not in known:
        return _wait(circuit, phrase, rest)
    return _turn(circuit, phrase, digit_number(circuit, name, tuple(rest)), rest)


def _turn(circuit: Circuit, phrase: Phrase, number: int, rest: list[Word]) -> Action:
    digit = circuit.digits[number]
    if digit.kind == "axis":
        return _drive(circuit, phrase, number, rest)
    if digit.kind == "relay" and [word.text for word in rest] == ["first"]:
        return Prefer(number, phrase)
    slowly = len(rest) > 1 and rest[-1].text == "slowly"
    value = value_of(_workable(circuit, number, phrase), phrase, rest[:-1] if slowly else rest)
    return Work(number, value, slowly, phrase)


def _drive(circuit: Circuit, phrase: Phrase, number: int, rest: list[Word]) -> Drive:
    name = circuit.digits[number].name
    _must_be_driven(circuit, number, phrase.words[0])
    if len(rest) < 2 or rest[0].text != "to":
        place = circuit.digits[number].values[-1].removeprefix("past ")
        help = (
            f"Write e.g. `{name} to {place}`, `run {name}` or `run {name} 1 zone`: it moves where its motor drives it."
        )
        raise Unclear(phrase.place, f"{phrase.text} is nothing that can be done", help)
    return Drive(number, value_of(circuit.digits[number], phrase, rest[1:]), phrase)


def _run(circuit: Circuit, phrase: Phrase, rest: list[Word]) -> Run:
    if not rest:
        return Run(tuple(axis.digit for axis in circuit.axes), 0, phrase)
    number = digit_number(circuit, rest[0])
    if circuit.digits[number].kind != "axis":
        axes = [axis.name for axis in circuit.axes]
        raise Unclear(rest[0].place, f"{rest[0].text} is no axis", suggestion(rest[0].text, axes))
    _must_be_driven(circuit, number, rest[0])
    if len(rest) == 1:
        return Run((number,), 0, phrase)
    counted = _ZONES.fullmatch(" ".join(word.text for word in rest[1:]))
    if counted is None:
        help = f"Write e.g. `run {rest[0].text} 2 zones`."
        raise Unclear(rest[1].place, f"{phrase.text} says no number of zones", help)
    return Run((number,), int(counted[1]), phrase)


def _wait(circuit: Circuit, phrase: Phrase, rest: list[Word]) -> Wait:
    timers = {relay.digit: relay.name for relay in circuit.relays if relay.delay_seconds}
    if not rest:
        return Wait(tuple(timers), phrase)
    number = digit_number(circuit, rest[0])
    if number not in timers or rest[1:]:
        help = suggestion(rest[0].text, timers.values()) if timers else "No relay of this plan has a time."
        raise Unclear(
            phrase.place, f"{phrase.text} waits for no timing relay", f"Write `wait` alone, or its relay. {help}"
        )
    return Wait((number,), phrase)


def _must_be_driven(circuit: Circuit, number: int, name: Word) -> None:
    axis = next(place for place, one in enumerate(circuit.axes) if one.digit == number)
    if all(motor.axis != axis for motor in circuit.motors):
        help = "Set where it stands with `begin`, or say at a motor: `drives " + f"{name.text} toward PLACE`."
        raise Unclear(name.place, f"no motor drives {name.text}", help)


def _workable(circuit: Circuit, number: int, phrase: Phrase) -> Digit:
    """The digit, which a person or the world can work; a relay is worked by its coil."""
    digit = circuit.digits[number]
    if digit.kind == "relay":
        help = (
            f"{digit.name} moves when its coil is fed; work what feeds it. `{digit.name} first` makes it the quickest."
        )
        raise Unclear(phrase.place, f"{phrase.text} is nothing that a hand can do", help)
    return digit


def _latches(circuit: Circuit, number: int) -> bool:
    return any(relay.digit == number and relay.function == "latching" for relay in circuit.relays)
