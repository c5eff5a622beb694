"""Contacts through which current runs either way: links between two lines, through which one feeds the other's loads.

Only loads that always take their current in the same direction tell; a motor's leads, and what hangs on them, carry it
both ways on purpose. Contacts side by side between the same two nets count as one link.

What can't be a link is sorted out first without looking at states: from both of its sides a supply must be in reach on
the way in, and a load on the way out, without the other side.
"""

from collections.abc import Callable, Iterator
from typing import NamedTuple

from circuitcheck.analysis.conduction import Conduction
from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.feeding import across
from circuitcheck.analysis.network import Net, Network, Way, with_ways
from circuitcheck.analysis.states import States, union

TWO_WAY_KINDS = ("motor", "resistor")


class Fed(NamedTuple):
    """A load that has its volts only because the link conducts in that direction: in these states."""

    load: int
    states: States


class Link(NamedTuple):
    """Current runs from net `near` to net `far` for the loads in `onward`, and from far to near for those in `back`.

    Seen in contacts from the supplies, far is no nearer than near.
    """

    near: Net
    far: Net
    onward: tuple[Fed, ...]
    back: tuple[Fed, ...]


def links(facts: Facts) -> Iterator[Link]:
    """Every link through which operation sends current both ways."""
    network = facts.conduction.network
    loads = one_way_loads(facts)
    graph = _Graph(facts, loads)
    for one, other in graph.candidates():
        ahead = _needing(facts, network, loads, (one, other))
        back = _needing(facts, network, loads, (other, one)) if ahead else ()
        if ahead and back:
            nearer = graph.distance(one) <= graph.distance(other)
            yield Link(one, other, ahead, back) if nearer else Link(other, one, back, ahead)


def one_way_loads(facts: Facts) -> tuple[int, ...]:
    """The loads, motors and resistors aside, that conductors feed in one direction only."""
    found = []
    for number, load in enumerate(facts.circuit.loads):
        if load.kind not in TWO_WAY_KINDS:
            fed = facts.feeding[number].fed
            if any(one.forward for one in fed) != any(one.backward for one in fed):
                found.append(number)
    return tuple(found)


def _needing(facts: Facts, network: Network, loads: tuple[int, ...], ends: tuple[Net, Net]) -> tuple[Fed, ...]:
    """The loads that are fed in operation over the link from its first end to its second, and not without it."""
    none = facts.spaces.none()
    one_way = _with(facts, network, lambda way: (way.tail, way.head) != ends[::-1])
    without = _with(facts, network, lambda way: {way.tail, way.head} != set(ends))
    found = []
    for number in loads:
        needing = _feeding(facts, one_way, number) - _feeding(facts, without, number)
        reached = facts.reached_at_rest(facts.possible(needing - facts.shorted)) if needing else none
        if reached:
            found.append(Fed(number, reached.tight()))
    return tuple(found)


def _with(facts: Facts, network: Network, keep: Callable[[Way], bool]) -> Conduction:
    none = facts.spaces.none()
    return Conduction(with_ways(network, lambda way: way.closed if keep(way) else none), facts.spaces)


def _feeding(facts: Facts, conduction: Conduction, number: int) -> States:
    load = facts.circuit.loads[number]
    both = ((load.a, load.b), (load.b, load.a))
    sets = (across(conduction, one, *ends) for one in facts.differences for ends in both)
    return union(sets, facts.spaces.none())


class _Graph:
    """The contacts as a plain graph, whatever their states: what could lead where at all."""

    def __init__(self, facts: Facts, loads: tuple[int, ...]) -> None:
        circuit, network = facts.circuit, facts.conduction.network
        nets = network.nets
        self._rails = network.rails
        self._ways = {(way.tail, way.head) for piece in network.pieces for way in piece.ways}
        self._onward: dict[Net, set[Net]] = {}
        self._before: dict[Net, set[Net]] = {}
        for tail, head in self._ways:
            self._onward.setdefault(tail, set()).add(head)
            self._before.setdefault(head, set()).add(tail)
        self._plus = {nets[supply.plus] for supply in circuit.supplies}
        self._minus = {nets[supply.minus] for supply in circuit.supplies}
        ends = [(nets[circuit.loads[number].a], nets[circuit.loads[number].b]) for number in loads]
        backward = [any(fed.backward for fed in facts.feeding[number].fed) for number in loads]
        self._into_loads = {pair[turned] for pair, turned in zip(ends, backward, strict=True)} - _only(self._plus)
        self._out_of_loads = {pair[not turned] for pair, turned in zip(ends, backward, strict=True)} - _only(
            self._minus
        )
        self._contacts = _far(self._plus, self._onward)

    def distance(self, net: Net) -> int:
        """How many contacts a net is from the nearest supply's plus, at least."""
        return self._contacts.get(net, len(self._contacts))

    def candidates(self) -> Iterator[tuple[Net, Net]]:
        """Ways that conduct both ways, and could carry current for a load both ways."""
        for one, other in sorted(self._ways):
            if one < other and (other, one) in self._ways and self._could(one, other) and self._could(other, one):
                yield one, other

    def _could(self, enter: Net, leave: Net) -> bool:
        """Can current come to `enter` and go on from `leave`, neither over the other?"""
        comes = self._meets(enter, leave, self._plus, self._before) and self._meets(
            leave, enter, self._into_loads, self._onward
        )
        goes = self._meets(enter, leave, self._out_of_loads, self._before) and self._meets(
            leave, enter, self._minus, self._onward
        )
        return comes or goes

    def _meets(self, start: Net, avoided: Net, goal: set[Net], beside: dict[Net, set[Net]]) -> bool:
        seen, edge = {start, avoided}, [start]
        while edge:
            net = edge.pop()
            if net in goal:
                return True
            if net == start or net not in self._rails:
                edge.extend(beside.get(net, set()) - seen)
                seen |= beside.get(net, set())
        return False


def _only(rails: set[Net]) -> set[Net]:
    """Where all supplies share a rail, a load's end there needs no way to it."""
    return rails if len(rails) == 1 else set()


def _far(starts: set[Net], onward: dict[Net, set[Net]]) -> dict[Net, int]:
    """Each net's fewest steps from any of the starts."""
    steps = dict.fromkeys(starts, 0)
    edge = list(starts)
    for net in edge:
        for there in sorted(onward.get(net, ())):
            if there not in steps:
                steps[there] = steps[net] + 1
                edge.append(there)
    return steps
