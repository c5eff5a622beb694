"""Faults of what joins: wires and pins open, and what touches its neighbour or the frame."""

from collections.abc import Iterator
from itertools import pairwise

from circuitcheck.analysis.faults.fault import Fault
from circuitcheck.analysis.network import joined_terminals
from circuitcheck.analysis.supposed import Change
from circuitcheck.circuit.model import Circuit, PartInfo, Terminal


def wire_faults(circuit: Circuit, frame: Terminal | None) -> Iterator[Fault]:
    """Each wire open; each that is not on the frame anyway, touching it."""
    nets = joined_terminals(circuit)
    for number, one in enumerate(circuit.conductors):
        if one.kind == "wire":
            yield Fault("wire open", "", one.name, "open", Change(opened=frozenset({number})))
            if frame is not None and nets[one.tail] != nets[frame]:
                yield Fault("wire to frame", "", one.name, "touches the frame", Change(joined=((one.tail, frame),)))


def joining_faults(circuit: Circuit, part: PartInfo, wired: frozenset[Terminal]) -> Iterator[Fault]:
    """Of a connector: each pin open, neighbours touching. Of a strip: neighbours touching. Unwired ones don't count."""
    for number, one in enumerate(circuit.conductors):
        if one.part == part.name and one.kind == "pin" and wired & {one.tail, one.head}:
            yield Fault("pin open", part.name, one.name, "open", Change(opened=frozenset({number})))
    kind = "pins touching" if part.kind == "connector" else "terminals touching"
    nets = joined_terminals(circuit)
    for here, beside in pairwise(_in_a_row(part)):
        if wired.intersection(here) and wired.intersection(beside) and nets[here[0]] != nets[beside[0]]:
            yield Fault(kind, part.name, here[0], f"touches {beside[0]}", Change(joined=((here[0], beside[0]),)))


def frame_of(circuit: Circuit) -> Terminal | None:
    """A terminal that the plan says lies on the frame: the case of a motor. None where it says nothing of it."""
    cases = (end for part in circuit.parts.values() if part.kind == "motor" for end in part.terminals)
    return next((end for end in cases if end.endswith(".case")), None)


def _in_a_row(part: PartInfo) -> list[tuple[Terminal, ...]]:
    """The terminals side by side; a connector's plug and socket pin of one way are one."""
    if part.kind == "connector":
        return list(zip(part.terminals[::2], part.terminals[1::2], strict=True))
    return [(end,) for end in part.terminals]
