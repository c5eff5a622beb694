"""Where current might run through a load by way of other loads, in series with it or beside it.

Loads are taken as conductors. But a net that conductors hold at a rail stands at that rail, whatever loads hang on it:
no current comes to it from the other rail that could go on to a third place. So a way from + ends at nets held at −,
and a way to − ends at nets held at +, which keeps the motors behind one emergency stop out of one another's questions.
The way to − is looked for only in the states in which there is one from +.

That is worth its cost in wide networks only; in a narrow one every way is followed, which finds no less: what it finds
beyond that has no volts when it comes to be solved.
"""

from collections.abc import Iterable
from math import prod

from circuitcheck.analysis.conduction import DENSE, Conduction
from circuitcheck.analysis.network import Net, Network, Way, build_network, cut, with_pieces, with_ways
from circuitcheck.analysis.rails import Difference
from circuitcheck.analysis.regions import Regions, ends_of
from circuitcheck.analysis.states import States, union
from circuitcheck.circuit.model import Circuit, Terminal


class ThroughLoads:
    """The conduction around load number `load` in which the loads `near` it conduct as well."""

    def __init__(self, circuit: Circuit, load: int, near: list[int], conduction: Conduction, regions: Regions) -> None:
        self._conduction = conduction
        self._buses = regions.buses
        self._single = regions.held == conduction.network.rails
        if self._single:
            self._network = _around(circuit, (load, *near), near, conduction, regions)
        else:
            bridges = [(circuit.loads[other].a, circuit.loads[other].b) for other in near]
            self._network = network_over(circuit, bridges, conduction)
        self._narrow = None if _is_wide(self._network, conduction) else Conduction(self._network, conduction.spaces)

    def across(self, difference: Difference, high: Terminal, low: Terminal) -> States:
        """The states in which current might come from the difference's high rail to `high`, and go from `low` to its
        low rail. A bus that is held at a rail stands for it."""
        nets = self._network.nets
        if self._narrow is not None:
            into_high = self._from(self._narrow, difference.high, nets[high]) & difference.live
            return into_high & self._to(self._narrow, nets[low], difference.low) if into_high else into_high
        into = with_ways(self._network, lambda way: way.closed - self._held(way.head, difference.low))
        conduction = Conduction(into, self._conduction.spaces)
        arrived = self._from(conduction, difference.high, nets[high]) & difference.live
        if not arrived:
            return arrived

        def only_then(way: Way) -> States:
            return (way.closed - self._held(way.tail, difference.high)) & arrived

        out_of = with_ways(self._network, only_then)
        return arrived & self._to(Conduction(out_of, self._conduction.spaces), nets[low], difference.low)

    def _from(self, through: Conduction, rail: Net, net: Net) -> States:
        found = (through.leads_between(one.net, net, one.held) for one in self._buses.at[rail])
        return union(found, through.spaces.none())

    def _to(self, through: Conduction, net: Net, rail: Net) -> States:
        found = (through.leads_between(net, one.net, one.held) for one in self._buses.at[rail])
        return union(found, through.spaces.none())

    def _held(self, net: Net, rail: Net) -> States:
        """The states in which conductors join a net to a rail both ways. With supplies that meet in places, none: a
        rail may then be a mere junction."""
        if not self._single or net in self._network.borders:
            return self._conduction.spaces.none()
        out = self._conduction.leads_between(net, rail)
        return self._conduction.leads_between(rail, net, out) if out else out


def _is_wide(network: Network, conduction: Conduction) -> bool:
    radices = conduction.spaces.radices
    return any(prod(radices[digit] for digit in piece.digits) > DENSE for piece in network.pieces)


def _around(
    circuit: Circuit, loads: Iterable[int], bridges: Iterable[int], conduction: Conduction, regions: Regions
) -> Network:
    """The network around these loads, with `bridges` as conductors. What lies beyond held rails and buses is there as
    ways from rail to rail, if at all."""
    network = conduction.network
    touched = frozenset[Net]().union(*(ends_of(circuit, network, load) for load in loads))
    near = {regions.of[net] for net in touched - regions.borders}
    pieces = {id(piece): piece for region in sorted(near) for piece in regions.pieces.get(region, ())}
    ways = [way for piece in pieces.values() for way in piece.ways]
    rails = sorted(network.rails)
    beyond = [Way(one, other, conduction.leads_between(one, other)) for one in rails for other in rails if one != other]
    ways += [way for way in beyond if way.closed]
    always = conduction.spaces.all()
    for a, b in ((network.nets[circuit.loads[one].a], network.nets[circuit.loads[one].b]) for one in bridges):
        ways += [Way(a, b, always), Way(b, a, always)] if a != b else []
    nets = touched.union([net for way in ways for net in way[:2]])
    kept = cut(nets, network.rails | regions.buses.nets, ways)
    return with_pieces(network, kept)._replace(buses=regions.buses.nets)


def network_over(circuit: Circuit, bridges: list[tuple[Terminal, Terminal]], conduction: Conduction) -> Network:
    """The network with loads as conductors, where rails can be mere junctions. A way may lead over both of a supply
    that is off: a load of one and a load of the other may be in series."""
    return build_network(circuit, conduction.spaces, bridges)._replace(opposite=frozenset())
