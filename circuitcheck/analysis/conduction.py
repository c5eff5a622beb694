"""From where to where conductors lead, in every state at once.

It is asked of one piece at a time (reach.py); the answers are put together at the rails, where a path out of one piece
may go on in another.
"""

from collections.abc import Iterable
from typing import Final, Protocol

from circuitcheck.analysis.network import Net, Network, Piece, Way
from circuitcheck.analysis.reach import LaidOut, lay_out, reach_within
from circuitcheck.analysis.states import Spaces, States, union
from circuitcheck.circuit.model import Terminal

DENSE: Final = 1 << 16
"""Pieces with at most this many combinations are counted whole; wider ones are first cut at single nets."""


class Reached(Protocol):
    """Where a source leads to, net by net."""

    def get(self, net: Net, default: States, /) -> States:
        """The states in which it leads to this net, `default` where it never does."""


def widened(ways: Iterable[Way], spaces: Spaces, digits: Iterable[int]) -> tuple[list[Way], States]:
    """The same ways with their sets over one space, that of `digits`, and the set of every state of it."""
    space = spaces.of(digits)
    same = [Way(way.tail, way.head, spaces.over(space, way.closed.over(space))) for way in ways]
    return same, spaces.over(space, space.full)


def reversed_ways(ways: Iterable[Way]) -> list[Way]:
    """The ways of current turned round, to ask where a net's current can come from."""
    return [Way(way.head, way.tail, way.closed) for way in ways]


class Conduction:
    """Answers "do conductors lead from here to there?" for one network. Each piece's answer is kept.

    A way may go on over a rail, but not over both rails of one supply: while it is on, nothing flows from its − to its
    + through conductors, and from + to − is a short. While it is off such a way leads through the coils' diodes of half
    the box; that is no way to count on.
    """

    def __init__(self, network: Network, spaces: Spaces) -> None:
        self.network = network
        self.spaces = spaces
        self._reached: dict[tuple[int, Net, bool], Reached] = {}
        self._laid_out: dict[tuple[int, bool], LaidOut] = {}
        self._touching: dict[Net, list[int]] = {}
        for number, piece in enumerate(network.pieces):
            for net in piece.nets.union(*((way.tail, way.head) for way in piece.ways)):
                self._touching.setdefault(net, []).append(number)
        self._rails = self._between_rails()

    def leads(self, start: Terminal, end: Terminal) -> States:
        """In which states can current pass from one terminal to the other through conductors alone?"""
        nets = self.network.nets
        return self.leads_between(nets[start], nets[end])

    def leads_between(self, start: Net, end: Net) -> States:
        """The same for two nets; all states for a net and itself, none for the two rails of one supply."""
        if start == end:
            return self.spaces.all()
        rails = self.network.rails
        if start in rails:
            return self._from_rail(start, end)
        by_rail = [self._to_rail(start, rail) & self.leads_between(rail, end) for rail in sorted(rails)]
        if end in rails:
            return union(by_rail, self.spaces.none()).tight()
        inside = (self._within(number, start, end) for number in self._touching.get(start, ()))
        return union((*by_rail, *inside), self.spaces.none()).tight()

    def joins(self, start: Net, end: Net) -> list[States]:
        """In which states conductors lead from one rail to another, told apart by where: a set for each piece."""
        if start == end:
            return [self.spaces.all()]
        found = (self._within(number, start, end).tight() for number in self._touching.get(start, ()))
        further = (
            self._rails[start, middle] & states
            for middle in sorted(self.network.rails - {start, end})
            if self._rails[start, middle]
            for states in self.joins_directly(middle, end)
        )
        return [states for states in (*found, *further) if states]

    def joins_directly(self, start: Net, end: Net) -> list[States]:
        """The same within one piece each, over no other rail."""
        found = (self._within(number, start, end).tight() for number in self._touching.get(start, ()))
        return [states for states in found if states]

    def _from_rail(self, rail: Net, end: Net) -> States:
        if end in self.network.rails:
            return self._rails[rail, end]
        found = self.spaces.none()
        for number in self._touching.get(end, ()):
            for start in sorted(self.network.rails):
                if self._rails[rail, start]:
                    found = found | (self._rails[rail, start] & self._within(number, start, end))
        return found.tight()

    def _to_rail(self, start: Net, rail: Net) -> States:
        arriving = (self._arriving(number, rail, start) for number in self._touching.get(start, ()))
        return union(arriving, self.spaces.none())

    def _between_rails(self) -> dict[tuple[Net, Net], States]:
        """From each rail to each other over conductors, through further rails too; none within one supply."""
        rails = sorted(self.network.rails)
        joins = {(a, b): self.spaces.all() if a == b else self.spaces.none() for a in rails for b in rails}
        apart = {(a, b) for a in rails for b in rails if a != b} - self.network.opposite
        for a, b in sorted(apart):
            joins[a, b] = union(self.joins_directly(a, b), self.spaces.none()).tight()
        for middle in rails:
            for a, b in sorted(apart):
                if joins[a, middle] and joins[middle, b]:
                    joins[a, b] = (joins[a, b] | (joins[a, middle] & joins[middle, b])).tight()
        return joins

    def _within(self, number: int, start: Net, end: Net) -> States:
        return self._answer(number, start, True).get(end, self.spaces.none())

    def _arriving(self, number: int, end: Net, start: Net) -> States:
        return self._answer(number, end, False).get(start, self.spaces.none())

    def _answer(self, number: int, source: Net, outward: bool) -> Reached:
        key = (number, source, outward)
        if key not in self._reached:
            touched = number in self._touching.get(source, ())
            self._reached[key] = self._reach(number, source, outward) if touched else {}
        return self._reached[key]

    def _reach(self, number: int, source: Net, outward: bool) -> Reached:
        piece = self.network.pieces[number]
        size = 1
        for digit in piece.digits:
            size *= self.spaces.radices[digit]
        if size > DENSE:
            from circuitcheck.analysis.blocks import reach_by_blocks

            return reach_by_blocks(_turned(piece, outward), source, self.network.rails, self.spaces)
        # A piece is asked from many nets: its ways are laid out once. It is narrow, so that is a single slice.
        if (number, outward) not in self._laid_out:
            laid_out = lay_out(_turned(piece, outward), self.spaces, piece.digits)
            self._laid_out[number, outward] = laid_out._replace(slices=tuple(laid_out.slices))
        return reach_within(self._laid_out[number, outward], source, self.network.rails, self.spaces)


def _turned(piece: Piece, outward: bool) -> list[Way]:
    return list(piece.ways) if outward else reversed_ways(piece.ways)
