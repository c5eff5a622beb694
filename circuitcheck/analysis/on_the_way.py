"""Does a conductor lie on a way from here to there, and in which states?

    on a way from X to Y over c = (u, v):  X leads to u without c, c is closed, v leads to Y without c,
                                           and no single junction parts c from X and Y both

The last condition leaves out loops that merely hang on a way, like a seal-in contact beside its pressed button.

Terminals are asked about singly, so that wires have an answer too; only those of one rail are one junction, as a way
never goes on over a rail. The rails' own wires and fuses are always closed: there it is a question of the wiring alone,
and a ring of wires counts whole.

Cost: four questions "from where to where" for each conductor and two for each junction where ways part, each of its
piece's size (network.py).
"""

from collections import Counter
from collections.abc import Iterable
from math import prod

from circuitcheck.analysis.conduction import DENSE, Conduction, Reached, reversed_ways, widened
from circuitcheck.analysis.network import Way
from circuitcheck.analysis.reach import reach
from circuitcheck.analysis.states import States
from circuitcheck.circuit.model import Circuit, Conductor, Terminal

Junction = int
"""A terminal, or all terminals of one rail."""


class OnTheWay:
    """Answers for the conductors of one circuit, by their index."""

    def __init__(self, circuit: Circuit, conduction: Conduction) -> None:
        self._circuit = circuit
        self._network = conduction.network
        self._spaces = conduction.spaces
        self._singles = {terminal: number for number, terminal in enumerate(self._network.nets)}
        self._borders = frozenset(-1 - rail for rail in self._network.rails)
        self._groups: dict[int, list[tuple[int, Way]]] = {}
        for number, one in enumerate(circuit.conductors):
            if not self.on_rail(number):
                self._groups.setdefault(self._group(number), []).extend((number, way) for way in self._ways(one))
        self._known: dict[tuple[int, Junction, bool], Reached] = {}
        self._forked: dict[int, frozenset[Junction]] = {}
        self._avoided: dict[tuple[int, Junction, Junction], Reached] = {}

    def junction(self, terminal: Terminal) -> Junction:
        """The junction that a terminal belongs to."""
        net = self._network.nets[terminal]
        return -1 - net if net in self._network.rails else self._singles[terminal]

    def on_rail(self, conductor: int) -> bool:
        """Does it join two terminals of one rail?"""
        one = self._circuit.conductors[conductor]
        return self.junction(one.tail) == self.junction(one.head) < 0

    def between(self, conductor: int, start: Junction, end: Junction) -> States:
        """The states in which it lies on a way from one junction to another; none for a rail's own wire."""
        found = none = self._spaces.none()
        if self.on_rail(conductor):
            return none
        one = self._circuit.conductors[conductor]
        tail, head = self.junction(one.tail), self.junction(one.head)
        for here, there in ((tail, head), (head, tail))[: 1 if one.one_way else 2]:
            if here != end and there != start:
                arrived = self._reach(conductor, here, False).get(start, none)
                found = found | (arrived & self._closed(one) & self._reach(conductor, there, True).get(end, none))
        return self._not_parted(conductor, found, start, end) if found else found

    def without(self, conductor: int, start: Junction, end: Junction) -> States:
        """The states in which other conductors of its piece lead from one junction to another."""
        return self._reach(conductor, start, True).get(end, self._spaces.none())

    def same_piece(self, one: int, other: int) -> bool:
        """Do two conductors that lie on no rail belong to the same piece?"""
        return self._group(one) == self._group(other)

    def rail_sides(self, conductor: int) -> tuple[frozenset[Terminal], frozenset[Terminal]]:
        """For a rail's own wire or fuse: the rail's terminals that hang on its tail, and on its head, without it."""
        one = self._circuit.conductors[conductor]
        net = self._network.nets[one.tail]
        beside: dict[Terminal, list[Terminal]] = {}
        for number, other in enumerate(self._circuit.conductors):
            if number != conductor and self._network.nets[other.tail] == self._network.nets[other.head] == net:
                beside.setdefault(other.tail, []).append(other.head)
                beside.setdefault(other.head, []).append(other.tail)
        return _hanging_on(one.tail, beside), _hanging_on(one.head, beside)

    def _not_parted(self, conductor: int, states: States, start: Junction, end: Junction) -> States:
        """Those of the states in which no junction parts the conductor from both ends of a way.

        One that only two ways touch is left out: the next along would part it as well.
        """
        one, group = self._circuit.conductors[conductor], self._group(conductor)
        ends = (self.junction(one.tail), self.junction(one.head))
        for parting in {*self._forks(group), *ends, start, end}:
            joined = self._spaces.none()
            for source in {start, end} - {parting}:
                around = self._avoiding(group, parting, source)
                for junction in set(ends) - {parting}:
                    joined = joined | around.get(junction, self._spaces.none())
            states = states & joined
            if not states:
                break
        return states

    def _forks(self, group: int) -> frozenset[Junction]:
        """The junctions of a piece that more than two conductors touch."""
        if group not in self._forked:
            touching = Counter(end for pair in self._pairs(group) for end in pair)
            self._forked[group] = frozenset(junction for junction, count in touching.items() if count > 2)
        return self._forked[group]

    def _pairs(self, group: int) -> set[tuple[Junction, Junction]]:
        return {(min(way.tail, way.head), max(way.tail, way.head)) for _, way in self._groups[group]}

    def _avoiding(self, group: int, parting: Junction, source: Junction) -> Reached:
        """Where `source` leads to with one junction taken out and diodes passing both ways."""
        key = (group, parting, source)
        if key not in self._avoided:
            kept = [way for _, way in self._groups[group] if parting not in (way.tail, way.head)]
            self._avoided[key] = self._search([*kept, *reversed_ways(kept)], source)
        return self._avoided[key]

    def _group(self, conductor: int) -> int:
        """A number for the piece of a conductor: that of its lowest net inside, or its own if it joins two rails."""
        one = self._circuit.conductors[conductor]
        for end in (one.tail, one.head):
            if self.junction(end) >= 0:
                return min(self._network.piece_of[self._network.nets[end]].nets)
        return -1 - conductor

    def _ways(self, one: Conductor) -> Iterable[Way]:
        tail, head = self.junction(one.tail), self.junction(one.head)
        yield Way(tail, head, self._closed(one))
        if not one.one_way:
            yield Way(head, tail, self._closed(one))

    def _closed(self, one: Conductor) -> States:
        return self._spaces.where(one.closed.digit, one.closed.values) if one.closed else self._spaces.all()

    def _reach(self, without: int, source: Junction, outward: bool) -> Reached:
        """Where `source` leads to, or where current to it can come from, over the piece's other conductors."""
        key = (without, source, outward)
        if key not in self._known:
            ways = [way for number, way in self._groups[self._group(without)] if number != without]
            self._known[key] = self._search(ways if outward else reversed_ways(ways), source)
        return self._known[key]

    def _search(self, ways: list[Way], source: Junction) -> Reached:
        digits = {digit for way in ways for digit in way.closed.space.digits}
        if prod(self._spaces.radices[digit] for digit in digits) > DENSE:
            from circuitcheck.analysis.blocks import reach_by_blocks

            return reach_by_blocks(ways, source, self._borders, self._spaces)
        same, everything = widened(ways, self._spaces, digits)
        found = reach(same, source, self._borders, self._spaces, digits)
        found.setdefault(source, everything)
        return found


def _hanging_on(terminal: Terminal, beside: dict[Terminal, list[Terminal]]) -> frozenset[Terminal]:
    found, edge = {terminal}, [terminal]
    while edge:
        for other in beside.get(edge.pop(), ()):
            if other not in found:
                found.add(other)
                edge.append(other)
    return frozenset(found)
