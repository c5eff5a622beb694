"""Where the volts of one load can matter to another: nets that hang together without a held rail between.

A rail is held while its supply is on. With a single supply that is all there is to say: off, nothing has volts. With
several, one may be off while another is on, and its rail is then a mere junction through which current finds its way
from load to load. Such a rail parts nothing, where another supply's rail hangs together with it. If moreover the
supplies share no rail, a current may run through one supply, a load, another supply and a load, all in one loop.

A bus that is held or dead (held_buses.py) parts regions as a rail does.
"""

from collections.abc import Iterable
from typing import NamedTuple, TypeVar

from circuitcheck.analysis.held_buses import HeldBuses
from circuitcheck.analysis.network import Net, Network, Piece, hanging_together
from circuitcheck.circuit.model import Circuit


class Regions(NamedTuple):
    """held: the rails beyond which nothing matters, whichever supplies are off. of: a number for each net's region.

    tangled: the loads (by number) that stand where supplies meet which share no rail. loads, pieces: those that touch
    each region. buses: those that part regions as well.
    """

    held: frozenset[Net]
    of: dict[Net, int]
    tangled: frozenset[int]
    loads: dict[int, tuple[int, ...]]
    pieces: dict[int, tuple[Piece, ...]]
    buses: HeldBuses

    @property
    def borders(self) -> frozenset[Net]:
        """Where regions end."""
        return self.held | self.buses.nets


def ends_of(circuit: Circuit, network: Network, load: int) -> frozenset[Net]:
    """The nets of a load, by its number."""
    one = circuit.loads[load]
    return frozenset((network.nets[one.a], network.nets[one.b]))


def find_regions(circuit: Circuit, network: Network, buses: HeldBuses) -> Regions:
    """The regions of a network, cut at the rails that count as held and at these buses.

    A rail of every supply is always held. Another is held as well where no further supply's rail shares its region;
    where one isn't, no bus counts.
    """
    ends = [{network.nets[supply.plus], network.nets[supply.minus]} for supply in circuit.supplies]
    always = network.rails.intersection(*ends)
    loads = [(network.nets[load.a], network.nets[load.b]) for load in circuit.loads]
    # With one supply all rails are held, and nobody asks what is near.
    near = _regions(network, always, loads) if network.rails - always else {}
    porous = {
        net
        for net in network.rails - always
        if any(near[other] == near[net] for pair in ends if net not in pair for other in pair - always)
    }
    held = network.rails - porous
    meeting = {near[net] for net in porous} if not always else set()
    tangled = frozenset(
        number for number, pair in enumerate(loads) if meeting and meeting & {near[net] for net in pair}
    )
    buses = buses._replace(nets=frozenset()) if porous else buses
    of = _regions(network, held | buses.nets, ())
    near_loads = _touching(of, held | buses.nets, enumerate(loads))
    pieces = _touching(of, held | buses.nets, ((piece, _touched(piece)) for piece in network.pieces))
    return Regions(held, of, tangled, near_loads, pieces, buses)


def _touched(piece: Piece) -> frozenset[Net]:
    return piece.nets.union(*((way.tail, way.head) for way in piece.ways))


Thing = TypeVar("Thing")


def _touching(
    region: dict[Net, int], borders: frozenset[Net], things: Iterable[tuple[Thing, Iterable[Net]]]
) -> dict[int, tuple[Thing, ...]]:
    """For each region the things that have a net in it."""
    found: dict[int, list[Thing]] = {}
    for thing, nets in things:
        for number in sorted({region[net] for net in nets if net not in borders}):
            found.setdefault(number, []).append(thing)
    return {number: tuple(of_region) for number, of_region in found.items()}


def _regions(network: Network, held: frozenset[Net], loads: Iterable[tuple[Net, Net]]) -> dict[Net, int]:
    """The region of each net: conductors in whatever state join, and these loads; no region goes on past a held net."""
    ways = (way[:2] for piece in network.pieces for way in piece.ways)
    together = hanging_together([pair for pair in (*ways, *loads) if held.isdisjoint(pair)])
    region: dict[Net, int] = {}
    for net in network.nets.values():
        if net not in region:
            region.update(dict.fromkeys(together.get(net, (net,)), net))
    return region
