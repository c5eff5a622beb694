"""What the lid says of each fuse: what it is, what it feeds, and what may replace it."""

from typing import NamedTuple

from circuitcheck.analysis.facts import Facts, analyse
from circuitcheck.analysis.states import States, TooWide, union
from circuitcheck.analysis.supposed import never_closing
from circuitcheck.analysis.surroundings import TooManyCases
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


def fuse_card(facts: Facts, sizing: Sizing | None) -> tuple[FuseLine, ...]:
    """Every fuse, in the plan's order. sizing: None where it has no exact answer; then each fuse is asked by itself."""
    circuit = facts.circuit
    if sizing is None:
        return tuple(_unsized(facts, number) for number, one in enumerate(circuit.conductors) if one.kind == "fuse")
    sized = {one.name: one for one in sizing.parts if one.kind == "fuse"}
    found = []
    for fuse in sorted(sizing.flows.fuses, key=lambda one: one.conductor):
        loads = {share.load for share in sizing.flows.shares(fuse.conductor)}
        verdict = sized[fuse.name].verdict
        remarks = sized[fuse.name].remarks if verdict in (TOO_LARGE, TOO_SMALL, NOT_DECLARED) else ()
        found.append(_line(circuit.parts[fuse.name], _parts_of(circuit, loads), verdict, remarks))
    return tuple(found)


def _unsized(facts: Facts, fuse: int) -> FuseLine:
    info = facts.circuit.parts[facts.circuit.conductors[fuse].part]
    return _line(info, _parts_of(facts.circuit, _dead_without(facts, fuse)), NOT_DECLARED, ())


def _dead_without(facts: Facts, fuse: int) -> set[int]:
    """The loads that have volts in operation and no longer have them once the fuse, by its conductor, has blown; none
    where that depends on too much at once."""
    blown = analyse(never_closing(facts.circuit, frozenset({fuse})), facts.spaces)
    try:
        return {
            number
            for number in range(len(facts.circuit.loads))
            if facts.reached(_live(facts, number) - _live(blown, number))
        }
    except (TooWide, TooManyCases):
        return set()


def _live(facts: Facts, load: int) -> States:
    return union((states for fed in facts.volts[load] for states in (fed.forward, fed.backward)), facts.spaces.none())


def _parts_of(circuit: Circuit, loads: set[int]) -> tuple[str, ...]:
    parts = {circuit.loads[load].part for load in loads}
    return tuple(name for name in circuit.parts if name in parts)


def _line(info: PartInfo, feeds: tuple[str, ...], verdict: str, remarks: tuple[str, ...]) -> FuseLine:
    amps = info.ratings["amps"]
    family = family_of(info.features, amps)
    return FuseLine(info.name, info.label, amps, family.name, family.standard, family.volts, feeds, verdict, remarks)
