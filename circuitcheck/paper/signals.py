"""What a lamp or buzzer tells: something that holds exactly while it is on, at every rest that operation reaches."""

from collections.abc import Iterator
from typing import NamedTuple

from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.hands import ON
from circuitcheck.analysis.states import States, TooWide, union
from circuitcheck.paper.doings import Doing


class Signal(NamedTuple):
    """A lamp or buzzer, by its part's name, is on exactly while any of `motors` is driven, or while a `doing` goes on,
    or while `supply` is; of these one is given."""

    part: str
    motors: tuple[str, ...] = ()
    doing: Doing | None = None
    supply: str = ""


def signals(facts: Facts, doings: tuple[Doing, ...]) -> tuple[Signal, ...]:
    """Of each lamp and buzzer the first of its meanings that holds; those that have none are left out."""
    found = []
    for one in doings:
        if facts.circuit.parts[one.part].kind in ("lamp", "buzzer"):
            meant = (signal for signal, states in _meanings(facts, doings, one.part) if _alike(facts, one, states))
            found += list(meant)[:1]
    return tuple(found)


def _meanings(facts: Facts, doings: tuple[Doing, ...], part: str) -> Iterator[tuple[Signal, list[States]]]:
    """What it may mean, with the sets that make up when this holds."""
    moving = [one for one in doings if one.word != "on"]
    if moving:
        motors = tuple(dict.fromkeys(one.part for one in moving))
        yield Signal(part, motors=motors), [one.states for one in moving]
    for one in moving:
        yield Signal(part, doing=one), [one.states]
    for supply in facts.circuit.supplies:
        yield Signal(part, supply=supply.name), [facts.spaces.where(supply.digit, (ON,))]


def _alike(facts: Facts, doing: Doing, sets: list[States]) -> bool:
    """Not all motors of a large box can be asked about at once; a lamp that tells of them is then no signal."""
    try:
        states = union(sets, facts.spaces.none())
        return not facts.reached_at_rest(doing.states - states) and not facts.reached_at_rest(states - doing.states)
    except TooWide:
        return False
