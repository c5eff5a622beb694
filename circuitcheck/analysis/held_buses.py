"""Buses that stand at a rail or carry no current at all: whatever hangs on them, they never float at other volts.

In the states in which conductors join a bus to a rail both ways it is that rail: its branches are separate questions.
In all others what can bring current to it is a smaller question: what leads there from the supplies, loads included,
without going through the bus itself. Where that is nothing, nothing flows over it, and it parts its branches as well.

    states = held at a rail  |  dead

If every bus on a way of current has this property with the others taken for granted, it holds for all: the first bus
that current came to without its being held would be one to which a rail, or a held bus, leads.
"""

from typing import NamedTuple

from circuitcheck.analysis.conduction import Conduction
from circuitcheck.analysis.network import Net, build_network, cut, with_pieces
from circuitcheck.analysis.rails import Difference
from circuitcheck.analysis.states import States, TooWide, union
from circuitcheck.circuit.model import Circuit


class At(NamedTuple):
    """A net that stands at a rail in the states `held`."""

    net: Net
    held: States


class HeldBuses(NamedTuple):
    """nets: the buses. at: of each rail the nets that stand at it and when, itself first (always)."""

    nets: frozenset[Net]
    at: dict[Net, tuple[At, ...]]


def find_held_buses(circuit: Circuit, conduction: Conduction, differences: tuple[Difference, ...]) -> HeldBuses:
    """Those buses of a network to which current can come only while conductors hold them."""
    held = {bus: _held(conduction, bus) for bus in sorted(conduction.network.buses)}
    while True:
        at = {
            rail: (At(rail, conduction.spaces.all()), *(At(bus, of[rail]) for bus, of in held.items() if of[rail]))
            for rail in sorted(conduction.network.rails)
        }
        buses = HeldBuses(frozenset(held), at)
        floating = _floating(circuit, conduction, differences, buses) if held else frozenset()
        if not floating:
            return buses
        held = {bus: of for bus, of in held.items() if bus not in floating}


def _held(conduction: Conduction, bus: Net) -> dict[Net, States]:
    """The states in which conductors join a bus to each rail both ways."""
    every = conduction.spaces.all()
    return {rail: conduction.leads_both_ways(bus, rail, every) for rail in conduction.network.rails}


def _floating(
    circuit: Circuit, conduction: Conduction, differences: tuple[Difference, ...], buses: HeldBuses
) -> frozenset[Net]:
    """The buses to which current can come while nothing holds them, straight from a rail or a held bus."""
    through = _through_all_loads(circuit, conduction, buses.nets)
    sources = [one for rail in sorted({one.high for one in differences}) for one in buses.at[rail]]
    return frozenset(bus for bus in buses.nets if _may_float(through, bus, sources, buses))


def _may_float(through: Conduction, bus: Net, sources: list[At], buses: HeldBuses) -> bool:
    held = union((one.held for row in buses.at.values() for one in row if one.net == bus), through.spaces.none())
    try:
        return any(
            (states & one.held) - held
            for one in sources
            if one.net != bus
            for states in through.joins_directly(one.net, bus)
        )
    except TooWide:
        return True


def _through_all_loads(circuit: Circuit, conduction: Conduction, buses: frozenset[Net]) -> Conduction:
    """Conduction in which every load conducts as well."""
    network = build_network(circuit, conduction.spaces, [(load.a, load.b) for load in circuit.loads])
    ways = {id(way): way for piece in network.pieces for way in piece.ways}
    pieces = cut(network.nets.values(), network.rails | buses, ways.values())
    return Conduction(with_pieces(network, pieces)._replace(buses=buses), conduction.spaces)
