"""Which loads are fed, with how many volts, in which states.

A load whose ends conductors join to two rails stands at the difference of those rails, and no volts need computing. A
load that nothing joins to two rails, not even through other loads, has no volts at all. What is left over, where loads
meet in series or in a bridge, is `open`: the operating point decides it (operating_point.py).
"""

from typing import NamedTuple

from circuitcheck.analysis.conduction import Conduction
from circuitcheck.analysis.network import Network
from circuitcheck.analysis.rails import Difference
from circuitcheck.analysis.regions import Regions, ends_of
from circuitcheck.analysis.states import States
from circuitcheck.analysis.through_loads import ThroughLoads, network_over
from circuitcheck.circuit.model import Circuit, Terminal


class Fed(NamedTuple):
    """In `forward` the load stands at `volts` with `a` positive, in `backward` with `b` positive."""

    volts: float
    forward: States
    backward: States


class Feeding(NamedTuple):
    """One load. fed: by conductors alone, most volts first, each state in at most one of them. open: volts decide."""

    fed: tuple[Fed, ...]
    open: States


def feed_load(
    circuit: Circuit,
    number: int,
    conduction: Conduction,
    differences: tuple[Difference, ...],
    shorted: States,
    regions: Regions,
) -> Feeding:
    """How load number `number` of the circuit is fed. Shorted states are nobody's."""
    if number in regions.tangled:
        return Feeding((), _in_some_loop(circuit, number, conduction, regions.tangled) - shorted)
    load = circuit.loads[number]
    through_loads = _with_other_loads(circuit, number, conduction, regions)
    none = conduction.spaces.none()
    fed: list[Fed] = []
    settled, possible = none, none
    for difference in differences:
        forward = across(conduction, difference, load.a, load.b) - settled - possible
        backward = across(conduction, difference, load.b, load.a) - settled - possible
        if through_loads is not None:
            possible = possible | through_loads.across(difference, load.a, load.b)
            possible = possible | through_loads.across(difference, load.b, load.a)
        settled = settled | forward | backward
        if forward or backward:
            fed.append(Fed(difference.volts, (forward - shorted).tight(), (backward - shorted).tight()))
        possible = possible - settled
    bridged = leads_both_ways(conduction, load.a, load.b, possible)
    return Feeding(tuple(fed), (possible - bridged - shorted).tight())


def leads_both_ways(conduction: Conduction, one: Terminal, other: Terminal, within: States) -> States:
    """The states, of those within, in which conductors join two terminals in both directions of current."""
    nets = conduction.network.nets
    return conduction.leads_both_ways(nets[one], nets[other], within)


def across(conduction: Conduction, difference: Difference, high: Terminal, low: Terminal) -> States:
    """The states in which current can go from the difference's high rail to `high`, and from `low` to its low rail."""
    nets = conduction.network.nets
    into = conduction.leads_between(difference.high, nets[high])
    if not into:
        return into
    return conduction.leads_between(nets[low], difference.low, into & difference.live)


def _in_some_loop(circuit: Circuit, number: int, conduction: Conduction, tangled: frozenset[int]) -> States:
    """The states in which current might run through a tangled load and back, through other loads and supplies."""
    bridges = [(circuit.loads[other].a, circuit.loads[other].b) for other in tangled if other != number]
    bridges += [(supply.plus, supply.minus) for supply in circuit.supplies]
    through = Conduction(network_over(circuit, bridges, conduction), conduction.spaces)
    load = circuit.loads[number]
    return (through.leads(load.a, load.b) | through.leads(load.b, load.a)).tight()


def _with_other_loads(circuit: Circuit, number: int, conduction: Conduction, regions: Regions) -> ThroughLoads | None:
    """The conduction in which the other loads that could matter to this one conduct too; None where none can."""
    near = loads_around(circuit, number, conduction.network, regions)
    return ThroughLoads(circuit, number, near, conduction, regions) if near else None


def loads_around(circuit: Circuit, number: int, network: Network, regions: Regions) -> list[int]:
    """The loads that some state may put in series with this one, or beside it through something not held.

    They hang together with it by regions and loads in turn. Where this load and another stand on the same held rail
    or bus with one end each, current of the one never runs through the other: two coils on one return.
    """
    ends = ends_of(circuit, network, number)
    own = ends & regions.borders
    reached = {regions.of[net] for net in ends - own}
    near, waiting = {number}, list(reached)
    while waiting:
        for other in regions.loads.get(waiting.pop(), ()):
            ends = ends_of(circuit, network, other)
            if other not in near and not own & ends:
                near.add(other)
                further = {regions.of[net] for net in ends - regions.borders} - reached
                reached |= further
                waiting.extend(further)
    return sorted(near - {number})
