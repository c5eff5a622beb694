"""Which symbol stands for a conductor or a load, and what is written beside it."""

from typing import NamedTuple

from circuitcheck.circuit.model import Circuit, Conductor, Terminal
from circuitcheck.ladder.drawn import Leaf, Passed, Point, Taking

LOADS = {"input": "coil", "solenoid": "solenoid"}
"""Kinds of loads whose symbol is named otherwise than they are."""


class Symbol(NamedTuple):
    """kind: "make", "break", "fuse", "diode" (from left to right), "diode back", "point", or a load's: "coil", "motor",
    "lamp", "buzzer", "resistor", "solenoid". name stands above, marks (its terminals from left to right) below."""

    kind: str
    name: str
    marks: str


def symbol_of(circuit: Circuit, leaf: Leaf) -> Symbol:
    """How a leaf is shown."""
    if isinstance(leaf, Point):
        return Symbol("point", leaf.name, "")
    marks = _joined([_mark(circuit, end) for end in (leaf.left, leaf.right)])
    if isinstance(leaf, Taking):
        load = circuit.loads[leaf.load]
        return Symbol(LOADS.get(load.kind, load.kind), load.part, marks)
    return Symbol(
        _kind(circuit, circuit.conductors[leaf.conductor], leaf), circuit.conductors[leaf.conductor].part, marks
    )


def _joined(marks: list[str]) -> str:
    """A motor's brushes are marked + and -."""
    return (" " if "-" in marks else "-").join(marks)


def _mark(circuit: Circuit, terminal: Terminal) -> str:
    part = next((name for name in _prefixes(terminal) if name in circuit.parts), terminal)
    return terminal[len(part) + 1 :]


def _prefixes(terminal: Terminal) -> list[str]:
    pieces = terminal.split(".")
    return [".".join(pieces[:count]) for count in range(len(pieces), 0, -1)]


def _kind(circuit: Circuit, conductor: Conductor, leaf: Passed) -> str:
    if conductor.kind == "diode":
        return "diode" if leaf.left == conductor.tail else "diode back"
    if conductor.closed is None:
        return "fuse"
    return "break" if is_break(circuit, conductor) else "make"


def is_break(circuit: Circuit, contact: Conductor) -> bool:
    """Is it closed while nothing works its part: a relay released, a button let go, a limit not pressed? A switch that
    stays where it is put has no such rest: all its contacts are shown as making, with the position that closes them."""
    if contact.closed is None:
        return False
    limit = next((one for one in circuit.limits if one.name == contact.part), None)
    if limit is not None:
        return contact.closed.values != limit.zones
    info = circuit.parts[contact.part]
    return info.kind != "switch" and 0 in contact.closed.values
