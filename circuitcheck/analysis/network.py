"""The circuit's conductors as a network, cut at the rails.

Terminals that are always joined (wires, fuses, connector pins) are one net. A rail is a net that a supply holds, so
what happens beyond it cannot matter on this side of it: taken out, the rest falls apart into pieces that share no
conductor, and each piece is a question about its own contacts alone. What is still wide is cut at buses besides
(buses.py): a bus is held by nobody, but every path from one of its branches to another goes through it.
"""

from collections.abc import Callable, Iterable, Iterator
from typing import NamedTuple

from circuitcheck.analysis.states import Spaces, States, union
from circuitcheck.circuit.model import Circuit, Conductor, Terminal

Net = int
"""A number for terminals that are joined in every state."""


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
    merged: dict[tuple[Net, Net], list[States]] = {}
    for tail, head, closed in _all_ways(circuit, spaces, bridges):
        ends = nets[tail], nets[head]
        if ends[0] != ends[1]:
            merged.setdefault(ends, []).append(closed)
    ways = [Way(*ends, union(one[1:], one[0])) for ends, one in merged.items()]
    pieces = tuple(cut(set(nets.values()), rails, ways))
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
    place: dict[Terminal, int] = {}
    for part in circuit.parts.values():
        for terminal in part.terminals:
            place[terminal] = len(place)
    leader = list(range(len(place)))
    for conductor in circuit.conductors:
        if _joins_always(conductor) and (kinds is None or conductor.kind in kinds):
            for end in (conductor.tail, conductor.head):
                if end not in place:
                    place[end] = len(leader)
                    leader.append(len(leader))
            here, there = _led_by(leader, place[conductor.tail]), _led_by(leader, place[conductor.head])
            leader[max(here, there)] = min(here, there)
    numbers: dict[int, Net] = {}
    return {terminal: numbers.setdefault(_led_by(leader, one), len(numbers)) for terminal, one in place.items()}


def _led_by(leader: list[int] | dict[int, int], place: int) -> int:
    """The one that all who are joined with this one share; the way there is made shorter for the next who asks."""
    while leader[place] != place:
        leader[place] = place = leader[leader[place]]
    return place


def _joins_always(conductor: Conductor) -> bool:
    return conductor.closed is None and not conductor.one_way


def _all_ways(
    circuit: Circuit, spaces: Spaces, bridges: Iterable[tuple[Terminal, Terminal]]
) -> Iterator[tuple[Terminal, Terminal, States]]:
    always = spaces.all()
    for conductor in circuit.conductors:
        if _joins_always(conductor):
            continue
        contact = conductor.closed
        closed = always if contact is None else spaces.where(contact.digit, contact.values)
        yield conductor.tail, conductor.head, closed
        if not conductor.one_way:
            yield conductor.head, conductor.tail, closed
    for a, b in bridges:
        yield a, b, always
        yield b, a, always


def cut(nets: Iterable[Net], borders: frozenset[Net], ways: Iterable[Way]) -> Iterator[Piece]:
    """The pieces; a way that joins two borders directly is a piece of its own, with no net inside."""
    leader = {net: net for net in nets if net not in borders}
    ways = tuple(ways)
    for tail, head, _ in ways:
        if tail in leader and head in leader:
            here, there = _led_by(leader, tail), _led_by(leader, head)
            leader[max(here, there)] = min(here, there)
    inside: dict[Net, list[Net]] = {}
    for net in leader:
        inside.setdefault(_led_by(leader, net), []).append(net)
    touching: dict[Net, list[Way]] = {first: [] for first in inside}
    for way in ways:
        inner = way.tail if way.tail in leader else way.head
        if inner in leader:
            touching[_led_by(leader, inner)].append(way)
        else:
            yield _piece(frozenset(), [way])
    for first, together in inside.items():
        yield _piece(frozenset(together), touching[first])


def _piece(nets: frozenset[Net], ways: list[Way]) -> Piece:
    digits = sorted({digit for way in ways for digit in way.closed.space.digits})
    return Piece(nets, tuple(ways), tuple(digits))
