"""What an examination knows of a part or terminal: in which states it is joined to which rail, what it does.

Texts are Markdown, as editors show it beside the cursor.
"""

from collections.abc import Iterator
from typing import Final

from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.states import States
from circuitcheck.analysis.table import TooManyRows, truth_table
from circuitcheck.checks.findings import smallest_example
from circuitcheck.checks.narration import state_words
from circuitcheck.circuit.model import Load, Motor
from circuitcheck.reports.table_asking import Table
from circuitcheck.reports.table_formats import cells, headings, pipes
from circuitcheck.reports.table_rows import input_names, table_rows

MOST_WAYS: Final = 4
MOST_ROWS: Final = 10


def told_of_terminal(facts: Facts, terminal: str) -> Iterator[str]:
    """When conductors lead to it from the + of each supply, and from it to the −: as current runs, diodes and all."""
    for supply in facts.circuit.supplies:
        ways = ((supply.plus, supply.plus, terminal), (supply.minus, terminal, supply.minus))
        for rail, start, end in ways:
            if terminal != rail:
                yield _when(facts, facts.conduction.leads(start, end), "joined to", rail)


def told_of_part(facts: Facts, name: str) -> Iterator[str]:
    """A motor's rows of the truth table; when a coil or lamp is fed."""
    for number, motor in enumerate(facts.circuit.motors):
        if motor.name == name:
            yield from _motor_rows(facts, number, motor)
    for number, load in enumerate(facts.circuit.loads):
        if load.part == name and load.kind in ("coil", "input", "lamp", "buzzer", "solenoid"):
            yield _fed(facts, number, load)


def _fed(facts: Facts, number: int, load: Load) -> str:
    fed = facts.spaces.none()
    for one in facts.volts[number]:
        fed = fed | one.forward | one.backward
    return _when(facts, fed, "fed" if load.name == load.part else f"{load.name} is fed", "")


def _when(facts: Facts, states: States, verb: str, other: str) -> str:
    """ "joined to PS.+ with S1 raise, K1 operated; or with K3 operated" """
    subject = f"{verb} {other}".strip()
    possible = facts.possible(states)
    if not possible:
        return f"never {subject}"
    if not facts.possible(~states):
        return f"always {subject}"
    ways: list[str] = []
    left = possible
    while left and len(ways) < MOST_WAYS:
        bit = (left.bits & -left.bits).bit_length() - 1
        shown = smallest_example(facts, possible, left.space.values(bit))
        ways.append(state_words(facts.circuit, shown))
        covered = facts.spaces.all()
        for digit, value in shown.items():
            covered = covered & facts.spaces.where(digit, (value,))
        left = left - covered
    more = "; and in others" if left else ""
    return f"{subject} with {'; or with '.join(ways)}{more}"


def _motor_rows(facts: Facts, number: int, motor: Motor) -> Iterator[str]:
    try:
        table = truth_table(facts, {}, (number,))
        rows = table_rows(table)
    except TooManyRows:
        yield f"what {motor.name} does has more rows than anybody would read"
        return
    shown = Table(motor.name, motor.name, input_names(table), rows[:MOST_ROWS])
    head = headings(shown)
    lines = [pipes(head), pipes(["---"] * len(head)), *(pipes(cells(row)) for row in shown.rows)]
    more = [f"and {len(rows) - MOST_ROWS} more rows: `circuitcheck table`"] if len(rows) > MOST_ROWS else []
    yield "\n".join(lines)
    yield from more
