"""Every single fault of every part, in the plan's order: what published.py says has to be supposed."""

from collections.abc import Iterator

from circuitcheck.analysis.faults.contact_faults import contact_faults, hand_faults, limit_faults, relay_faults
from circuitcheck.analysis.faults.fault import Fault
from circuitcheck.analysis.faults.load_faults import (
    brush_faults,
    diode_faults,
    fuse_faults,
    load_faults,
    supply_faults,
    suppressor_faults,
)
from circuitcheck.analysis.faults.wire_faults import frame_of, joining_faults, wire_faults
from circuitcheck.analysis.wired import wired_terminals
from circuitcheck.circuit.model import Circuit, PartInfo, Terminal


def single_faults(circuit: Circuit) -> tuple[Fault, ...]:
    """All of them: each part's, then the wires'."""
    wired, frame = wired_terminals(circuit), frame_of(circuit)
    found = [fault for part in circuit.parts.values() for fault in _faults_of(circuit, part, wired, frame)]
    return (*found, *wire_faults(circuit, frame))


def _faults_of(circuit: Circuit, part: PartInfo, wired: frozenset[Terminal], frame: Terminal | None) -> Iterator[Fault]:
    match part.kind:
        case "supply":
            yield from supply_faults(circuit, part)
        case "fuse":
            yield from fuse_faults(circuit, part)
        case "switch" | "button" | "estop" | "outside":
            yield from hand_faults(circuit, part)
        case "limit" | "cam":
            yield from limit_faults(circuit, part)
        case "connector" | "strip":
            yield from joining_faults(circuit, part, wired)
    yield from relay_faults(circuit, part)
    yield from contact_faults(circuit, part, wired)
    yield from load_faults(circuit, part)
    yield from diode_faults(circuit, part)
    yield from suppressor_faults(circuit, part)
    if part.kind == "motor":
        yield from brush_faults(circuit, part, frame)
