"""What the lid says of each fuse: what it is, what it feeds, and what may replace it."""

from typing import NamedTuple

from circuitcheck.sizing.sized import NOT_DECLARED, TOO_LARGE, TOO_SMALL
from circuitcheck.sizing.sizing import Sizing


class FuseLine(NamedTuple):
    """kind, standard, volts: of its family; a fuse of which the plan says nothing is taken for a blade. feeds: the
    names of the parts whose current it carries. verdict: as `size` has it, with its remarks where it doesn't fit."""

    name: str
    label: str
    amps: float
    kind: str
    standard: str
    volts: float
    feeds: tuple[str, ...]
    verdict: str
    remarks: tuple[str, ...]


def fuse_card(sizing: Sizing) -> tuple[FuseLine, ...]:
    """Every fuse, in the plan's order."""
    sized = {one.name: one for one in sizing.parts if one.kind == "fuse"}
    circuit, found = sizing.circuit, []
    for fuse in sorted(sizing.flows.fuses, key=lambda one: one.conductor):
        loads = {circuit.loads[share.load].part for share in sizing.flows.shares(fuse.conductor)}
        feeds = tuple(name for name in circuit.parts if name in loads)
        verdict = sized[fuse.name].verdict
        remarks = sized[fuse.name].remarks if verdict in (TOO_LARGE, TOO_SMALL, NOT_DECLARED) else ()
        family, label = fuse.family, circuit.parts[fuse.name].label
        found.append(
            FuseLine(fuse.name, label, fuse.amps, family.name, family.standard, family.volts, feeds, verdict, remarks)
        )
    return tuple(found)
