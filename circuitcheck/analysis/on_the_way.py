"""Does a conductor lie on a way from here to there, and in which states?

    on a way from X to Y over c = (u, v):  X leads to u without c, c is closed, v leads to Y without c,
                                           and no single junction parts c from X and Y both

The last condition leaves out loops that merely hang on a way, like a seal-in contact beside its pressed button.

Terminals are asked about singly, so that wires have an answer too; only those of one rail are one junction, as a way
never goes on over a rail. The rails' own wires and fuses are always closed: there it is a question of the wiring alone,
and a ring of wires counts whole.

Two things keep a box with fifty motors behind one stop as cheap as fifty boxes. What lies on ways from X to Y at all is
a chain of blocks (chains.py) that hang together at single junctions, and each is asked alone: other motors' branches
hang on the bus beside the chain. And nothing is asked but in the states in which the current flows: there the way back
to − of one motor never leads up to the bus, beyond which all the others lie.

Cost: for each conductor of a chain four searches (spreading.py) in its block, and some for each junction where ways
part, which end where their states have all been met.
"""

from collections.abc import Iterator
from typing import NamedTuple

from circuitcheck.analysis.biconnected import Block, Branch
from circuitcheck.analysis.chains import Blocks
from circuitcheck.analysis.conduction import Conduction
from circuitcheck.analysis.network import build_network
from circuitcheck.analysis.spreading import Beside, Junction, leads, reached
from circuitcheck.analysis.states import States
from circuitcheck.circuit.model import Circuit, Conductor, Terminal

Sides = tuple[frozenset[Terminal], frozenset[Terminal]]


class Mesh(NamedTuple):
    """A block's conductors. onward: the ways of current; backward: the same turned round; touching: with diodes passing
    both ways. forks: junctions where more than two ways meet."""

    onward: Beside
    backward: Beside
    touching: Beside
    forks: frozenset[Junction]


class Link(NamedTuple):
    """A block of a chain, between the junctions where ways come into it and leave it."""

    block: Mesh
    near: Junction
    far: Junction


class OnTheWay:
    """Answers for the conductors of one circuit, by their index."""

    def __init__(self, circuit: Circuit, conduction: Conduction) -> None:
        self._circuit = circuit
        uncut = not conduction.network.buses
        self._network = conduction.network if uncut else build_network(circuit, conduction.spaces)
        self._spaces = conduction.spaces
        self._singles = {terminal: number for number, terminal in enumerate(self._network.nets)}
        self._borders = frozenset(-1 - rail for rail in self._network.rails)
        self._piece = {net: min(piece.nets) for piece in self._network.pieces for net in piece.nets}
        self._inside = {self._singles[terminal]: net for terminal, net in self._network.nets.items()}
        self._groups: dict[int, list[Branch]] = {}
        for number, one in enumerate(circuit.conductors):
            if not self.on_rail(number):
                ends = self.junction(one.tail), self.junction(one.head)
                self._groups.setdefault(self._group(number), []).append(Branch(number, *ends, one.one_way))
        self._closed = [self._closed_in(one) for one in circuit.conductors]
        self._blocks: dict[tuple[int, Junction, frozenset[Junction]], Blocks] = {}
        self._meshes: dict[tuple[int, Junction, frozenset[Junction], int], Mesh] = {}
        self._chains: dict[tuple[int, Junction, Junction], tuple[Link, ...]] = {}
        self._sides: dict[int, Sides] = {}

    def junction(self, terminal: Terminal) -> Junction:
        """The junction that a terminal belongs to."""
        net = self._network.nets[terminal]
        return -1 - net if net in self._network.rails else self._singles[terminal]

    def on_rail(self, conductor: int) -> bool:
        """Does it join two terminals of one rail?"""
        one = self._circuit.conductors[conductor]
        return self.junction(one.tail) == self.junction(one.head) < 0

    def between(self, start: Junction, end: Junction, within: States) -> Iterator[tuple[int, States]]:
        """Each conductor that lies on a way from one junction to another in some of the states `within`, and in which.
        A rail's own wires are left out."""
        for group in self._groups_between(start, end):
            chain = self._chain(group, start, end)
            led = self._led(chain, within)
            for link in chain if led else ():
                yield from self._in_link(link, start, end, led)

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

    def _led(self, chain: tuple[Link, ...], within: States) -> States:
        """Those of the states in which each block of a chain leads on to the next."""
        led = within if chain else self._spaces.none()
        for link in chain if led else ():
            ways, source, goal = self._from_inside(link)
            led = leads(ways, self._borders, source, {goal}, led)
            if not led:
                break
        return led

    def _from_inside(self, link: Link) -> tuple[Beside, Junction, Junction]:
        """The ways through a block, where they begin and where they end, turned round where they would begin at a rail:
        whatever lies on a way is met from either end, and from inside little else is."""
        if link.near in self._borders and link.far not in self._borders:
            return link.block.backward, link.far, link.near
        return link.block.onward, link.near, link.far

    def _in_link(self, link: Link, start: Junction, end: Junction, led: States) -> Iterator[tuple[int, States]]:
        """The conductors of one block on ways through it, in states in which the whole chain leads on."""
        ways, source, _ = self._from_inside(link)
        met = reached(ways, self._borders, source, led)
        passed = (junction for junction in met if junction == source or junction not in self._borders)
        for number in sorted({number for junction in passed for number, _, _ in ways.get(junction, ())}):
            one = self._circuit.conductors[number]
            ends = self.junction(one.tail), self.junction(one.head)
            found = self._spaces.none()
            for here, there in (ends, ends[::-1])[: 1 if one.one_way else 2]:
                if here != end and there != start:
                    states = met.get(here if source == link.near else there)
                    found = found | self._over(number, (here, there), link, states) if states else found
            if found:
                found = self._not_parted(link, met, ends, found)
            if found:
                yield number, found.tight()

    def _over(self, number: int, ends: tuple[Junction, Junction], link: Link, within: States) -> States:
        """The states of `within` in which a way leads through the block over a conductor, from one of its ends to the
        other. Both searches begin at it, since beyond the ends of a block may lie all else."""
        (here, there), left = ends, within & self._closed[number]
        left = leads(link.block.backward, self._borders, here, {link.near}, left, number) if left else left
        return leads(link.block.onward, self._borders, there, {link.far}, left, number) if left else left

    def _not_parted(
        self, link: Link, met: dict[Junction, States], ends: tuple[Junction, Junction], states: States
    ) -> States:
        """Those of the states in which no junction parts the conductor from both ends of its block, and so of a way.

        One that only two ways touch is left out, since the next along would part it as well; and in states in which a
        way doesn't come to a junction it parts nothing.
        """
        for parting in {*link.block.forks, *ends, link.near, link.far}:
            parted = states & met[parting] if parting in met else self._spaces.none()
            goals = {link.near, link.far} - {parting}
            for source in set(ends) - {parting} if parted else ():
                parted = parted - leads(link.block.touching, self._borders, source, goals, parted, avoided=parting)
            states = states - parted if parted else states
        return states

    def _groups_between(self, start: Junction, end: Junction) -> Iterator[int]:
        """The pieces in which ways between two junctions lie: one, but for those between two rails."""
        inside = next((one for one in (start, end) if one not in self._borders), None)
        if start == end:
            return
        if inside is None:
            yield from self._groups
        else:
            yield self._piece[self._inside[inside]]

    def _chain(self, group: int, start: Junction, end: Junction) -> tuple[Link, ...]:
        """The blocks on ways between two junctions of a piece; none where there are none."""
        key = (group, start, end)
        if key not in self._chains:
            root, top = (end, start) if start not in self._borders and end in self._borders else (start, end)
            kept = self._borders & {start, end}
            near, found = root, []
            for block, far in self._blocks_of(group, root, kept).chain(top) or ():
                mesh = self._mesh((group, root, kept, block.branches[0].number), block)
                found.append(Link(mesh, *((near, far) if root == start else (far, near))))
                near = far
            self._chains[key] = tuple(found if root == start else reversed(found))
        return self._chains[key]

    def _blocks_of(self, group: int, root: Junction, kept: frozenset[Junction]) -> Blocks:
        """The blocks of a piece, without the rails at which ways end."""
        key = (group, root, kept)
        if key not in self._blocks:
            left_out = self._borders - kept
            branches = [one for one in self._groups.get(group, ()) if not {one.tail, one.head} & left_out]
            self._blocks[key] = Blocks(branches, root)
        return self._blocks[key]

    def _mesh(self, key: tuple[int, Junction, frozenset[Junction], int], block: Block) -> Mesh:
        if key not in self._meshes:
            self._meshes[key] = _laid_out(block, self._closed)
        return self._meshes[key]

    def _group(self, conductor: int) -> int:
        """A number for the piece of a conductor: that of its lowest net inside, or its own if it joins two rails."""
        one = self._circuit.conductors[conductor]
        nets = self._network.nets[one.tail], self._network.nets[one.head]
        return next((self._piece[net] for net in nets if net in self._piece), -1 - conductor)

    def _closed_in(self, one: Conductor) -> States:
        return self._spaces.where(one.closed.digit, one.closed.values) if one.closed else self._spaces.all()


def _hanging_on(terminal: Terminal, beside: dict[Terminal, list[Terminal]]) -> frozenset[Terminal]:
    found, edge = {terminal}, [terminal]
    while edge:
        for other in beside.get(edge.pop(), ()):
            if other not in found:
                found.add(other)
                edge.append(other)
    return frozenset(found)


def _laid_out(block: Block, closed_in: list[States]) -> Mesh:
    mesh = Mesh({}, {}, {}, frozenset())
    for number, tail, head, one_way in block.branches:
        closed = closed_in[number]
        for here, there in ((tail, head), (head, tail)):
            mesh.touching.setdefault(here, []).append((number, there, closed))
            if here == tail or not one_way:
                mesh.onward.setdefault(here, []).append((number, there, closed))
                mesh.backward.setdefault(there, []).append((number, here, closed))
    beyond = {here: {there for _, there, _ in ways} for here, ways in mesh.touching.items()}
    return mesh._replace(forks=frozenset(here for here, others in beyond.items() if len(others) > 2))
