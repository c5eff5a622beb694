"""Findings as a page shows them: each step with the state that it leads to, and the conductors of the current's way."""

from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import NamedTuple

from circuitcheck.analysis.single_state import State, conducts
from circuitcheck.checks.check import Finding
from circuitcheck.checks.narration import FAULT
from circuitcheck.checks.reading_back import read_back
from circuitcheck.checks.ways import compressed
from circuitcheck.circuit.model import Circuit
from circuitcheck.circuit.stories import usual_beginning


class Shown(NamedTuple):
    """A step in words. state: a value for each digit, None where the sound circuit has no state for it: contacts are on
    their way then, or something has failed."""

    words: str
    state: tuple[int, ...] | None


class Incident(NamedTuple):
    """A finding. steps: the last is what is found, or as near as the page gets to it; none where no state plays a part.

    way: the current's path in words; conductors, loads: those along it, by number.
    """

    finding: Finding
    steps: tuple[Shown, ...]
    way: tuple[str, ...]
    conductors: tuple[int, ...]
    loads: tuple[int, ...]


def incident_of(circuit: Circuit, finding: Finding) -> Incident:
    """The finding with its states."""
    steps = tuple(_steps(circuit, finding))
    last = next((dict(enumerate(step.state)) for step in reversed(steps) if step.state), None)
    joins = [frozenset(pair) for pair in pairwise(finding.path)]
    loads = tuple(number for number, load in enumerate(circuit.loads) if frozenset((load.a, load.b)) in joins)
    way = tuple(compressed(finding.path, finding.way))
    return Incident(finding, steps, way, tuple(_conductors(circuit, joins, last)), loads)


def _steps(circuit: Circuit, finding: Finding) -> Iterator[Shown]:
    if not finding.steps:
        if finding.example:
            state = usual_beginning(circuit) | _named(circuit, finding.example)
            words = ", ".join(f"{name} {word}" for name, word in finding.example.items())
            yield Shown(words, _values(circuit, state))
        return
    state, moves = read_back(circuit, finding.steps)
    yield Shown(finding.steps[0], _values(circuit, state))
    sound = True
    for words, move in zip(finding.steps[1:], moves, strict=True):
        sound = sound and not words.startswith(FAULT)
        if move:
            state = state | {move[0]: move[1]}
        yield Shown(words, _values(circuit, state) if move and sound else None)


def _named(circuit: Circuit, example: dict[str, str]) -> State:
    """The digits that an example names, as far as the circuit has them: a pole on its way has none."""
    named = {}
    for number, digit in enumerate(circuit.digits):
        words = [digit.value_name(value) for value in range(digit.radix)]
        if example.get(digit.name) in words:
            named[number] = words.index(example[digit.name])
    return named


def _values(circuit: Circuit, state: State) -> tuple[int, ...]:
    return tuple(state[number] for number in range(len(circuit.digits)))


def _conductors(circuit: Circuit, joins: Sequence[frozenset[str]], state: State | None) -> Iterator[int]:
    for number, conductor in enumerate(circuit.conductors):
        if frozenset((conductor.tail, conductor.head)) in joins and (state is None or conducts(conductor, state)):
            yield number
