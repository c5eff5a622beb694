"""What the lid says of each fuse: what it is, what it feeds, and what may replace it."""

from typing import NamedTuple

from circuitcheck.circuit.model import Circuit, PartInfo
from circuitcheck.sizing.fuse_table import family_of
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


def fuse_card(circuit: Circuit, sizing: Sizing | None) -> tuple[FuseLine, ...]:
    """Every fuse, in the plan's order. sizing: None where it has no exact answer; then nobody knows what fuses feed."""
    if sizing is None:
        return tuple(_unsized(info) for info in circuit.parts.values() if info.kind == "fuse")
    sized = {one.name: one for one in sizing.parts if one.kind == "fuse"}
    found = []
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


def _unsized(info: PartInfo) -> FuseLine:
    amps = info.ratings["amps"]
    family = family_of(info.features, amps)
    return FuseLine(info.name, info.label, amps, family.name, family.standard, family.volts, (), NOT_DECLARED, ())
