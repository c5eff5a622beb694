"""From one net to all others over conductors, in every state at once, where there are many states.

Nets are taken out one after another (elimination.py). Over diagrams that is all. Integers are cut into slices: upper
digits are decided one after another, and before each, the nets that no undecided contact touches are taken out, for all
slices beyond at once. Only what is left is done slice by slice, with sets that stay in the processor's cache.
"""

from collections.abc import Iterable, Iterator
from typing import Final, NamedTuple

from circuitcheck.analysis.elimination import Graph, Row, TakenOut, WayBack, take_out_all
from circuitcheck.analysis.network import Net, Way
from circuitcheck.analysis.states import Space, Spaces, States

SLICE: Final = 1 << 16
"""States of a slice at most: 8 kB a set."""


class _Link(NamedTuple):
    """A way, or two that are alike in both directions. Its states are bits over digits of its own: first those of
    `lower`, then upper ones, which have these `places` among all upper ones and these `strides`.

    open: so many upper digits may be undecided without mattering to it. known: its bits over a slice, by the first of
    its own that was taken.
    """

    tail: Net
    head: Net
    both_ways: bool
    states: States
    lower: Space
    places: tuple[int, ...]
    strides: tuple[int, ...]
    open: int
    known: dict[int, int]

    def closed(self, values: list[int], slice_space: Space) -> int:
        """Its bits over a slice, at these values of the upper digits."""
        first = sum(values[place] * stride for place, stride in zip(self.places, self.strides, strict=True))
        if first not in self.known:
            part = (
                self.states
                if not self.places
                else self.states.spaces.over(self.lower, self.states.bits >> first & self.lower.full)
            )
            self.known[first] = part.over(slice_space)
        return self.known[first]


class InSlices:
    """Where a source leads to, net by net. The sets stand over the space of `digits`.

    A path ends at a net of `borders` (the rails), except at the source. The net that is asked first is taken out last:
    for it there is no going back.
    """

    def __init__(
        self, ways: Iterable[Way], source: Net, borders: frozenset[Net], spaces: Spaces, digits: Iterable[int]
    ) -> None:
        self._spaces = spaces
        self._source = source
        self._space = spaces.of(digits)
        self._lower, self._upper = _cut(self._space, spaces)
        leading = [way for way in ways if way.head != source and (way.tail == source or way.tail not in borders)]
        self._ends = [self._link(way, False) for way in leading if way.head in borders]
        self._links = list(self._linked(way for way in leading if way.head not in borders))
        self._slices: list[WayBack] = []
        self._found: dict[Net, States] = {}

    def get(self, net: Net, default: States, /) -> States:
        """The states in which the source leads to this net, `default` where it never does."""
        if net not in self._found:
            self._slices = self._slices or self._taken_out(net)
            parts = [one.at(net) for one in self._slices]
            if not any(parts):
                return default
            self._found[net] = States(self._spaces, self._space, _side_by_side(parts, self._lower.size))
        return self._found[net]

    def _linked(self, ways: Iterable[Way]) -> Iterator[_Link]:
        left: dict[tuple[Net, Net], list[Way]] = {}
        for way in ways:
            back = left.get((way.head, way.tail), [])
            alike = next((one for one in back if _alike(one.closed, way.closed)), None)
            if alike is None:
                left.setdefault((way.tail, way.head), []).append(way)
            else:
                back.remove(alike)
                yield self._link(way, True)
        for alone in left.values():
            for way in alone:
                yield self._link(way, False)

    def _link(self, way: Way, both_ways: bool) -> _Link:
        space = way.closed.space
        places = tuple(place for place, digit in enumerate(self._upper) if digit in space.digits)
        count = len(space.digits) - len(places)
        lower = self._spaces.of(space.digits[:count]) if places else space
        undecided = min(places, default=len(self._upper))
        return _Link(way.tail, way.head, both_ways, way.closed, lower, places, space.strides[count:], undecided, {})

    def _taken_out(self, asked: Net) -> list[WayBack]:
        """All slices, the lowest of the upper digits turning quickest."""
        open_to = {self._source: len(self._upper)}
        for link in self._links:
            for net in (link.tail, link.head):
                open_to[net] = min(open_to.get(net, link.open), link.open)
        graph = Graph(self._source, {net: {} for net in open_to}, {net: {} for net in open_to}, self._lower.full)
        free: list[list[Net]] = [[] for _ in range(len(self._upper) + 1)]
        for net, undecided in open_to.items():
            if net not in (asked, self._source):
                free[undecided].append(net)
        last = [asked] if asked in open_to and asked != self._source else []
        return list(self._decided(graph, len(self._upper), [0] * len(self._upper), None, free, last))

    def _decided(
        self,
        graph: Graph,
        undecided: int,
        values: list[int],
        before: TakenOut | None,
        free: list[list[Net]],
        last: list[Net],
    ) -> Iterator[WayBack]:
        """The slices once all but so many upper digits stand at these values. free: the nets that can be taken out
        then; last: the one after all others."""
        for link in self._links:
            if link.open == undecided and (closed := link.closed(values, self._lower)):
                graph.lead(link.tail, link.head, closed, link.both_ways and link.tail != self._source)
        before = take_out_all(graph, free[undecided], before)
        if undecided == 0:
            yield WayBack(graph, take_out_all(graph, last, before), self._ends_at(values))
            return
        for value in range(self._spaces.radices[self._upper[undecided - 1]]):
            values[undecided - 1] = value
            yield from self._decided(graph.copied(), undecided - 1, values, before, free, last)

    def _ends_at(self, values: list[int]) -> dict[Net, Row]:
        ends: dict[Net, Row] = {}
        for link in self._ends:
            if closed := link.closed(values, self._lower):
                ends.setdefault(link.head, {})[link.tail] = closed
        return ends


def _alike(one: States, other: States) -> bool:
    return one is other or (one.space is other.space and one.bits == other.bits)


def _cut(space: Space, spaces: Spaces) -> tuple[Space, tuple[int, ...]]:
    """The space of the lower digits, with at most SLICE states, and the upper digits; diagrams are not cut."""
    if space.has_diagrams:
        return space, ()
    size, count = 1, 0
    while count < len(space.digits) and size * space.radices[count] <= SLICE:
        size *= space.radices[count]
        count += 1
    return spaces.of(space.digits[:count]), space.digits[count:]


def _side_by_side(parts: list[int], width: int) -> int:
    """The parts as one set, the first lowest, each `width` bits wide; neighbours are joined again and again."""
    while len(parts) > 1:
        odd = parts[-1:] if len(parts) % 2 else []
        parts = [low | high << width for low, high in zip(parts[::2], parts[1::2], strict=False)] + odd
        width *= 2
    return parts[0]
