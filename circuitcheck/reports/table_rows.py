"""The truth table's rows: combinations that agree are told in one row, with a dash for what doesn't matter.

A row's dash means "whatever its value among its positions", exactly. Rows come from splitting the combinations on one
input after the other until all that are left agree, so no two rows share a combination and none is left out. Which
input to split on is chosen greedily: the one after which the fewest different outcomes are left together.
"""

from collections.abc import Iterator
from itertools import product
from math import prod
from typing import NamedTuple

from circuitcheck.analysis.states import States
from circuitcheck.analysis.table import MOST_ROWS, Cells, Outcome, TooManyRows, TruthTable

ANY = "–"
"""Stands for an input that doesn't matter in a row."""

RELAYS_BEFORE = "relays before"
"""The input that tells rows from released relays and rows of relays that hold themselves apart.

No part can have this name: it has a blank in it."""

MOST_COMBINATIONS = 200_000
"""Of inputs that matter; with more of them rows would be far too many as well."""


class Row(NamedTuple):
    """What is given (input to position, or ANY), and what relays and motors do then; by name, in the plan's order."""

    given: dict[str, str]
    relays: dict[str, str]
    motors: dict[str, str]


class Part(NamedTuple):
    """Rows of one kind: `before` says which; where `domain` holds, `outcome` tells what becomes of it."""

    before: str
    domain: States
    outcome: Outcome


Pattern = tuple[int | None, ...]
"""For each input the number of its position, or None for any."""


def input_names(table: TruthTable) -> list[str]:
    """The names of the inputs, in the order in which rows give them."""
    names = [table.facts.circuit.digits[digit].name for digit in table.inputs]
    return [RELAYS_BEFORE, *names] if table.held else names


def table_rows(table: TruthTable) -> list[Row]:
    """The rows, in order of their inputs. TooManyRows where there are more than anybody would read."""
    if prod(map(len, table.positions)) > MOST_COMBINATIONS:
        raise TooManyRows
    rows: list[tuple[Pattern, int, Row]] = []
    for number, part in enumerate(_parts(table)):
        words = _words(table, part)
        for pattern, outcome in merged(words, tuple(map(len, table.positions))):
            if outcome is not None:
                rows.append((pattern, number, _row(table, part.before, pattern, outcome)))
            if len(rows) > MOST_ROWS:
                raise TooManyRows
    return [row for _, _, row in sorted(rows, key=lambda one: ([-1 if at is None else at for at in one[0]], one[1]))]


def _parts(table: TruthTable) -> Iterator[Part]:
    """Where relays may hold themselves, rows say which way relays stood before."""
    held = table.facts.spaces.none()
    for outcome in table.held:
        held = held | outcome.combinations
    yield Part(ANY, table.released.combinations - held, table.released)
    if table.held:
        yield Part("released", table.released.combinations & held, table.released)
    for outcome in table.held:
        yield Part("held", outcome.combinations, outcome)


Words = tuple[str, ...]
"""The word of each relay, then of each motor, in one combination."""


def _words(table: TruthTable, part: Part) -> tuple[Words | None, ...]:
    """What each combination leads to, the first input changing slowest; None where the part says nothing of it."""
    numbers = _state_numbers(table)
    columns = [_spelt(table, column, numbers) for column in (*part.outcome.relays, *part.outcome.motors)]
    inside = _members(table, part.domain, numbers)
    words = zip(*columns, strict=True) if columns else iter([()] * len(numbers))
    return tuple(word if here == "1" else None for here, word in zip(inside, words, strict=True))


def _state_numbers(table: TruthTable) -> list[int]:
    strides = table.facts.spaces.of(table.inputs).strides
    return [sum(map(int.__mul__, position, strides)) for position in product(*table.positions)]


def _members(table: TruthTable, states: States, numbers: list[int]) -> str:
    """A "1" for each combination that is in the set, a "0" for each other."""
    space = table.facts.spaces.of(table.inputs)
    text = f"{states.over(space):0{space.size}b}"
    return "".join(text[-1 - number] for number in numbers)


def _spelt(table: TruthTable, column: Cells, numbers: list[int]) -> list[str]:
    spelt = [""] * len(numbers)
    for word, states in column.items():
        for place, here in enumerate(_members(table, states, numbers)):
            if here == "1":
                spelt[place] = word
    return spelt


def merged(words: tuple[Words | None, ...], sizes: tuple[int, ...]) -> Iterator[tuple[Pattern, Words | None]]:
    """Patterns that share no combination and cover all, each with the outcome of everything in it.

    words: one for each combination of inputs with so many positions each, the first input changing slowest.
    """
    different = set(words)
    if len(different) == 1:
        yield (None,) * len(sizes), words[0]
        return
    choices = [_split(words, sizes, number) for number in range(len(sizes))]
    best = min(range(len(sizes)), key=lambda number: (sum(len(set(one)) for one in choices[number]), number))
    left = sizes[:best] + sizes[best + 1 :]
    for value, one in enumerate(choices[best]):
        for pattern, outcome in merged(one, left):
            yield (*pattern[:best], value, *pattern[best:]), outcome


def _split(words: tuple[Words | None, ...], sizes: tuple[int, ...], number: int) -> list[tuple[Words | None, ...]]:
    """The outcomes apart by the position of one input, which then no longer counts among the inputs."""
    stride = prod(sizes[number + 1 :])
    period = stride * sizes[number]
    return [
        tuple(word for begin in range(at * stride, len(words), period) for word in words[begin : begin + stride])
        for at in range(sizes[number])
    ]


def _row(table: TruthTable, before: str, pattern: Pattern, outcome: Words) -> Row:
    circuit = table.facts.circuit
    given = {RELAYS_BEFORE: before} if table.held else {}
    for digit, positions, at in zip(table.inputs, table.positions, pattern, strict=True):
        only = 0 if len(positions) == 1 else at
        given[circuit.digits[digit].name] = ANY if only is None else circuit.digits[digit].value_name(positions[only])
    relays = [circuit.relays[number].name for number in table.relays]
    motors = [circuit.motors[number].name for number in table.motors]
    return Row(
        given,
        dict(zip(relays, outcome[: len(relays)], strict=True)),
        dict(zip(motors, outcome[len(relays) :], strict=True)),
    )
