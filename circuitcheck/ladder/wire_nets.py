"""Terminals that wires and connector pins alone join: what a ladder draws as one line.

Fuses join always too, but are drawn; so these nets are smaller than those of analysis/network.py.
"""

from collections import deque
from collections.abc import Iterable

from circuitcheck.analysis.network import Net, joined_terminals
from circuitcheck.circuit.model import Circuit, Terminal

JOINING = frozenset({"wire", "pin", "bond", "touch"})
"""The kinds of conductors that are lines and not symbols."""


class WireNets:
    """The net of each terminal, its name, and the wires between its terminals. of: by terminal."""

    def __init__(self, circuit: Circuit) -> None:
        self.of: dict[Terminal, Net] = joined_terminals(circuit, JOINING)
        self._above: dict[Terminal, tuple[Terminal, int] | None] = {}
        self._names: dict[Net, Terminal] = {}
        for terminal in (one for part in circuit.parts.values() for one in part.terminals):
            known = self._names.setdefault(self.of[terminal], terminal)
            if "." in known and "." not in terminal:
                self._names[self.of[terminal]] = terminal
        beside: dict[Terminal, list[tuple[Terminal, int]]] = {}
        for number, one in enumerate(circuit.conductors):
            if one.kind in JOINING:
                beside.setdefault(one.tail, []).append((one.head, number))
                beside.setdefault(one.head, []).append((one.tail, number))
        for terminal in self.of:
            self._span(terminal, beside)

    def _span(self, start: Terminal, beside: dict[Terminal, list[tuple[Terminal, int]]]) -> None:
        """A tree over the wires of a net, so that every way along it is short to find."""
        if start in self._above:
            return
        self._above[start] = None
        waiting = deque([start])
        while waiting:
            here = waiting.popleft()
            for there, number in beside.get(here, ()):
                if there not in self._above:
                    self._above[there] = (here, number)
                    waiting.append(there)

    def name(self, net: Net) -> Terminal:
        """A splice or port of the net where it has one, else its first terminal in the plan."""
        return self._names[net]

    def wires(self, terminals: Iterable[Terminal]) -> tuple[int, ...]:
        """The wires (by conductor) that join some terminals of one net; none for a single terminal."""
        first, *others = dict.fromkeys(terminals)
        found: set[int] = set()
        for other in others:
            found |= {*self._upward(first)} ^ {*self._upward(other)}
        return tuple(sorted(found))

    def _upward(self, terminal: Terminal) -> Iterable[int]:
        while (above := self._above[terminal]) is not None:
            terminal = above[0]
            yield above[1]
