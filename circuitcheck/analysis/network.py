"""The circuit's conductors as a network, cut at the rails.

Terminals that are always joined (wires, fuses, connector pins) are one net. A rail is a net that a supply holds, so
what happens beyond it cannot matter on this side of it: taken out, the rest falls apart into pieces that share no
conductor, and each piece is a question about its own contacts alone. What is still wide is cut at buses besides
(buses.py): a bus is held by nobody, but every path from one of its branches to another goes through it.
"""

from collections.abc import Callable, Iterable, Iterator
from math import prod
from typing import Final, NamedTuple, TypeVar

from circuitcheck.analysis.states import Spaces, States
from circuitcheck.circuit.model import Circuit, Terminal

Net = int
"""A number for terminals that are joined in every state."""

SIDE_BY_SIDE: Final = 1 << 12
"""Combinations up to which conductors side by side are one way: a lamp for fifty motors would need a wide set."""


class Way(NamedTuple):
    """Current can pass from `tail` to `head` in the states `closed`."""

    tail: Net
    head: Net
    closed: States


class Piece(NamedTuple):
    """Nets that hang together without a rail between them, and every way that touches them. `digits`: its contacts'."""

    nets: frozenset[Net]
    ways: tuple[Way, ...]
    digits: tuple[int, ...]


class Network(NamedTuple):
    """nets: the net of each terminal. rails: the supplies' nets; opposite: those of one supply, both ways round.
    pieces: cut at the rails and the buses. piece_of: a net's piece, if it isn't cut itself."""

    nets: dict[Terminal, Net]
    rails: frozenset[Net]
    opposite: frozenset[tuple[Net, Net]]
    pieces: tuple[Piece, ...]
    piece_of: dict[Net, Piece]
    buses: frozenset[Net] = frozenset()

    @property
    def borders(self) -> frozenset[Net]:
        """Where its pieces end."""
        return self.rails | self.buses


def build_network(circuit: Circuit, spaces: Spaces, bridges: Iterable[tuple[Terminal, Terminal]] = ()) -> Network:
    """The network of a circuit's conductors; `bridges` are loads taken as conductors too, joined both ways."""
    nets = joined_terminals(circuit)
    pairs = [(nets[supply.plus], nets[supply.minus]) for supply in circuit.supplies]
    rails = frozenset(net for pair in pairs for net in pair)
    opposite = frozenset(pairs) | {(minus, plus) for plus, minus in pairs}
    pieces = tuple(cut(set(nets.values()), rails, _all_ways(circuit, nets, spaces, bridges)))
    return Network(nets, rails, opposite, pieces, {net: piece for piece in pieces for net in piece.nets})


def with_pieces(network: Network, pieces: Iterable[Piece]) -> Network:
    """The network with other pieces in the place of its own."""
    kept = tuple(pieces)
    return network._replace(pieces=kept, piece_of={net: piece for piece in kept for net in piece.nets})


def with_ways(network: Network, changed: Callable[[Way], States]) -> Network:
    """The network with each way closed only as `changed` says; ways that then never are, are left out."""
    pieces = []
    for piece in network.pieces:
        ways = [Way(way.tail, way.head, changed(way)) for way in piece.ways]
        pieces.append(_piece(piece.nets, [way for way in ways if way.closed]))
    return with_pieces(network, pieces)


def joined_terminals(circuit: Circuit, kinds: frozenset[str] | None = None) -> dict[Terminal, Net]:
    """A net for each terminal: terminals joined by conductors that are always closed, both ways, share one.

    kinds: only conductors of these kinds count (wires alone, say); None for all.
    """
    always = [
        (tail, head)
        for tail, head, kind, _, _, closed, one_way in circuit.conductors
        if closed is None and not one_way and (kinds is None or kind in kinds)
    ]
    together = hanging_together(always)
    terminals = [terminal for part in circuit.parts.values() for terminal in part.terminals]
    nets: dict[Terminal, Net] = dict.fromkeys((*terminals, *together), -1)
    count = 0
    for terminal, net in nets.items():
        if net < 0:
            for one in together.get(terminal, (terminal,)):
                nets[one] = count
            count += 1
    return nets


Thing = TypeVar("Thing")


def hanging_together(pairs: Iterable[tuple[Thing, Thing]]) -> dict[Thing, list[Thing]]:
    """For each thing in a pair all that hang together with it, from pair to pair; the same list for all of them."""
    group: dict[Thing, list[Thing]] = {}
    for one, other in pairs:
        here, there = group.get(one), group.get(other)
        if here is None:
            here = group[one] = [one]
        if there is None:
            here.append(other)
            group[other] = here
        elif here is not there:
            # The fewer come to the more: so each is moved a few times only, however long a rail grows.
            if len(here) < len(there):
                here, there = there, here
            here += there
            for moved in there:
                group[moved] = here
    return group


def _all_ways(
    circuit: Circuit, nets: dict[Terminal, Net], spaces: Spaces, bridges: Iterable[tuple[Terminal, Terminal]]
) -> Iterator[Way]:
    """The ways between nets, those side by side as one where that is narrow."""
    always = spaces.all()
    leading: dict[tuple[Net, Net], list[States]] = {}
    for tail, head, _, _, _, contact, one_way in circuit.conductors:
        here, there = nets[tail], nets[head]
        if here != there:
            closed = always if contact is None else spaces.where(*contact)
            leading.setdefault((here, there), []).append(closed)
            if not one_way:
                leading.setdefault((there, here), []).append(closed)
    for one, other in bridges:
        here, there = nets[one], nets[other]
        if here != there:
            leading.setdefault((here, there), []).append(always)
            leading.setdefault((there, here), []).append(always)
    for (here, there), sets in leading.items():
        for closed in sets if len(sets) == 1 else _united(sets, spaces):
            yield Way(here, there, closed)


def _united(sets: Iterable[States], spaces: Spaces) -> Iterator[States]:
    """Some sets as few, each over at most SIDE_BY_SIDE combinations, if no single one was wider."""
    united = spaces.none()
    for one in sets:
        digits = {*united.space.digits, *one.space.digits}
        if united and prod(spaces.radices[digit] for digit in digits) > SIDE_BY_SIDE:
            yield united
            united = one
        else:
            united = united | one
    yield united


def cut(nets: Iterable[Net], borders: frozenset[Net], ways: Iterable[Way]) -> Iterator[Piece]:
    """The pieces; what joins two borders directly is a piece of its own for each direction, with no net inside."""
    ways = tuple(ways)
    together = hanging_together([way[:2] for way in ways if way.tail not in borders and way.head not in borders])
    touching: dict[Net, list[Way]] = {}
    inside: list[tuple[list[Net], list[Way]]] = []
    for net in nets:
        if net not in borders and net not in touching:
            inside.append((together.get(net, [net]), []))
            touching.update(dict.fromkeys(*inside[-1]))
    direct: dict[tuple[Net, Net], list[Way]] = {}
    for way in ways:
        at = touching.get(way.tail)
        if at is None:
            at = touching.get(way.head)
        (direct.setdefault(way[:2], []) if at is None else at).append(way)
    for of_piece in direct.values():
        yield _piece(frozenset(), of_piece)
    for within, of_piece in inside:
        yield _piece(frozenset(within), of_piece)


def _piece(nets: frozenset[Net], ways: list[Way]) -> Piece:
    digits = sorted({digit for way in ways for digit in way.closed.space.digits})
    return Piece(nets, tuple(ways), tuple(digits))
