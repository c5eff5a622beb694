"""The numbers that wires go by on paper: those of the plan, and w1, w2 … for wires that have none there."""

from collections.abc import Iterator
from itertools import count

from circuitcheck.circuit.model import Circuit


def wire_numbers(circuit: Circuit) -> tuple[str, ...]:
    """A number for each of Circuit.wires, in order; a new one is the lowest that the plan doesn't use."""
    free = _free_numbers({wire.number for wire in circuit.wires})
    return tuple(wire.number or next(free) for wire in circuit.wires)


def _free_numbers(taken: set[str]) -> Iterator[str]:
    return (name for number in count(1) if (name := f"w{number}") not in taken)
