"""What lies between a rail and a terminal, or between two terminals: the conductors that can carry current there.

Ways begin at the supplies' own terminals, and keep to the rule of analysis/conduction.py: over no two rails of one
supply.
"""

from collections.abc import Collection, Iterator
from itertools import product

from circuitcheck.analysis.chains import Blocks, Branch, between
from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.network import Net
from circuitcheck.circuit.model import Terminal
from circuitcheck.ladder.drawn import Passed, Point, Series
from circuitcheck.ladder.pruning import Between, Pruner
from circuitcheck.ladder.series_parallel import Piece, reduced
from circuitcheck.ladder.wire_nets import JOINING, WireNets

Rail = Net
"""A supply's rail by its number in analysis/network.py, fuses included."""


class Networks:
    """Finds networks in one circuit. nets: its lines. lacking: conductors, by index, that are left out of all."""

    def __init__(self, facts: Facts, lacking: Collection[int] = ()) -> None:
        self.facts = facts
        self.nets = WireNets(facts.circuit)
        network = facts.conduction.network
        self._rail_of = {net: network.nets[terminal] for terminal, net in self.nets.of.items()}
        self._rails = network.rails
        self._sources: dict[Rail, list[Terminal]] = {}
        for supply in facts.circuit.supplies:
            for end in (supply.plus, supply.minus):
                self._sources.setdefault(network.nets[end], []).append(end)
        self._source_net = {
            self.nets.of[end]: self.source(rail) for rail, ends in self._sources.items() for end in ends
        }
        self._pruner = Pruner(facts.circuit, facts.spaces)
        self.pruned = self._pruner.pruned
        self._branches = tuple(one for one in self._all_branches() if one.number not in lacking)
        self._blocks: dict[tuple[Rail, frozenset[Rail], bool], Blocks] = {}

    def rail_name(self, rail: Rail) -> str:
        """The supplies' terminals on a rail."""
        return " ".join(dict.fromkeys(self._sources[rail]))

    def rail_terminal(self, rail: Rail) -> Terminal:
        """Where a rail's line begins."""
        return self._sources[rail][0]

    def rail_terminal_of(self, name: str) -> Terminal | None:
        """The same for a rail's name; None for what is none."""
        return next((ends[0] for rail, ends in self._sources.items() if self.rail_name(rail) == name), None)

    def source(self, rail: Rail) -> Net:
        """The net where a rail begins: that of its supplies' terminals, taken as one."""
        return self.nets.of[self._sources[rail][0]]

    def net(self, terminal: Terminal) -> Net:
        """A terminal's net; those of all supplies of one rail are one."""
        own = self.nets.of[terminal]
        return self._source_net.get(own, own)

    def avoided(self, *ends: Rail) -> tuple[frozenset[Rail], ...]:
        """The rails that a way between these may not touch: one of each supply, in every choice; none of the ends.

        Conduction knows the same rule: no way leads over both rails of one supply.
        """
        pairs = {frozenset(pair) for pair in self.facts.conduction.network.opposite if pair[0] != pair[1]}
        choices = {frozenset(choice) for choice in product(*(pair - {*ends} for pair in pairs if pair - {*ends}))}
        fewest = [one for one in choices if not any(other < one for other in choices)]
        return tuple(sorted(fewest, key=sorted))

    def rail_of(self, terminal: Terminal) -> Rail | None:
        """The rail that a terminal always stands on, if any."""
        rail = self._rail_of[self.nets.of[terminal]]
        return rail if rail in self._rails else None

    def from_rail(
        self, rail: Rail, end: Terminal, avoided: frozenset[Rail], without: Collection[Net] = (), *, outward: bool
    ) -> Between | None:
        """From a rail to a terminal (or, not outward, from the terminal to the rail). without: nets left out."""
        key = (rail, avoided, outward)
        if key not in self._blocks:
            # Without the diodes that lead the wrong way here (one across each coil) blocks stay as small as circuits.
            start = self.source(rail)
            allowed = self._allowed(avoided)
            right = (one for one in allowed if not one.one_way or (one.head if outward else one.tail) != start)
            self._blocks[key] = Blocks(right, start)
        chain = self._blocks[key].chain(self.net(end))
        if chain is None or self.net(end) in without:
            return None
        near = [
            branch for block, _ in chain for branch in block.branches if not {branch.tail, branch.head} & {*without}
        ]
        ends = (self.source(rail), self.net(end))
        return self.pruned(near, *(ends if outward else ends[::-1]))

    def inside(
        self, start: Terminal, end: Terminal, avoided: frozenset[Rail], without: Collection[Net] = ()
    ) -> Between | None:
        """From one terminal to another."""
        near = (one for one in self._allowed(avoided) if not {one.tail, one.head} & {*without})
        return self.pruned(near, self.net(start), self.net(end))

    def rails_in(self, found: Between) -> tuple[str, ...]:
        """The names of the rails that a network goes over."""
        nets = {net for one in found.branches for net in (one.tail, one.head)} | {found.start, found.end}
        return tuple(self.rail_name(rail) for rail in self._sources if self.source(rail) in nets)

    def structure(
        self, rail: Rail, end: Terminal, avoided: frozenset[Rail], without: Collection[Net] = ()
    ) -> Between | None:
        """What hangs between a rail and a terminal, whether it ever conducts or not."""
        near = (one for one in self._allowed(avoided) if not {one.tail, one.head} & {*without})
        found = between(near, self.source(rail), self.net(end))
        return None if found is None else Between(self.source(rail), self.net(end), found, self.facts.spaces.none())

    def across(self, one: Net, other: Net) -> tuple[Branch, ...]:
        """The branches straight between two nets."""
        return tuple(branch for branch in self._branches if {branch.tail, branch.head} == {one, other})

    def drawn(self, found: Between) -> Series:
        """The network in series and parallels, from its start to its end."""
        conductors = self.facts.circuit.conductors
        pieces = [
            Piece(one.tail, one.head, Passed(one.number, conductors[one.number].tail, conductors[one.number].head))
            for one in found.branches
        ]
        return reduced(pieces, found.start, found.end, self.point)

    def point(self, net: Net) -> Point:
        """How a net is named on a rung."""
        rail = next((rail for rail in self._sources if self.source(rail) == net), None)
        name = self.nets.name(net) if rail is None else self.rail_name(rail)
        return Point(name, self.nets.name(net) if rail is None else self.rail_terminal(rail))

    def _all_branches(self) -> Iterator[Branch]:
        for number, one in enumerate(self.facts.circuit.conductors):
            tail, head = self.net(one.tail), self.net(one.head)
            if one.kind not in JOINING and tail != head:
                yield Branch(number, tail, head, one.one_way)

    def _allowed(self, avoided: frozenset[Rail]) -> Iterator[Branch]:
        for one in self._branches:
            if not {self._rail_of[one.tail], self._rail_of[one.head]} & avoided:
                yield one
