"""Which loads are fed, with how many volts, in which states.

A load whose ends conductors join to two rails stands at the difference of those rails, and no volts need computing. A
load that nothing joins to two rails, not even through other loads, has no volts at all. What is left over, where loads
meet in series or in a bridge, is `open`: the operating point decides it (operating_point.py).
"""

from typing import NamedTuple

from circuitcheck.analysis.conduction import Conduction
from circuitcheck.analysis.network import Network, build_network
from circuitcheck.analysis.rails import Difference
from circuitcheck.analysis.states import States
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


def feed_loads(
    circuit: Circuit, conduction: Conduction, differences: tuple[Difference, ...], shorted: States
) -> tuple[Feeding, ...]:
    """How each of the circuit's loads is fed, in the order of Circuit.loads. Shorted states are nobody's."""
    return tuple(_feed(circuit, number, conduction, differences, shorted) for number in range(len(circuit.loads)))


def _feed(
    circuit: Circuit, number: int, conduction: Conduction, differences: tuple[Difference, ...], shorted: States
) -> Feeding:
    load = circuit.loads[number]
    through_loads = _with_other_loads(circuit, number, conduction)
    none = conduction.spaces.none()
    fed: list[Fed] = []
    settled, possible = none, none
    for difference in differences:
        forward = _across(conduction, difference, load.a, load.b) - settled - possible
        backward = _across(conduction, difference, load.b, load.a) - settled - possible
        if through_loads is not None:
            possible = possible | _across(through_loads, difference, load.a, load.b)
            possible = possible | _across(through_loads, difference, load.b, load.a)
        settled = settled | forward | backward
        if forward or backward:
            fed.append(Fed(difference.volts, (forward - shorted).tight(), (backward - shorted).tight()))
        possible = possible - settled
    bridged = conduction.leads(load.a, load.b) & conduction.leads(load.b, load.a)
    return Feeding(tuple(fed), (possible - bridged - shorted).tight())


def _across(conduction: Conduction, difference: Difference, high: Terminal, low: Terminal) -> States:
    """The states in which current can go from the difference's high rail to `high`, and from `low` to its low rail."""
    nets = conduction.network.nets
    into = conduction.leads_between(difference.high, nets[high])
    if not into:
        return into
    return into & conduction.leads_between(nets[low], difference.low) & difference.live


def _with_other_loads(circuit: Circuit, number: int, conduction: Conduction) -> Conduction | None:
    """The conduction in which the other loads that could matter to this one conduct too; None where none can."""
    near = loads_around(circuit, number, conduction.network)
    if not near:
        return None
    bridges = [(circuit.loads[other].a, circuit.loads[other].b) for other in near]
    return Conduction(build_network(circuit, conduction.spaces, bridges), conduction.spaces)


def loads_around(circuit: Circuit, number: int, network: Network) -> list[int]:
    """The loads that some state may put in series with this one, or beside it through something not a rail.

    They hang together with it by pieces and loads in turn, without a rail between. Where this load and another stand
    on the same rail with one end each, current of the one never runs through the other: two coils on one return.
    """
    ends = [(network.nets[load.a], network.nets[load.b]) for load in circuit.loads]
    own_rails = {net for net in ends[number] if net in network.rails}
    pieces = [{id(network.piece_of[net]) for net in pair if net not in network.rails} for pair in ends]
    reached, near = set(pieces[number]), {number}
    grown = True
    while grown:
        grown = False
        for other in range(len(ends)):
            if other in near or not pieces[other] & reached or own_rails.intersection(ends[other]):
                continue
            near.add(other)
            reached |= pieces[other]
            grown = True
    return sorted(near - {number})
