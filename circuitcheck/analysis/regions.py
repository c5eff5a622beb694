"""Where the volts of one load can matter to another: nets that hang together without a held rail between.

A rail is held while its supply is on. With a single supply that is all there is to say: off, nothing has volts. With
several, one may be off while another is on, and its rail is then a mere junction through which current finds its way
from load to load. Such a rail parts nothing, where another supply's rail hangs together with it. If moreover the
supplies share no rail, a current may run through one supply, a load, another supply and a load, all in one loop.
"""

from collections.abc import Iterable
from typing import NamedTuple

from circuitcheck.analysis.network import Net, Network
from circuitcheck.circuit.model import Circuit


class Regions(NamedTuple):
    """held: the rails beyond which nothing matters, whichever supplies are off. of: a number for each net's region.

    tangled: the loads (by number) that stand where supplies meet which share no rail.
    """

    held: frozenset[Net]
    of: dict[Net, int]
    tangled: frozenset[int]


def find_regions(circuit: Circuit, network: Network) -> Regions:
    """The regions of a network, cut at the rails that count as held.

    A rail of every supply is always held. Another is held as well where no further supply's rail shares its region.
    """
    ends = [{network.nets[supply.plus], network.nets[supply.minus]} for supply in circuit.supplies]
    always = network.rails.intersection(*ends)
    loads = [(network.nets[load.a], network.nets[load.b]) for load in circuit.loads]
    near = _regions(network, always, loads)
    porous = {
        net
        for net in network.rails - always
        if any(near[other] == near[net] for pair in ends if net not in pair for other in pair - always)
    }
    held = network.rails - porous
    meeting = {near[net] for net in porous} if not always else set()
    tangled = frozenset(number for number, pair in enumerate(loads) if meeting.intersection(near[net] for net in pair))
    return Regions(held, _regions(network, held, ()), tangled)


def _regions(network: Network, held: frozenset[Net], loads: Iterable[tuple[Net, Net]]) -> dict[Net, int]:
    """The region of each net: conductors in whatever state join, and these loads; no region goes on past a held net."""
    beside: dict[Net, set[Net]] = {net: set() for net in network.nets.values()}
    ways = ((way.tail, way.head) for piece in network.pieces for way in piece.ways)
    for tail, head in (*ways, *loads):
        if tail not in held and head not in held:
            beside[tail].add(head)
            beside[head].add(tail)
    region: dict[Net, int] = {}
    for first in beside:
        edge = [first]
        while edge:
            net = edge.pop()
            if net not in region:
                region[net] = first
                edge.extend(beside[net])
    return region
