"""A fault written into a plan's text by hand, as lines that anybody could write.

First the text is brought to single wires (`in_wires`): rungs, ports and fits become `wire` lines, and what is fitted in
gets a name of its own. Then what is open is a wire moved from its terminal into the air, what is closed for good a wire
more, a supply that is reversed two words swapped.
"""

import re
from pathlib import Path
from typing import NamedTuple

from circuitcheck.analysis.faults.fault import Fault
from circuitcheck.circuit.building import build_circuit
from circuitcheck.circuit.model import Circuit, Closed, Conductor, Terminal
from circuitcheck.plan.reading import read_text

EXAMPLES = Path(__file__).parents[3] / "examples"
PROMISES = ("expect", "never", "always", "after", "require", "accept")
WIRING = ("wire", "rung", "fit")
AIR = "AIR"
"""The splice that wires hang in the air with."""


class InWires(NamedTuple):
    """A plan's text in two: the statements on its parts, and its wires by their ends."""

    parts: str
    wires: tuple[tuple[Terminal, Terminal], ...]

    @property
    def text(self) -> str:
        """The plan."""
        return "\n".join([self.parts, *(f"wire {one} {other}" for one, other in self.wires), ""])


def circuit_of(text: str) -> Circuit:
    """The circuit of a text that stands among the examples."""
    return build_circuit(read_text(str(EXAMPLES / "right" / "a.plan"), text, (EXAMPLES,)))


def in_wires(text: str) -> InWires:
    """The same circuit with a line for each wire and no promises; what R1 fits in is called R1_K1 instead of R1.K1."""
    statements = re.sub(r"([,|(:])[ \t]*(#.*)?\n\s*", r"\1 ", text).splitlines()
    fits = [line.split()[1:3] for line in statements if line.startswith("fit ")]
    kept = [line for line in statements if line.partition(" ")[0] not in (*WIRING, *PROMISES)]
    wires = [(one.tail, one.head) for one in circuit_of(text).conductors if one.kind == "wire"]
    fitted = [line for name, module in fits for line in _fitted(name, module)]
    renamed = [(_renamed(one, fits), _renamed(other, fits)) for one, other in wires]
    return InWires("\n".join([*kept, *fitted]), tuple(renamed))


def _fitted(name: str, module: str) -> list[str]:
    """The parts of a module of the shared ones, under names of their own; its ports as splices."""
    shared = (EXAMPLES / "parts" / "reverser.plan").read_text(encoding="utf-8")
    (body,) = re.findall(rf"^module {module}\n(.*?)^end$", shared, re.MULTILINE | re.DOTALL)
    lines = [line.strip().partition("#")[0] for line in body.splitlines()]
    ports = [port for line in lines if line.startswith("port ") for port in line.split()[1:]]
    parts = [re.sub(r"^(\w+\s+)", rf"\g<1>{name}_", line) for line in lines if line.startswith("relay ")]
    return [*parts, *(f"splice {name}_{port}" for port in ports)]


def _renamed(terminal: Terminal, fits: list[list[str]]) -> Terminal:
    for name, _ in fits:
        if terminal.startswith(f"{name}."):
            return f"{name}_{terminal.removeprefix(f'{name}.')}"
    return terminal


def written_by_hand(plan: InWires, circuit: Circuit, fault: Fault) -> str | None:
    """The text with the fault in it; None where no line can say it.

    That is so of a limit that moved, since a place between two others has no name, and of a diode that is part of a
    relay's type and is open.
    """
    change = fault.change
    limits = {circuit.limits[number].name: zones for number, zones in change.pressed}
    if any(zones and zones != _zones(circuit, name) for name, zones in limits.items()):
        return None
    closed, opened = _standing(circuit, fault, limits)
    if any(one.kind == "diode" and circuit.parts[one.part].kind != "diode" for one in opened):
        return None
    swaps = {end: other for number in change.reversed for end, other in _ends_swapped(circuit, number)}
    wires = [(swaps.get(one, one), swaps.get(other, other)) for one, other in plan.wires]
    for one in opened:
        if one.kind == "wire":
            wires.remove((one.tail, one.head))
    gone = [one.head for one in opened if one.kind != "wire"]
    gone += [circuit.supplies[number].plus for number in change.lost]
    gone += [_own_end(circuit, number) for number in change.broken]
    lines = [f"splice {AIR}{number}" for number in range(len(gone))]
    for number, end in enumerate(gone):
        wires = [(_moved(one, end, number), _moved(other, end, number)) for one, other in wires]
    lines += _diodes_left(circuit, change.broken, gone)
    wires += [(one.tail, one.head) for one in closed if not one.one_way]
    wires += [pair for pair in change.joined if pair[0] != pair[1]]
    one_way = [one for one in closed if one.one_way]
    lines += [line for one in one_way for line in _diode(f"{one.part}_CLOSED", one.tail, one.head)]
    return InWires("\n".join([plan.parts, *lines]), tuple(wires)).text


def _standing(
    circuit: Circuit, fault: Fault, limits: dict[str, frozenset[int]]
) -> tuple[list[Conductor], list[Conductor]]:
    """What conducts for good, and what never does, though it otherwise might or would."""
    change, stuck = fault.change, dict(fault.change.stuck)
    closed = [circuit.conductors[number] for number in change.always]
    opened = [circuit.conductors[number] for number in change.opened]
    opened = [one for one in opened if (one.tail, one.head) not in change.joined]
    for one in circuit.conductors:
        if one.closed is not None and one.closed.digit in stuck and one.part not in limits:
            (closed if stuck[one.closed.digit] in one.closed.values else opened).append(one)
        if one.closed is not None and one.part in limits:
            (closed if _closes_pressed(circuit, one.part, one.closed) == bool(limits[one.part]) else opened).append(one)
    return closed, opened


def _zones(circuit: Circuit, name: str) -> frozenset[int]:
    limit = next(one for one in circuit.limits if one.name == name)
    return frozenset(range(len(circuit.digits[circuit.axes[limit.axis].digit].values)))


def _closes_pressed(circuit: Circuit, name: str, closed: Closed) -> bool:
    return closed.values == next(one for one in circuit.limits if one.name == name).zones


def _ends_swapped(circuit: Circuit, number: int) -> tuple[tuple[Terminal, Terminal], ...]:
    supply = circuit.supplies[number]
    return (supply.plus, supply.minus), (supply.minus, supply.plus)


def _moved(end: Terminal, gone: Terminal, number: int) -> Terminal:
    return f"{AIR}{number}" if end == gone else end


def _own_end(circuit: Circuit, load: int) -> Terminal:
    """An end of a load that is no other load's of its part, and not on its case."""
    one = circuit.loads[load]
    others = {end for number, other in enumerate(circuit.loads) if number != load for end in (other.a, other.b)}
    others |= {end for bond in circuit.conductors if bond.kind == "bond" for end in (bond.tail, bond.head)}
    return one.b if one.b not in others else one.a


def _diodes_left(circuit: Circuit, broken: frozenset[int], gone: list[Terminal]) -> list[str]:
    """A diode built in across a winding stays where it is when the winding breaks, and keeps its wires."""
    parts = {circuit.loads[number].part for number in broken}
    lines: list[str] = []
    for one in circuit.conductors:
        if one.kind == "diode" and one.part in parts and {one.tail, one.head} & set(gone):
            ends = [f"{AIR}{gone.index(end)}" if end in gone else end for end in (one.tail, one.head)]
            lines += _diode(f"{one.part}_LEFT", *ends)
    return lines


def _diode(name: str, anode: Terminal, cathode: Terminal) -> list[str]:
    return [f"diode {name}", f"wire {anode} {name}.anode", f"wire {name}.cathode {cathode}"]
