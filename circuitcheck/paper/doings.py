"""What a prop can be made to do: turn a motor one way, light a lamp, sound a buzzer, pull a solenoid."""

from collections.abc import Iterator
from typing import NamedTuple

from circuitcheck.analysis.devices import DRIVEN_SHARE, at_least
from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.hands import ON, lasting
from circuitcheck.analysis.sequels import hands_off
from circuitcheck.analysis.states import States, union
from circuitcheck.analysis.table import Cells, TruthTable, truth_table
from circuitcheck.circuit.model import Motor


class Doing(NamedTuple):
    """part: what does it, by name. word: what the truth table calls it ("forward", "reverse"), with "slow" or "fast"
    behind of a two-speed motor; "on" of all but motors.

    states: in which it is done. axis: the number in the circuit of what it moves, None for nothing; toward: the place
    to which it goes on a linear axis, else "".
    """

    part: str
    word: str
    states: States
    axis: int | None = None
    toward: str = ""


Tables = dict[str, TruthTable]
"""The truth table of each motor, by its name, with all supplies on: large boxes have none that is about all of them."""


def tables_of(facts: Facts) -> Tables:
    """TooWide or TooManyRows where the table of one of them is out of reach."""
    given: dict[int, tuple[int, ...]] = {supply.digit: (ON,) for supply in facts.circuit.supplies}
    return {motor.name: truth_table(facts, given, (number,)) for number, motor in enumerate(facts.circuit.motors)}


def doings(facts: Facts, tables: Tables) -> tuple[Doing, ...]:
    """Everything that operation ever does at rest, in the plan's order. What motors do is read off the truth table."""
    return tuple(one for one in (*_of_motors(facts, tables), *_of_lamps(facts)) if facts.reached_at_rest(one.states))


def _of_motors(facts: Facts, tables: Tables) -> Iterator[Doing]:
    for motor in facts.circuit.motors:
        for word, states in words_of(facts, motor.name).items():
            if is_driven(word) and any(column.get(word.split()[0]) for column in _columns(tables[motor.name])):
                yield Doing(motor.name, word, (states - facts.shorted).tight(), motor.axis, _toward(facts, motor, word))


def _columns(table: TruthTable) -> list[Cells]:
    return [outcome.motors[0] for outcome in (table.released, *table.held)]


def is_driven(word: str) -> bool:
    """Is it the word of a motor that turns?"""
    return word.split()[0] in ("forward", "reverse")


def words_of(facts: Facts, part: str) -> dict[str, States]:
    """What a motor, or a lamp, buzzer or solenoid, can do, each with its states; of a loose motor those that last."""
    for motor, does in zip(facts.circuit.motors, facts.motors, strict=True):
        if motor.name == part:
            return _by_speed(facts, motor, does.named(lasting(facts, does.loose)))
    number = next(number for number in facts.lamps if facts.circuit.loads[number].part == part)
    lamp = facts.lamps[number]
    return {"on": lamp.lit, "weak": lamp.glowing, "off": lamp.dark}


def _by_speed(facts: Facts, motor: Motor, words: dict[str, States]) -> dict[str, States]:
    """A two-speed motor is fast where its second winding is fed. Speeds are told apart where the controls decide which
    of them it is; where the way decides it, they are one doing."""
    if len(motor.windings) == 1:
        return words
    fed = facts.volts[motor.windings[1].load]
    fast = union(at_least(fed, DRIVEN_SHARE * motor.volts, facts.spaces), facts.spaces.none())
    driven = {word: states for word, states in words.items() if is_driven(word)}
    slow_and_fast = {f"{word} slow": states - fast for word, states in driven.items()}
    slow_and_fast |= {f"{word} fast": states & fast for word, states in driven.items()}
    if any(_set_alike(facts, slow_and_fast[f"{word} slow"], slow_and_fast[f"{word} fast"]) for word in driven):
        return words
    return slow_and_fast | {word: states for word, states in words.items() if word not in driven}


def _set_alike(facts: Facts, some: States, others: States) -> bool:
    """Do operation's rests in both sets have some setting of the controls in common?"""
    settings = []
    for states in (some, others):
        found = facts.reached_at_rest(states)
        for digit in found.space.digits:
            if facts.circuit.digits[digit].kind not in ("control", "outside"):
                found = found.turned(digit)
        settings.append(found)
    return bool(settings[0] & settings[1])


def _toward(facts: Facts, motor: Motor, word: str) -> str:
    axis = None if motor.axis is None else facts.circuit.axes[motor.axis]
    if axis is None or axis.turning:
        return ""
    return axis.places[-1] if motor.upward == word.startswith("forward") else axis.places[0]


def _of_lamps(facts: Facts) -> Iterator[Doing]:
    for number, does in facts.lamps.items():
        yield Doing(facts.circuit.loads[number].part, "on", (does.lit - facts.shorted).tight())


def told_by_table(facts: Facts, tables: Tables, doing: Doing) -> States:
    """Where the truth table says that a motor does this; of all else, and of speeds, where operation does it."""
    if doing.word not in ("forward", "reverse"):
        return facts.reached_at_rest(doing.states)
    columns = _columns(tables[doing.part])
    return union((column[doing.word] for column in columns if doing.word in column), facts.spaces.none())


def stops_at(facts: Facts, told: States, doing: Doing) -> str:
    """The place where what it moves stops though no control is touched; "" where it stops nowhere."""
    if doing.axis is None:
        return ""
    axis = facts.circuit.axes[doing.axis]
    digit = facts.circuit.digits[axis.digit]
    off = facts.spaces.over(told.space, hands_off(facts.circuit, told.space))
    let_go = told & off or told
    driven = [bool(let_go & facts.spaces.where(axis.digit, (zone,))) for zone in range(len(digit.values))]
    zones = list(range(axis.range[0], axis.range[1] + 1))
    if doing.toward == axis.places[0] and not axis.turning:
        zones.reverse()
    started = next((place for place, zone in enumerate(zones) if driven[zone]), len(zones))
    stopped = (digit.values[zone] for zone in (zones[started:] if not axis.turning else zones) if not driven[zone])
    return next(stopped, "")
