"""Where current might run through a load by way of other loads, in series with it or beside it.

Loads are taken as conductors. But a net that conductors hold at a rail stands at that rail, whatever loads hang on it:
no current comes to it from the other rail that could go on to a third place. So a way from + ends at nets held at −,
and a way to − ends at nets held at +, which keeps the motors behind one emergency stop out of one another's questions.
The way to − is looked for only in the states in which there is one from +.

That is worth its cost in wide networks only; in a narrow one every way is followed, which finds no less: what it finds
beyond that has no volts when it comes to be solved.
"""

from math import prod

from circuitcheck.analysis.conduction import DENSE, Conduction
from circuitcheck.analysis.network import Net, Network, Way, build_network, with_ways
from circuitcheck.analysis.rails import Difference
from circuitcheck.analysis.regions import Regions
from circuitcheck.analysis.states import States
from circuitcheck.circuit.model import Circuit, Terminal


class ThroughLoads:
    """The conduction of a circuit in which some loads, given by their ends, conduct as well."""

    def __init__(
        self, circuit: Circuit, bridges: list[tuple[Terminal, Terminal]], conduction: Conduction, regions: Regions
    ) -> None:
        self._conduction = conduction
        self._network = network_over(circuit, bridges, conduction, regions)
        self._single = regions.held == conduction.network.rails
        self._narrow = None if _is_wide(self._network, conduction) else Conduction(self._network, conduction.spaces)

    def across(self, difference: Difference, high: Terminal, low: Terminal) -> States:
        """The states in which current might come from the difference's high rail to `high`, and go from `low` to its
        low rail."""
        spaces, nets = self._conduction.spaces, self._network.nets
        if self._narrow is not None:
            into_high = self._narrow.leads_between(difference.high, nets[high]) & difference.live
            return into_high & self._narrow.leads_between(nets[low], difference.low) if into_high else into_high
        into = with_ways(self._network, lambda way: way.closed - self._held(way.head, difference.low))
        arrived = Conduction(into, spaces).leads_between(difference.high, nets[high]) & difference.live
        if not arrived:
            return arrived

        def only_then(way: Way) -> States:
            return (way.closed - self._held(way.tail, difference.high)) & arrived

        out_of = with_ways(self._network, only_then)
        return arrived & Conduction(out_of, spaces).leads_between(nets[low], difference.low)

    def _held(self, net: Net, rail: Net) -> States:
        """The states in which conductors join a net to a rail both ways. With supplies that meet in places, none: a
        rail may then be a mere junction."""
        if not self._single or net in self._network.rails:
            return self._conduction.spaces.none()
        out = self._conduction.leads_between(net, rail)
        return out & self._conduction.leads_between(rail, net) if out else out


def _is_wide(network: Network, conduction: Conduction) -> bool:
    radices = conduction.spaces.radices
    return any(prod(radices[digit] for digit in piece.digits) > DENSE for piece in network.pieces)


def network_over(
    circuit: Circuit, bridges: list[tuple[Terminal, Terminal]], conduction: Conduction, regions: Regions
) -> Network:
    """The network with loads as conductors. Where rails can be mere junctions, a way may lead over both of a supply
    that is off: a load of one and a load of the other may be in series."""
    network = build_network(circuit, conduction.spaces, bridges)
    return network if regions.held == network.rails else network._replace(opposite=frozenset())
