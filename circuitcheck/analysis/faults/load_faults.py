"""Faults of what takes current, passes it one way, protects or feeds: loads, diodes, suppressors, fuses, supplies."""

from collections.abc import Iterator

from circuitcheck.analysis.faults.fault import Fault
from circuitcheck.analysis.supposed import Change
from circuitcheck.circuit.model import Circuit, Closed, Load, PartInfo, Terminal

KINDS = {"coil": "coil", "input": "coil", "motor": "motor"}
"""Loads that the published lists name; all others are a "load"."""


def load_faults(circuit: Circuit, part: PartInfo) -> Iterator[Fault]:
    """Each winding or filament open and shorted."""
    for number, load in enumerate(circuit.loads):
        if load.part == part.name:
            kind, subject = KINDS.get(load.kind, "load"), _subject(load)
            yield Fault(f"{kind} open", part.name, subject, "open", Change(broken=frozenset({number})))
            yield Fault(f"{kind} shorted", part.name, subject, "shorted", Change(joined=((load.a, load.b),)))


def _subject(load: Load) -> str:
    if load.kind == "coil":
        return f"the coil {load.part}.{load.a.rpartition('.')[2]}-{load.b.rpartition('.')[2]}"
    if load.kind == "input":
        return f"the input {load.name}"
    return load.name


def diode_faults(circuit: Circuit, part: PartInfo) -> Iterator[Fault]:
    """Each diode open and shorted, one built into a relay too."""
    for number, one in enumerate(circuit.conductors):
        if one.part == part.name and one.kind == "diode":
            across = f"the diode across {one.head}-{one.tail.rpartition('.')[2]}"
            subject = across if part.kind == "relay" else part.name
            yield Fault("diode open", part.name, subject, "open", Change(opened=frozenset({number})))
            yield Fault("diode shorted", part.name, subject, "shorted", Change(joined=((one.tail, one.head),)))


def suppressor_faults(circuit: Circuit, part: PartInfo) -> Iterator[Fault]:
    """A varistor, suppressor diode or RC pair; open it only suppresses no more, which changes no state."""
    for one in circuit.suppressors:
        if one.part == part.name and one.kind in ("varistor", "tvs", "rc"):
            yield Fault("suppressor open", part.name, part.name, "open", Change())
            yield Fault("suppressor shorted", part.name, part.name, "shorted", Change(joined=((one.a, one.b),)))


def supply_faults(circuit: Circuit, part: PartInfo) -> Iterator[Fault]:
    """Lost, and connected the wrong way round."""
    number, supply = next(pair for pair in enumerate(circuit.supplies) if pair[1].name == part.name)
    unplugged = Closed(supply.digit, frozenset({0}))
    yield Fault("supply lost", part.name, part.name, "lost", Change(lost=frozenset({number})))
    change = Change(reversed=frozenset({number}), begins=(unplugged,))
    yield Fault("supply reversed", part.name, part.name, "reversed", change)


def fuse_faults(circuit: Circuit, part: PartInfo) -> Iterator[Fault]:
    """Blown."""
    own = frozenset(number for number, one in enumerate(circuit.conductors) if one.part == part.name)
    yield Fault("fuse blown", part.name, part.name, "blown", Change(opened=own))


def brush_faults(circuit: Circuit, part: PartInfo, frame: Terminal | None) -> Iterator[Fault]:
    """Each brush on the case, where the plan says what the case, or the frame that it is bolted to, is joined to."""
    case = next((end for end in part.terminals if end.endswith(".case")), frame)
    bonded = {one.tail for one in circuit.conductors if one.kind == "bond"}
    for brush in part.terminals:
        if case is not None and brush != case and brush not in bonded:
            yield Fault("brush to case", part.name, brush, "touches its case", Change(joined=((brush, case),)))
