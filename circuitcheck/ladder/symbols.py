"""Which symbol stands for a conductor or a load, and what is written beside it."""

from collections import Counter
from collections.abc import Iterable
from typing import Final, NamedTuple

from circuitcheck.circuit.model import Circuit, Conductor, Terminal
from circuitcheck.ladder.drawn import Leaf, Passed, Point, Taking

LONGEST: Final = 28
"""Signs of a name that is shown whole."""
LOADS = {"input": "coil", "solenoid": "solenoid"}
"""Kinds of loads whose symbol is named otherwise than they are."""


class Symbol(NamedTuple):
    """kind: "make", "break", "fuse", "diode" (from left to right), "diode back", "point", or a load's: "coil", "motor",
    "lamp", "buzzer", "resistor", "solenoid". name stands above, marks (its terminals from left to right) below."""

    kind: str
    name: str
    marks: str


class Symbols:
    """Knows how everything in a circuit is shown. coils: the line number of each relay's coil, by the relay's name: it
    stands beside the name of each of its contacts."""

    def __init__(self, circuit: Circuit, coils: dict[str, int]) -> None:
        self._circuit = circuit
        self._coils = coils
        self._short = _shortened((*circuit.parts, *(end for info in circuit.parts.values() for end in info.terminals)))

    def of(self, leaf: Leaf) -> Symbol:
        """The symbol of a leaf."""
        circuit = self._circuit
        if isinstance(leaf, Point):
            return Symbol("point", self._short.get(leaf.name, leaf.name), "")
        marks = _joined([_mark(circuit, end) for end in (leaf.left, leaf.right)])
        if isinstance(leaf, Taking):
            load = circuit.loads[leaf.load]
            return Symbol(LOADS.get(load.kind, load.kind), self._short.get(load.part, load.part), marks)
        one = circuit.conductors[leaf.conductor]
        name = self._short.get(one.part, one.part)
        if one.closed and one.part in self._coils:
            name += f" ({self._coils[one.part]})"
        return Symbol(_kind(circuit, one, leaf), name, marks)


def _shortened(names: Iterable[str]) -> dict[str, str]:
    """Long names without their middle, but for those that would then look alike."""
    cut = {name: f"{name[:12]}…{name[-15:]}" for name in names if len(name) > LONGEST}
    alike = Counter(cut.values())
    return {name: short for name, short in cut.items() if alike[short] == 1}


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
