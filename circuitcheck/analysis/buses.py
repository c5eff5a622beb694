"""Buses: single nets at which a wide piece of a network is cut, since many branches meet there and nowhere else.

Behind an emergency stop the bus is no rail. But a path from one branch to another goes through it, so it is a border
like a rail: what lies beyond matters on this side by the bus alone.
"""

from collections import Counter
from collections.abc import Iterable, Iterator
from math import prod
from typing import Final

from circuitcheck.analysis.biconnected import nets_of_blocks
from circuitcheck.analysis.network import Net, Network, Piece, cut, with_pieces
from circuitcheck.analysis.states import Spaces

BRANCHES: Final = 3
"""So many parts have to hang on a net and nowhere else to make it a bus."""


def cut_at_buses(network: Network, spaces: Spaces, narrow: int) -> Network:
    """The network with every piece of more than `narrow` combinations cut at its busiest nets, as far as it has any."""
    buses: set[Net] = set()
    pieces: list[Piece] = []
    waiting = list(network.pieces[::-1])
    while waiting:
        piece = waiting.pop()
        bus = _busiest(piece) if prod(spaces.radices[digit] for digit in piece.digits) > narrow else None
        if bus is None:
            pieces.append(piece)
        else:
            buses.add(bus)
            waiting.extend(cut(piece.nets, network.rails | buses, piece.ways))
    return with_pieces(network, pieces)._replace(buses=frozenset(buses))


def _busiest(piece: Piece) -> Net | None:
    """The net at which most parts of a piece meet that hang together nowhere else within it."""
    meeting = Counter(net for nets in _parts(piece) for net in nets)
    net, parts = max(meeting.items(), key=lambda one: (one[1], -one[0]), default=(None, 0))
    return net if parts >= BRANCHES else None


def _parts(piece: Piece) -> Iterator[Iterable[Net]]:
    """The nets of each part of a piece that no single net cuts further."""
    inside = piece.nets
    ends = {way[:2] for way in piece.ways}
    yield from nets_of_blocks(sorted(pair for pair in ends if pair[0] in inside and pair[1] in inside))
    # What leads from a net to borders is a part by itself.
    yield {net for pair in ends for net in pair if net in inside and not inside.issuperset(pair)}
