"""What somebody reads off a ladder as it is printed: symbols between nets, with the names and marks beside them.

Only the output is looked at; of the circuit only which contact has which marks, and where it is closed.
"""

import re
from collections.abc import Hashable, Iterator
from typing import NamedTuple

from circuitcheck.circuit.model import Circuit

Net = Hashable


class Shown(NamedTuple):
    """A symbol between two nets. load: "resistor" or "other" for a load's, "" for a conductor's."""

    left: Net
    right: Net
    load: str
    name: str
    marks: str


class Way(NamedTuple):
    """What is drawn between two rails, or as a loop. rails: the nets of the rails by their names."""

    shown: tuple[Shown, ...]
    rails: dict[str, Net]


class Joints:
    """Nets that grow together."""

    def __init__(self) -> None:
        self._above: dict[Net, Net] = {}

    def root(self, net: Net) -> Net:
        """What stands for the net."""
        while (above := self._above.setdefault(net, net)) != net:
            net = above
        return net

    def join(self, one: Net, other: Net) -> None:
        """They are one net."""
        self._above[self.root(one)] = self.root(other)


def without_rung(name: str) -> str:
    """A relay contact's name without the line number of its coil's rung."""
    return re.sub(r" \(\d+\)$", "", name)


class Reader:
    """Knows a circuit's marks. Says what conducts in a way in a state."""

    def __init__(self, circuit: Circuit) -> None:
        self._circuit = circuit
        self._conductors: dict[tuple[str, str], list[tuple[int, bool]]] = {}
        self._loads: dict[tuple[str, str, str], tuple[int, bool]] = {}
        for number, one in enumerate(circuit.conductors):
            for ahead, pair in ((True, (one.tail, one.head)), (False, (one.head, one.tail))):
                if one.part:
                    key = (one.part, self._marks(one.part, *pair))
                    self._conductors.setdefault(key, []).append((number, ahead))
        for number, load in enumerate(circuit.loads):
            kind = "resistor" if load.kind == "resistor" else "other"
            self._loads[load.part, self._marks(load.part, load.b, load.a), kind] = (number, False)
            self._loads[load.part, self._marks(load.part, load.a, load.b), kind] = (number, True)

    def _marks(self, part: str, left: str, right: str) -> str:
        marks = [end.removeprefix(f"{part}.") for end in (left, right)]
        return (" " if "-" in marks else "-").join(marks)

    def conductor(self, shown: Shown) -> int:
        """Which conductor a symbol stands for."""
        return self._conductors[without_rung(shown.name), shown.marks][0][0]

    def load(self, shown: Shown) -> tuple[int, bool]:
        """Which load, and whether its a is at the left."""
        return self._loads[shown.name, shown.marks, shown.load]

    def leading(self, way: Way, state: dict[int, int]) -> dict[Net, set[Net]]:
        """Where closed conductors lead at once."""
        onward: dict[Net, set[Net]] = {}
        for shown in way.shown:
            if not shown.load:
                number, ahead = self._conductors[without_rung(shown.name), shown.marks][0]
                one = self._circuit.conductors[number]
                if one.closed is None or state[one.closed.digit] in one.closed.values:
                    ends = (shown.left, shown.right) if ahead else (shown.right, shown.left)
                    onward.setdefault(ends[0], set()).add(ends[1])
                    if not one.one_way:
                        onward.setdefault(ends[1], set()).add(ends[0])
        return onward

    def fed(self, way: Way, state: dict[int, int]) -> Iterator[tuple[int, bool, str, str]]:
        """Each load that conductors join to two rails: by number, whether its a is at the first of them, and which."""
        onward = self.leading(way, state)
        for shown in way.shown:
            if shown.load:
                number, a_left = self.load(shown)
                for high, start in way.rails.items():
                    for low, end in way.rails.items():
                        if high != low:
                            if leads(onward, start, shown.left) and leads(onward, shown.right, end):
                                yield number, a_left, high, low
                            if leads(onward, start, shown.right) and leads(onward, shown.left, end):
                                yield number, not a_left, high, low

    def braked(self, way: Way, state: dict[int, int]) -> Iterator[int]:
        """The loads that a loop shorts in both directions."""
        onward = self.leading(way, state)
        for shown in way.shown if not way.rails else ():
            if shown.load and leads(onward, shown.left, shown.right) and leads(onward, shown.right, shown.left):
                yield self.load(shown)[0]

    def joins(self, way: Way, state: dict[int, int]) -> Iterator[tuple[str, str]]:
        """The rails that conductors alone join."""
        onward = self.leading(way, state)
        for high, start in way.rails.items():
            for low, end in way.rails.items():
                if high != low and leads(onward, start, end):
                    yield high, low


def leads(onward: dict[Net, set[Net]], start: Net, end: Net) -> bool:
    """Is there a way from one to the other?"""
    seen, waiting = {start}, [start]
    while waiting:
        here = waiting.pop()
        if here == end:
            return True
        more = onward.get(here, set()) - seen
        seen |= more
        waiting += more
    return False
