"""Contacts through which current runs either way: links between two lines, through which one feeds the other's loads.

Only loads that always take their current in the same direction tell; a motor's leads, and what hangs on them, carry it
both ways on purpose. Contacts side by side between the same two nets count as one link.

What can't be a link is sorted out first without looking at states: from both of its sides a supply must be in reach on
the way in, and a load on the way out, without the other side.
"""

from collections.abc import Callable, Hashable, Iterator
from functools import partial
from typing import NamedTuple

from circuitcheck.analysis.conduction import Conduction
from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.feeding import across
from circuitcheck.analysis.likeness import of_each
from circuitcheck.analysis.network import Net, Network, Piece, Way, with_pieces, with_ways
from circuitcheck.analysis.regions import ends_of
from circuitcheck.analysis.states import States, union

TWO_WAY_KINDS = ("motor", "resistor")
MOVING_KINDS = ("coil", "input", "motor", "solenoid")
"""What moves something, by itself or through its contacts."""


class Fed(NamedTuple):
    """A load that has its volts only because the link conducts in that direction: in these states."""

    load: int
    states: States


class Link(NamedTuple):
    """Current runs from net `near` to net `far` for the loads in `onward`, and from far to near for those in `back`.

    In contacts, near is nearer to the supplies' plus, measured by how near it is to their minus. Where both are alike,
    and relays or motors hang on one side alone, those are in `back`.
    """

    near: Net
    far: Net
    onward: tuple[Fed, ...]
    back: tuple[Fed, ...]


def links(facts: Facts) -> Iterator[Link]:
    """Every link through which operation sends current both ways."""
    loads = one_way_loads(facts)
    graph = _Graph(facts, loads)
    places = _Places(facts, loads)

    def between(ends: tuple[Net, Net]) -> Iterator[Link]:
        one, other = ends
        # Most contacts never could carry current both ways; only of others are all loads asked, and operation.
        needing, needing_back = _needing(facts, places, (one, other)), _needing(facts, places, (other, one))
        first = next(needing, None)
        first_back = next(needing_back, None) if first else None
        ahead = _met(facts, (first, *needing)) if first and first_back else ()
        back = _met(facts, (first_back, *needing_back)) if first_back and ahead else ()
        if ahead and back:
            further = graph.distance(one) - graph.distance(other) or _moves(facts, ahead) - _moves(facts, back)
            yield Link(other, one, back, ahead) if further > 0 else Link(one, other, ahead, back)

    yield from of_each(graph.candidates(), partial(_kin, facts), between)


def _kin(facts: Facts, ends: tuple[Net, Net]) -> tuple[Hashable, ...]:
    return tuple(facts.likeness.at.get(("net", net), net) for net in ends)


def _moves(facts: Facts, fed: tuple[Fed, ...]) -> bool:
    return any(facts.circuit.loads[one.load].kind in MOVING_KINDS for one in fed)


def one_way_loads(facts: Facts) -> tuple[int, ...]:
    """The loads, motors and resistors aside, that conductors feed in one direction only."""
    found = []
    for number, load in enumerate(facts.circuit.loads):
        if load.kind not in TWO_WAY_KINDS:
            fed = facts.feeding[number].fed
            if any(one.forward for one in fed) != any(one.backward for one in fed):
                found.append(number)
    return tuple(found)


def _needing(facts: Facts, places: "_Places", ends: tuple[Net, Net]) -> Iterator[Fed]:
    """The loads that are fed over the link from its first end to its second, and not without it."""
    network, loads = places.around(ends)
    one_way = _with(facts, network, lambda way: (way.tail, way.head) != ends[::-1])
    without = _with(facts, network, lambda way: {way.tail, way.head} != set(ends))
    for number in loads:
        needing = _feeding(facts, one_way, number)
        needing = needing - _feeding(facts, without, number) if needing else needing
        needing = facts.possible(needing - facts.shorted) if needing else needing
        if needing:
            yield Fed(number, needing)


def _met(facts: Facts, needing: tuple[Fed, ...]) -> tuple[Fed, ...]:
    """Those in which operation comes to rest."""
    met = (one._replace(states=facts.reached_at_rest(one.states).tight()) for one in needing)
    return tuple(one for one in met if one.states)


def _with(facts: Facts, network: Network, keep: Callable[[Way], bool]) -> Conduction:
    none = facts.spaces.none()
    return Conduction(with_ways(network, lambda way: way.closed if keep(way) else none), facts.spaces)


class _Places:
    """As much of the network as a link can matter in.

    A contact that changes nothing between the borders of its piece matters to the loads at that piece alone. What feeds
    the piece's borders is then as it always is.
    """

    def __init__(self, facts: Facts, loads: tuple[int, ...]) -> None:
        self._facts = facts
        self._loads = loads
        self._network = network = facts.conduction.network
        self._home = {(way.tail, way.head): piece for piece in network.pieces for way in piece.ways}
        self._ends = {number: ends_of(facts.circuit, network, number) for number in loads}
        self._at: dict[Net, list[int]] = {}
        for number, ends in self._ends.items():
            for net in ends - network.borders:
                self._at.setdefault(net, []).append(number)
        self._feeding = tuple(self._feeds())

    def around(self, ends: tuple[Net, Net]) -> tuple[Network, tuple[int, ...]]:
        """The network that has to be looked at, and the loads."""
        own = [self._home[way] for way in {ends, ends[::-1]} if way in self._home]
        if any(self._joins_borders(piece, ends) for piece in own):
            return self._network, self._loads
        inside = frozenset[Net]().union(*(piece.nets for piece in own))
        loads = sorted({number for net in inside for number in self._at.get(net, ())})
        nets = frozenset[Net]().union(*(self._ends[number] for number in loads)) - self._network.borders
        near = {id(piece): piece for piece in (*own, *(self._network.piece_of[net] for net in nets))}
        return with_pieces(self._network, (*near.values(), *self._feeding)), tuple(loads)

    def _joins_borders(self, piece: Piece, ends: tuple[Net, Net]) -> bool:
        """Does it matter to what a piece joins at its borders that the link conducts?"""
        spaces, none = self._facts.spaces, self._facts.spaces.none()
        alone = with_pieces(self._network, (piece,))
        whole = Conduction(alone, spaces)
        without = _with(self._facts, alone, lambda way: {way.tail, way.head} != set(ends))
        touched = {net for way in piece.ways for net in (way.tail, way.head)} & self._network.borders
        return any(
            union(whole.joins_directly(a, b), none) - union(without.joins_directly(a, b), none)
            for a in sorted(touched)
            for b in sorted(touched - {a})
            if (a, b) not in self._network.opposite
        )

    def _feeds(self) -> Iterator[Piece]:
        """What comes from supplies to rails and buses, and goes back, over the whole network."""
        conduction, borders = self._facts.conduction, sorted(self._network.borders)
        highs = {(one.high, net) for one in self._facts.differences for net in borders}
        lows = {(net, one.low) for one in self._facts.differences for net in borders}
        for tail, head in sorted(highs | lows):
            closed = conduction.leads_between(tail, head) if tail != head else self._facts.spaces.none()
            if closed:
                yield Piece(frozenset(), (Way(tail, head, closed),), closed.space.digits)


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
        self._borders, self._buses = network.borders, network.buses
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
        self._from_borders: dict[tuple[Net, int, int], bool] = {}
        self._behind_plus = _far(self._plus, self._onward)
        self._before_minus = _far(self._minus, self._before)
        self._givers = self._plus | self._buses_meeting(self._plus, self._before)
        self._takers = self._minus | self._buses_meeting(self._minus, self._onward)
        self._into = self._into_loads | self._buses_meeting(self._into_loads, self._onward)
        self._out_of = self._out_of_loads | self._buses_meeting(self._out_of_loads, self._before)

    def _buses_meeting(self, goal: set[Net], beside: dict[Net, set[Net]]) -> set[Net]:
        """The buses from which one of the goals is in reach: nothing beyond a bus has to be searched for each link."""
        reaching = set(goal)
        grown = True
        while grown:
            more = {bus for bus in self._buses - reaching if self._searched(bus, bus, reaching, beside)}
            reaching |= more
            grown = bool(more)
        return reaching - goal

    def distance(self, net: Net) -> int:
        """How many contacts further a net is from the nearest supply's plus than from the nearest minus."""
        unreached = len(self._onward)
        return self._behind_plus.get(net, unreached) - self._before_minus.get(net, unreached)

    def candidates(self) -> Iterator[tuple[Net, Net]]:
        """Ways that conduct both ways, and could carry current for a load both ways."""
        for one, other in sorted(self._ways):
            if one < other and (other, one) in self._ways and self._could(one, other) and self._could(other, one):
                yield one, other

    def _could(self, enter: Net, leave: Net) -> bool:
        """Can current come to `enter` and go on from `leave`, neither over the other?"""
        comes = self._meets(enter, leave, self._givers, self._before) and self._meets(
            leave, enter, self._into, self._onward
        )
        goes = self._meets(enter, leave, self._out_of, self._before) and self._meets(
            leave, enter, self._takers, self._onward
        )
        return comes or goes

    def _meets(self, start: Net, avoided: Net, goal: set[Net], beside: dict[Net, set[Net]]) -> bool:
        if start in self._borders and avoided not in self._borders:
            # Whatever hangs on a border would be searched for each link: at worst a candidate too many is looked at.
            # The goals live as long as the graph, so they are known by who they are.
            key = (start, id(goal), id(beside))
            if key not in self._from_borders:
                self._from_borders[key] = self._searched(start, start, goal, beside)
            return self._from_borders[key]
        return self._searched(start, avoided, goal, beside)

    def _searched(self, start: Net, avoided: Net, goal: set[Net], beside: dict[Net, set[Net]]) -> bool:
        seen, edge = {start, avoided}, [start]
        while edge:
            net = edge.pop()
            if net in goal:
                return True
            if net == start or net not in self._borders:
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
