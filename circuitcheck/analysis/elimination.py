"""Nets taken out of a network one after another (Kleene's and Gauss's elimination), so that ways are met once.

    way[a, b] |= way[a, net] & way[net, b]                      for all a and b beside the net that is taken out
    reach[net] = union of reach[a] & way[a, net], as it was     going back, from the net that was taken out last

The net with the fewest beside it goes first (minimum degree, as for sparse matrices): so most sets met depend on few
digits.
"""

from collections.abc import Iterable
from heapq import heapify, heappop, heappush
from typing import NamedTuple

from circuitcheck.analysis.network import Net

Row = dict[Net, int]
"""Nets with the states in which ways lead from them, or to them: bits over one space."""


class Graph(NamedTuple):
    """onward, into: the ways from each net and to it; none leads into the source. everything: all states."""

    source: Net
    onward: dict[Net, Row]
    into: dict[Net, Row]
    everything: int

    def copied(self) -> "Graph":
        """One that can be changed by itself."""
        onward = {net: row.copy() for net, row in self.onward.items()}
        return self._replace(onward=onward, into={net: row.copy() for net, row in self.into.items()})

    def lead(self, tail: Net, head: Net, closed: int, both_ways: bool) -> None:
        """One way more; both_ways: from head to tail as well. What was alike in both directions stays one value."""
        before = self.onward[tail].get(head)
        after = closed if before is None else before | closed
        self.onward[tail][head] = self.into[head][tail] = after
        if both_ways:
            back = self.onward[head].get(tail)
            after = after if back is before else closed if back is None else back | closed
            self.onward[head][tail] = self.into[tail][head] = after

    def take_out(self, net: Net) -> Row:
        """Leads past a net whatever led through it. What led into it."""
        into, onward = self.into.pop(net), self.onward.pop(net)
        for head in onward:
            del self.into[head][net]
        for tail in into:
            del self.onward[tail][net]
        same = self._same(into, onward)
        beside = list(into | onward)
        for place, one in enumerate(beside):
            for other in beside[place + 1 :]:
                if same is None or one == same or other == same:
                    self._lead_past(one, other, into, onward)
        return into

    def _same(self, into: Row, onward: Row) -> Net | None:
        """A net that is one with this one in every state: to lead past to that one alone is enough."""
        for net, closed in into.items():
            if closed == self.everything and (net == self.source or onward.get(net) == closed):
                return net
        return None

    def _lead_past(self, one: Net, other: Net, into: Row, onward: Row) -> None:
        if into.get(one) is onward.get(one) and into.get(other) is onward.get(other):
            if closed := into[one] & into[other]:
                self.lead(one, other, closed, True)
            return
        for tail, head in ((one, other), (other, one)):
            if tail in into and head in onward and (closed := into[tail] & onward[head]):
                self.lead(tail, head, closed, False)


class TakenOut(NamedTuple):
    """A net, what led into it when it was taken out, and what was taken out before it."""

    net: Net
    into: Row
    before: "TakenOut | None"


def take_out_all(graph: Graph, nets: Iterable[Net], before: TakenOut | None) -> TakenOut | None:
    """Takes these nets out, the one with the fewest beside it each time. What was taken out then, the last first."""
    left = set(nets)
    waiting = [(_beside(graph, net), net) for net in left]
    heapify(waiting)
    while waiting:
        weighed, net = heappop(waiting)
        if net in left and weighed == _beside(graph, net):
            left.remove(net)
            beside = left & (graph.into[net].keys() | graph.onward[net].keys())
            before = TakenOut(net, graph.take_out(net), before)
            for other in beside:
                heappush(waiting, (_beside(graph, other), other))
    return before


def _beside(graph: Graph, net: Net) -> int:
    """With how many nets ways join it."""
    return len(graph.into[net].keys() | graph.onward[net].keys())


class WayBack:
    """Where the source leads to, net by net, going back over what was taken out as far as somebody asks.

    ends: what leads into each net at which a path ends.
    """

    def __init__(self, graph: Graph, taken_out: TakenOut | None, ends: dict[Net, Row]) -> None:
        self._left = taken_out
        self._ends = ends
        self._reached = {graph.source: graph.everything}

    def at(self, net: Net) -> int:
        """The states in which the source leads to a net."""
        row = self._ends.get(net)
        for needed in (net,) if row is None else row:
            self._go_back_to(needed)
        if row is not None and net not in self._reached:
            self._reached[net] = self._fed_from(row)
        return self._reached.get(net, 0)

    def _go_back_to(self, net: Net) -> None:
        while self._left and net not in self._reached:
            last, into, self._left = self._left
            self._reached[last] = self._fed_from(into)

    def _fed_from(self, row: Row) -> int:
        found = 0
        for beside, closed in row.items():
            if arrived := self._reached.get(beside, 0):
                found = found | arrived & closed
        return found
