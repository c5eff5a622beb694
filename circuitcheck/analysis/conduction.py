"""From where to where conductors lead, in every state at once.

It is asked of one piece at a time (reach.py); the answers are put together at its borders, rails and buses, where a
path out of one piece may go on in another. From a bus to a rail hundreds of branches may lead; that is asked only in
those states in which it matters.
"""

from collections.abc import Iterable, Iterator
from functools import cached_property
from itertools import product
from math import prod
from typing import Final, Protocol

from circuitcheck.analysis.network import Net, Network, Piece, Way, with_ways
from circuitcheck.analysis.reach import Leading, lay_out, reach_within
from circuitcheck.analysis.states import Spaces, States, TooWide, union
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
        self._borders = network.borders
        self._borders_in_order = sorted(self._borders)
        self._reached: dict[tuple[int, Net, bool], Reached] = {}
        self._laid_out: dict[tuple[int, bool], Leading] = {}
        self._joined: dict[tuple[Net, Net], dict[int, States]] = {}
        self._between: dict[tuple[Net, Net], States | None] = {}
        self._steps: dict[tuple[Net, Net, bool], States] = {}
        self._leading: dict[tuple[Net, Net], States] = {}
        self._near: dict[Net, list[Net]] = {}
        self._touching: dict[Net, list[int]] = {}
        self._borders_of: list[frozenset[Net]] = []
        for number, (nets, ways, _) in enumerate(network.pieces):
            for net in nets:
                self._touching[net] = [number]
            borders = self._borders & {net for way in ways for net in way[:2]}
            self._borders_of.append(borders)
            for border in borders:
                self._touching.setdefault(border, []).append(number)

    def leads(self, start: Terminal, end: Terminal, within: States | None = None) -> States:
        """In which states can current pass from one terminal to the other through conductors alone?

        within: only these states are looked at; None for all.
        """
        nets = self.network.nets
        return self.leads_between(nets[start], nets[end], within)

    def leads_between(self, start: Net, end: Net, within: States | None = None) -> States:
        """The same for two nets; all states for a net and itself, none for the two rails of one supply."""
        if start == end:
            return self.spaces.all() if within is None else within
        if not self._is_narrow:
            return self._find_leading(start, end, self.spaces.all() if within is None else within)
        if (start, end) not in self._leading:
            self._leading[start, end] = self._find_leading(start, end, self.spaces.all())
        found = self._leading[start, end]
        return found if within is None else (found & within).tight()

    def _find_leading(self, start: Net, end: Net, within: States) -> States:
        found = self._inside_one_piece(start, end) & within
        for out, into, states in self._by_borders(start, end):
            states = states & within
            if states:
                found = found | self._over_borders(out, into, states)
        return found.tight()

    def leads_both_ways(self, one: Net, other: Net, within: States) -> States:
        """The states, of those within, in which conductors join two nets in both directions of current.

        Where much hangs together, contacts by themselves are asked first, and diodes only about what is left, each way
        only where it matters: behind a bus some coil's diode or other nearly always leads there, and to know which
        depends on the whole box.
        """
        found, near = self.spaces.none(), within
        if within and not self._is_narrow:
            found = self._without_diodes.leads_between(one, other, within)
            near = within - found
            near = near & self.could_lead(other, one) if near else near
            near = near & self.could_lead(one, other) if near else near
        there = self.leads_between(one, other, near) if near else near
        return found | (self.leads_between(other, one, there) if there else there)

    @cached_property
    def _is_narrow(self) -> bool:
        return not self.network.buses and all(self._size(piece) <= DENSE for piece in self.network.pieces)

    @cached_property
    def _without_diodes(self) -> "Conduction":
        """Over what passes both ways alone."""
        back = {
            (way.head, way.tail, way.closed.space): way.closed for piece in self.network.pieces for way in piece.ways
        }
        none = self.spaces.none()
        network = with_ways(self.network, lambda way: way.closed & back.get((*way[:2], way.closed.space), none))
        return Conduction(network, self.spaces)

    def could_lead(self, start: Net, end: Net) -> States:
        """States outside of which no conductors lead from start to end; what lies between rails and buses far away is
        not looked at closely where it is wide."""
        if start == end:
            return self.spaces.all()
        found = self._inside_one_piece(start, end)
        for out, into, states in self._by_borders(start, end):
            between = self._known_between(out, into)
            found = found | (states if between is None else states & between)
        return found.tight()

    def joins(self, start: Net, end: Net) -> list[States]:
        """In which states conductors lead from one rail to another, told apart by where: a set for each piece."""
        if start == end:
            return [self.spaces.all()]
        further = (
            self._over_borders(start, middle, states).tight()
            for middle in self._borders_in_order
            if middle not in (start, end) and self._touching.get(middle)
            for states in self.joins_directly(middle, end)
        )
        return [*self.joins_directly(start, end), *(states for states in further if states)]

    def joins_directly(self, start: Net, end: Net) -> list[States]:
        """The same within one piece each, over no other rail or bus."""
        return list(self.joins_by_piece(start, end).values())

    def joins_by_piece(self, start: Net, end: Net) -> dict[int, States]:
        """The same with the number of each piece."""
        if (start, end) not in self._joined:
            found = {number: self._within(number, start, end).tight() for number in self._shared(start, end)}
            self._joined[start, end] = {number: states for number, states in found.items() if states}
        return self._joined[start, end]

    def _inside_one_piece(self, start: Net, end: Net) -> States:
        """What leads from one net to another over no border; ways from or to a border are looked up by it."""
        if start in self._borders or end in self._borders:
            return self.spaces.none()
        return union((self._within(number, start, end) for number in self._shared(start, end)), self.spaces.none())

    def _shared(self, start: Net, end: Net) -> list[int]:
        return sorted({*self._touching.get(start, ())} & {*self._touching.get(end, ())})

    def _by_borders(self, start: Net, end: Net) -> Iterator[tuple[Net, Net, States]]:
        """Through which border a way may leave start's piece and through which it may come into that of end, and when
        both pieces lead there."""
        for out in self._borders_near(start):
            for into in self._borders_near(end):
                if out == into or (out, into) not in self.network.opposite:
                    states = self._one_step(start, out, False)
                    states = states & self._one_step(end, into, True) if states else states
                    if states:
                        yield out, into, states

    def _borders_near(self, net: Net) -> list[Net]:
        """The borders of a net's piece; a border itself is its own."""
        near = self._near.get(net)
        if near is None:
            there = {border for number in self._touching.get(net, ()) for border in self._borders_of[number]}
            near = self._near[net] = [net] if net in self._borders else sorted(there)
        return near

    def _one_step(self, net: Net, border: Net, outward: bool) -> States:
        """When a border leads to a net within the net's piece, or, if not outward, the net to the border."""
        if net == border:
            return self.spaces.all()
        key = (net, border, outward)
        if key not in self._steps:
            none = self.spaces.none()
            found = (self._answer(number, border, outward).get(net, none) for number in self._touching.get(net, ()))
            self._steps[key] = union(found, none).tight()
        return self._steps[key]

    def _over_borders(self, start: Net, end: Net, within: States) -> States:
        """The states of `within` in which conductors lead from one border to another."""
        if start == end:
            return within
        known = self._known_between(start, end)
        return within & known if known is not None else self._find_between(start, end, within, None)

    def _known_between(self, start: Net, end: Net) -> States | None:
        """All states in which conductors lead from one border to another; None where that depends on too much."""
        if start == end:
            return self.spaces.all()
        if (start, end) not in self._between:
            try:
                self._between[start, end] = self._find_between(start, end, self.spaces.all(), DENSE)
            except TooWide:
                self._between[start, end] = None
        return self._between[start, end]

    def _find_between(self, start: Net, end: Net, within: States, most: int | None) -> States:
        """TooWide where a set takes more than `most` combinations."""
        found = self.spaces.none()
        for avoided in self._ways_round(start, end):
            reached = {start: within}
            waiting = [start]
            while waiting:
                net = waiting.pop(0)
                for onward in self._borders_in_order:
                    if onward in avoided or net == end:
                        continue
                    before = reached.get(onward, self.spaces.none())
                    after = before
                    for states in self.joins_directly(net, onward):
                        after = after | (reached[net] & states)
                        if most is not None and after.space.size > most:
                            raise TooWide(after.space.digits, after.space.size)
                    if not after.same_as(before):
                        reached[onward] = after.tight()
                        waiting.append(onward)
            found = found | reached.get(end, self.spaces.none())
        return found.tight()

    def _ways_round(self, start: Net, end: Net) -> set[frozenset[Net]]:
        """Each choice of one rail of every supply, neither start nor end: a way avoids all of one choice."""
        pairs = {frozenset(pair) for pair in self.network.opposite if pair[0] != pair[1]}
        return {frozenset(choice) for choice in product(*(pair - {start, end} for pair in pairs))}

    def _size(self, piece: Piece) -> int:
        return prod([self.spaces.radices[digit] for digit in piece.digits])

    def _within(self, number: int, start: Net, end: Net) -> States:
        return self._answer(number, start, True).get(end, self.spaces.none())

    def _answer(self, number: int, source: Net, outward: bool) -> Reached:
        key = (number, source, outward)
        if key not in self._reached:
            touched = number in self._touching.get(source, ())
            self._reached[key] = self._reach(number, source, outward) if touched else {}
        return self._reached[key]

    def _reach(self, number: int, source: Net, outward: bool) -> Reached:
        piece = self.network.pieces[number]
        if self._size(piece) > DENSE:
            from circuitcheck.analysis.blocks import reach_by_blocks

            ways = piece.ways if outward else reversed_ways(piece.ways)
            return reach_by_blocks(ways, source, self._borders, self.spaces)
        space = self.spaces.of(piece.digits)
        # A piece is asked from many nets: its ways are laid out once.
        if (number, outward) not in self._laid_out:
            self._laid_out[number, outward] = lay_out(piece.ways, space, outward)
        return reach_within(self._laid_out[number, outward], source, self._borders, self.spaces, space)
