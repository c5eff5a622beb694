"""How each doing of a prop is begun and ended by hand: what the operating card is made of.

What must be set for it is read off the truth table; how it is begun is a shortest story from a prop that was just
switched on; what follows of each control, let go or turned, and of a power failure, is worked out from every state of
operation in which it is being done.
"""

from typing import NamedTuple

from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.hands import OFF, after_turning, after_waiting, story_by_hand
from circuitcheck.analysis.single_state import Change
from circuitcheck.analysis.states import States
from circuitcheck.paper.doings import Doing, Tables, stops_at, told_by_table, words_of
from circuitcheck.paper.running_on import RunsOn, runs_on


class Start(NamedTuple):
    """One step of how it is begun. digit, value: what is turned, or moves by itself. seconds: how long a timer takes
    over it. held: a hand must stay on the control, or the doing ends."""

    digit: int
    value: int
    seconds: float = 0.0
    held: bool = False


class Turned(NamedTuple):
    """What the part does at rest after a control or a supply was turned while the doing went on: its words, more than
    one where that hangs on something else. until: where it stops then, if it first goes on."""

    digit: int
    value: int
    words: frozenset[str]
    until: tuple[str, ...] = ()


class Handled(NamedTuple):
    """needs: the controls and outside contacts, by digit, that must be at one of these values. starts: None where it
    can't be told. stops_at: where what is moved stops by itself, "" for nowhere. turned: by each control and supply.
    waited: what the part does in the end when nothing is touched: something else where a timer ends it. runs_on: how
    far it still goes after what ends it, where the plan's figures tell."""

    doing: Doing
    needs: tuple[tuple[int, tuple[int, ...]], ...]
    starts: tuple[Start, ...] | None
    stops_at: str
    turned: tuple[Turned, ...]
    waited: frozenset[str]
    runs_on: RunsOn


def handled(facts: Facts, tables: Tables, doing: Doing) -> Handled:
    """All that a card says of one doing."""
    told = told_by_table(facts, tables, doing)
    turned = _turned(facts, doing)
    needs, starts = _needs(facts, told), _starts(facts, doing, turned)
    end, waited = stops_at(facts, told, doing), _waited(facts, doing)
    return Handled(doing, needs, starts, end, turned, waited, runs_on(facts, doing))


def _needs(facts: Facts, told: States) -> tuple[tuple[int, tuple[int, ...]], ...]:
    found = []
    for number in told.space.digits:
        digit = facts.circuit.digits[number]
        values = range(len(digit.values))
        possible = tuple(value for value in values if told & facts.spaces.where(number, (value,)))
        if digit.kind in ("control", "outside") and len(possible) < len(values):
            found.append((number, possible))
    return tuple(found)


def _turned(facts: Facts, doing: Doing) -> tuple[Turned, ...]:
    digits = facts.behaviour(doing.states.space.digits).space.digits
    found = []
    for number in digits:
        digit = facts.circuit.digits[number]
        values = {"control": range(len(digit.values)), "outside": range(len(digit.values)), "supply": (OFF,)}
        for value in values.get(digit.kind, ()):
            one = _after(facts, doing, number, value)
            if one.words:
                found.append(one)
    return tuple(found)


def _waited(facts: Facts, doing: Doing) -> frozenset[str]:
    words = words_of(facts, doing.part)
    after = after_waiting(facts, doing.states, {number for states in words.values() for number in states.space.digits})
    return frozenset(word for word, states in words.items() if states & after)


def _after(facts: Facts, doing: Doing, digit: int, value: int) -> Turned:
    words = words_of(facts, doing.part)
    elsewhere = _one_hand(facts, doing.states - facts.spaces.where(digit, (value,)), digit)
    asked = {number for states in words.values() for number in states.space.digits}
    after = after_turning(facts, elsewhere, digit, value, asked)
    met = {word: states & after for word, states in words.items()}
    said = frozenset(word for word, states in met.items() if states)
    until: tuple[str, ...] = ()
    if doing.axis is not None and doing.word in said and len(said) > 1:
        axis = facts.circuit.axes[doing.axis]
        zones = facts.circuit.digits[axis.digit].values
        going = [bool(met[doing.word] & facts.spaces.where(axis.digit, (zone,))) for zone in range(len(zones))]
        within = range(axis.range[0], axis.range[1] + 1)
        until = tuple(zones[zone] for zone in within if not going[zone])
    return Turned(digit, value, said, until)


def _one_hand(facts: Facts, states: States, digit: int) -> States:
    """Those of the states in which all other controls that spring back have been let go, as far as the doing goes on
    so. A supply or an emergency stop is told whatever else is pressed."""
    turned = facts.circuit.digits[digit]
    if turned.kind == "supply" or facts.circuit.parts[turned.name].kind == "estop":
        return states
    for number, other in enumerate(facts.circuit.digits):
        if other.springs_to is not None and number != digit:
            let_go = states & facts.spaces.where(number, (other.springs_to,))
            states = let_go if facts.reached_at_rest(let_go) else states
    return states


def _starts(facts: Facts, doing: Doing, turned: tuple[Turned, ...]) -> tuple[Start, ...] | None:
    story = story_by_hand(facts, doing.states)
    if story is None:
        return None
    found = (_start(facts, doing, turned, change) for change in story.changes)
    return tuple(one for one in found if one)


def _start(facts: Facts, doing: Doing, turned: tuple[Turned, ...], change: Change) -> Start | None:
    """A hand's change, a timer's or an axis'; relays that just follow are none of the borrower's business."""
    digit = facts.circuit.digits[change.digit]
    if change.end >= len(digit.values):
        return None
    if digit.kind == "relay":
        relay = next(one for one in facts.circuit.relays if one.digit == change.digit)
        timed = any(
            move.timed and (move.start, move.end) == (change.start, change.end)
            for move in facts.moves[facts.circuit.relays.index(relay)]
        )
        return Start(change.digit, change.end, relay.seconds_at(change.start)) if timed else None
    let_go = [one for one in turned if one.digit == change.digit and one.value == digit.springs_to]
    held = digit.springs_to not in (None, change.end) and any(doing.word not in one.words for one in let_go)
    return Start(change.digit, change.end, held=held)
