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

from circuitcheck.analysis.conduction import DENSE, Conduction, Reached, widened
from circuitcheck.analysis.network import Way, build_network
from circuitcheck.analysis.reach import Leading, reach_in_slice
from circuitcheck.analysis.states import Space, Spaces, States
from circuitcheck.circuit.model import Circuit, Conductor, Terminal

Junction = int
"""A terminal, or all terminals of one rail."""

Sides = tuple[frozenset[Terminal], frozenset[Terminal]]


class OnTheWay:
    """Answers for the conductors of one circuit, by their index."""

    def __init__(self, circuit: Circuit, conduction: Conduction) -> None:
        self._circuit = circuit
        uncut = not conduction.network.buses
        self._network = conduction.network if uncut else build_network(circuit, conduction.spaces)
        self._spaces = conduction.spaces
        self._singles = {terminal: number for number, terminal in enumerate(self._network.nets)}
        self._borders = frozenset(-1 - rail for rail in self._network.rails)
        self._groups: dict[int, list[tuple[int, Way]]] = {}
        for number, one in enumerate(circuit.conductors):
            if not self.on_rail(number):
                self._groups.setdefault(self._group(number), []).extend((number, way) for way in self._ways(one))
        self._spaces_of = {group: self._widen(group) for group in self._groups}
        self._known: dict[tuple[int, Junction, bool], Reached] = {}
        self._sides: dict[int, Sides] = {}
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

    def rail_sides(self, conductor: int) -> Sides:
        """For a rail's own wire or fuse: the rail's terminals that hang on its tail, and on its head, without it."""
        if conductor not in self._sides:
            self._sides[conductor] = self._find_sides(conductor)
        return self._sides[conductor]

    def _find_sides(self, conductor: int) -> Sides:
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
            kept = [one for one in self._groups[group] if parting not in (one[1].tail, one[1].head)]
            self._avoided[key] = self._search(group, [*kept, *_turned_round(kept)], source)
        return self._avoided[key]

    def _group(self, conductor: int) -> int:
        """A number for the piece of a conductor: that of its lowest net inside, or its own if it joins two rails."""
        one = self._circuit.conductors[conductor]
        for end in (one.tail, one.head):
            if self.junction(end) >= 0:
                return min(self._network.piece_of[self._network.nets[end]].nets)
        return -1 - conductor

    def _widen(self, group: int) -> Space | None:
        """Brings the ways of a piece over one space, which it tells; None where that would be too wide."""
        ways = self._groups[group]
        digits = {digit for _, way in ways for digit in way.closed.space.digits}
        if prod(self._spaces.radices[digit] for digit in digits) > DENSE:
            return None
        same, everything = widened([way for _, way in ways], self._spaces, digits)
        self._groups[group] = [(number, way) for (number, _), way in zip(ways, same, strict=True)]
        return everything.space

    def _ways(self, one: Conductor) -> Iterable[Way]:
        tail, head = self.junction(one.tail), self.junction(one.head)
        closed = self._closed(one)
        if closed:
            yield Way(tail, head, closed)
        if closed and not one.one_way:
            yield Way(head, tail, closed)

    def _closed(self, one: Conductor) -> States:
        return self._spaces.where(one.closed.digit, one.closed.values) if one.closed else self._spaces.all()

    def _reach(self, without: int, source: Junction, outward: bool) -> Reached:
        """Where `source` leads to, or where current to it can come from, over the piece's other conductors."""
        key = (without, source, outward)
        if key not in self._known:
            group = self._group(without)
            ways = [(number, way) for number, way in self._groups[group] if number != without]
            self._known[key] = self._search(group, ways if outward else _turned_round(ways), source)
        return self._known[key]

    def _search(self, group: int, ways: list[tuple[int, Way]], source: Junction) -> Reached:
        space = self._spaces_of[group]
        if space is None:
            from circuitcheck.analysis.blocks import reach_by_blocks

            return reach_by_blocks([way for _, way in ways], source, self._borders, self._spaces)
        leading: Leading = {}
        for _, way in ways:
            leading.setdefault(way.tail, []).append((way.head, way.closed.bits))
        return _Narrow(self._spaces, space, reach_in_slice(leading, source, self._borders, space.full))


class _Narrow:
    """What `source` leads to, over one space."""

    def __init__(self, spaces: Spaces, space: Space, reached: dict[Junction, int]) -> None:
        self._spaces = spaces
        self._space = space
        self._reached = reached

    def get(self, junction: Junction, default: States, /) -> States:
        """The states in which it is reached."""
        bits = self._reached.get(junction, 0)
        return States(self._spaces, self._space, bits) if bits else default


def _turned_round(ways: list[tuple[int, Way]]) -> list[tuple[int, Way]]:
    return [(number, Way(way.head, way.tail, way.closed)) for number, way in ways]


def _hanging_on(terminal: Terminal, beside: dict[Terminal, list[Terminal]]) -> frozenset[Terminal]:
    found, edge = {terminal}, [terminal]
    while edge:
        for other in beside.get(edge.pop(), ()):
            if other not in found:
                found.add(other)
                edge.append(other)
    return frozenset(found)
