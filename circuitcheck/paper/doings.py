"""What a prop can be made to do: turn a motor one way, light a lamp, sound a buzzer, pull a solenoid."""

from collections.abc import Iterator
from typing import NamedTuple

from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.sequels import hands_off
from circuitcheck.analysis.states import States, union
from circuitcheck.analysis.table import TruthTable
from circuitcheck.circuit.model import Motor


class Doing(NamedTuple):
    """part: what does it, by name. word: what the truth table calls it ("forward", "reverse"), "on" of all but motors.

    states: in which it is done. axis: the number in the circuit of what it moves, None for nothing; toward: the place
    to which it goes on a linear axis, else "".
    """

    part: str
    word: str
    states: States
    axis: int | None = None
    toward: str = ""


def doings(facts: Facts, table: TruthTable) -> tuple[Doing, ...]:
    """Everything that operation ever does at rest, in the plan's order. What motors do is read off the truth table."""
    return tuple(one for one in (*_of_motors(facts, table), *_of_lamps(facts)) if facts.reached_at_rest(one.states))


def _of_motors(facts: Facts, table: TruthTable) -> Iterator[Doing]:
    for place, number in enumerate(table.motors):
        motor = facts.circuit.motors[number]
        for word in ("forward", "reverse"):
            told = (outcome.motors[place].get(word) for outcome in (table.released, *table.held))
            if any(told):
                states = facts.motors[number].named()[word] - facts.shorted
                yield Doing(motor.name, word, states.tight(), motor.axis, _toward(facts, motor, word))


def _toward(facts: Facts, motor: Motor, word: str) -> str:
    axis = None if motor.axis is None else facts.circuit.axes[motor.axis]
    if axis is None or axis.turning:
        return ""
    return axis.places[-1] if motor.upward == (word == "forward") else axis.places[0]


def _of_lamps(facts: Facts) -> Iterator[Doing]:
    for number, does in facts.lamps.items():
        yield Doing(facts.circuit.loads[number].part, "on", (does.lit - facts.shorted).tight())


def told_by_table(facts: Facts, table: TruthTable, doing: Doing) -> States:
    """Where the truth table says that a motor does this; of all else, where operation does it."""
    names = [facts.circuit.motors[number].name for number in table.motors]
    if doing.part not in names:
        return facts.reached_at_rest(doing.states)
    place, nothing = names.index(doing.part), facts.spaces.none()
    columns = (outcome.motors[place] for outcome in (table.released, *table.held))
    return union((column[doing.word] for column in columns if doing.word in column), nothing)


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
