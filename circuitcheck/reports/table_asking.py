"""From what somebody asks of the truth table, in names, to the table."""

from collections.abc import Sequence
from pathlib import Path
from typing import NamedTuple

from circuitcheck.analysis.facts import analyse
from circuitcheck.analysis.table import MOST_ROWS, TooManyRows, truth_table
from circuitcheck.circuit.building import build_circuit
from circuitcheck.circuit.model import Circuit
from circuitcheck.circuit.wording import name_and_title, suggestion
from circuitcheck.examination import exactly, read_input
from circuitcheck.reports.table_rows import Row, input_names, table_rows


class Unanswerable(Exception):
    """The table asked for names something that the plan lacks, or would be too long; its text says so."""


class Table(NamedTuple):
    """What the outputs lay out. name: the plan's, its file's where it has none; title: with what it does."""

    name: str
    title: str
    inputs: list[str]
    rows: list[Row]


def asked_table(path: Path, roots: tuple[Path, ...], given: Sequence[str], motor_names: Sequence[str]) -> Table:
    """The table of these motors (all for none) where the inputs are as given ("S1=raise").

    Raises Unanswerable, or PlanError where the plan can't be understood.
    """
    plan = read_input(path, roots)
    circuit = build_circuit(plan)
    positions = _positions(circuit, given)
    motors = tuple(dict.fromkeys(motor_number(circuit, name) for name in motor_names))
    facts = exactly(plan, circuit, lambda: analyse(circuit))
    try:
        table = exactly(plan, circuit, lambda: truth_table(facts, positions, motors))
        rows = table_rows(table)
    except TooManyRows:
        raise Unanswerable(_too_long(circuit)) from None
    name, title = name_and_title(circuit)
    return Table(name, title, input_names(table), rows)


def _positions(circuit: Circuit, given: Sequence[str]) -> dict[int, tuple[int, ...]]:
    """The positions that are asked for of each digit; named twice, either will do."""
    asked: dict[int, tuple[int, ...]] = {}
    latching = {relay.digit for relay in circuit.relays if relay.function == "latching"}
    inputs = {
        digit.name: number for number, digit in enumerate(circuit.digits) if digit.kind != "relay" or number in latching
    }
    for text in given:
        name, equals, word = text.partition("=")
        if not equals:
            raise Unanswerable(f'"{text}" gives no position. Write it like S1=raise.')
        if name not in inputs:
            raise Unanswerable(f"no input {name} in {circuit.file}. {suggestion(name, inputs)}")
        digit = circuit.digits[inputs[name]]
        if word not in digit.values:
            raise Unanswerable(f'{name} has no position "{word}". {suggestion(word, digit.values)}')
        before = asked.get(inputs[name], ())
        asked[inputs[name]] = tuple(sorted({*before, digit.values.index(word)}))
    return asked


def motor_number(circuit: Circuit, name: str) -> int:
    """Its index among the circuit's motors. Unanswerable where there is none of that name."""
    names = [motor.name for motor in circuit.motors]
    if name not in names:
        raise Unanswerable(f"no motor {name} in {circuit.file}. {suggestion(name, names)}")
    return names.index(name)


def _too_long(circuit: Circuit) -> str:
    motors = [f"--motor {motor.name}" for motor in circuit.motors[:1]]
    inputs = [f"--control {digit.name}={digit.values[0]}" for digit in circuit.digits if digit.kind != "relay"]
    part = " or ".join(motors + inputs[:1])
    return f"the table has more than {MOST_ROWS:,} rows. Ask for a part of it, like {part}."
