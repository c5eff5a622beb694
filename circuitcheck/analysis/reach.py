"""From one net to all others over conductors, in every state at once.

    reach[source] = every state
    for each way from a to b, closed in the states c:  reach[b] |= reach[a] & c,  until nothing changes

That is all: a fixed point of unions, monotone, so it ends. Diodes are ways with one direction. Where there are many
states, slices.py does the same with fewer unions.
"""

from collections import deque
from collections.abc import Iterable

from circuitcheck.analysis.network import Net, Way
from circuitcheck.analysis.states import Space, Spaces, States

Leading = dict[Net, list[tuple[Net, int]]]
"""From each net the nets that ways lead to, with the states in which they do, as bits over one space."""


def reach(
    ways: Iterable[Way], source: Net, borders: frozenset[Net], spaces: Spaces, digits: Iterable[int]
) -> dict[Net, States]:
    """In which states do conductors lead from `source` to each net? The sets stand over the space of `digits`.

    A path ends at a net of `borders` (the rails), except at the source. Nets that are never reached are left out. Cost:
    at most nets x ways unions of that space's width.
    """
    space = spaces.of(digits)
    return reach_within(lay_out(ways, space), source, borders, spaces, space)


def lay_out(ways: Iterable[Way], space: Space, outward: bool = True) -> Leading:
    """The ways over one space, ready to be gone through from any source; if not outward, turned round."""
    leading: Leading = {}
    # Both directions of a contact are closed in one and the same set.
    known: dict[States, int] = {}
    for tail, head, closed in ways:
        bits = known.get(closed)
        if bits is None:
            bits = known[closed] = closed.over(space)
        near, far = (tail, head) if outward else (head, tail)
        leading.setdefault(near, []).append((far, bits))
    return leading


def reach_within(
    leading: Leading, source: Net, borders: frozenset[Net], spaces: Spaces, space: Space
) -> dict[Net, States]:
    """As `reach`, over ways that are laid out already."""
    found = reach_in_slice(leading, source, borders, space.full)
    return {net: States(spaces, space, bits) for net, bits in found.items()}


def reach_in_slice(leading: Leading, source: Net, borders: frozenset[Net], everything: int) -> dict[Net, int]:
    """The same for ways and sets that are bits over one space already; `everything` has all of them."""
    reached = {source: everything}
    waiting = deque([source])
    while waiting:
        net = waiting.popleft()
        arrived = reached[net]
        for onward, closed in leading.get(net, ()):
            before = reached.get(onward, 0)
            after = before | (arrived & closed)
            if after != before:
                reached[onward] = after
                if onward not in borders and onward not in waiting:
                    waiting.append(onward)
    return reached
