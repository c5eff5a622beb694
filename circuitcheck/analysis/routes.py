"""The ways that a current takes, and which conductors lie on them in which states.

A way goes from junction to junction (on_the_way.py), and along a rail's own wires in at some of its terminals and out
at others. Whoever knows of a current says where it begins and ends; each conductor then knows which of them it carries.
"""

from collections.abc import Iterator
from typing import NamedTuple

from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.network import Net
from circuitcheck.analysis.on_the_way import OnTheWay
from circuitcheck.analysis.spreading import Junction
from circuitcheck.analysis.states import States
from circuitcheck.circuit.model import Terminal


class Share(NamedTuple):
    """In `states` the current of a load (by number), which stands at `volts`, is carried.

    The current of a short has the short's number among Facts.shorts instead.

    side: "high" between a supply's + and the load, "low" between the load and −, "brake" where a turning motor, shorted
    on itself, sends its current round, "series" where it flows through other loads as well (through_others.py), and
    only then amps is how much, "short" where conductors alone join a supply's ends.
    """

    load: int
    side: str
    volts: float
    states: States
    amps: float = 0.0


Gates = dict[Terminal, States]
"""Terminals of a rail, with the states in which a current comes or goes there."""


class Crossing(NamedTuple):
    """A share's current goes along a rail's own wires, in at some of its terminals and out at others."""

    rail: Net
    enters: Gates
    leaves: Gates
    share: Share


class Routes:
    """Ways of currents over the conductors of one circuit."""

    def __init__(self, facts: Facts) -> None:
        self.way = OnTheWay(facts.circuit, facts.conduction)
        self.crossings: list[Crossing] = []
        self._facts = facts
        self._nets = facts.conduction.network.nets
        self._between: dict[tuple[Junction, Junction, Share], dict[int, States]] = {}
        self._carried: dict[int, list[Share]] = {}
        self._touching: dict[Net, list[tuple[int, Terminal]]] = {}
        for number, one in enumerate(facts.circuit.conductors):
            for end in (one.tail, one.head) if not self.way.on_rail(number) else ():
                self._touching.setdefault(self._nets[end], []).append((number, end))

    def add(self, start: Junction, end: Junction, share: Share) -> None:
        """A share's current goes from one junction to another."""
        for conductor, states in self._find(start, end, share).items():
            self._carried.setdefault(conductor, []).append(share._replace(states=states))

    def carried(self, conductor: int) -> Iterator[Share]:
        """The shares that a conductor carries, by its index; some in no state."""
        if not self.way.on_rail(conductor):
            yield from self._carried.get(conductor, ())
            return
        rail = self._nets[self._facts.circuit.conductors[conductor].tail]
        crossings = [one for one in self.crossings if one.rail == rail]
        one, other = self.way.rail_sides(conductor) if crossings else (frozenset[Terminal](), frozenset[Terminal]())
        for crossing in crossings:
            there = self._any(crossing.enters, one) & self._any(crossing.leaves, other)
            back = self._any(crossing.enters, other) & self._any(crossing.leaves, one)
            yield crossing.share._replace(states=crossing.share.states & (there | back))

    def _any(self, gates: Gates, among: frozenset[Terminal]) -> States:
        found = self._facts.spaces.none()
        for terminal, states in gates.items():
            if terminal in among:
                found = found | states
        return found

    def cross(self, rail: Net, near: Gates, far: Gates, outward: bool, share: Share) -> None:
        """Along a rail between gates nearer to the supply and further from it."""
        self.crossings.append(Crossing(rail, *((near, far) if outward else (far, near)), share))

    def through(self, end: Terminal, rail: Net, outward: bool, share: Share) -> Gates:
        """Adds the route between a terminal and a rail, and tells at which terminals it leaves or enters the rail."""
        here, there = -1 - rail, self.way.junction(end)
        if here == there:
            return {end: share.states}
        start, stop = (here, there) if outward else (there, here)
        self.add(start, stop, share)
        return self.gates(rail, start, stop, share)

    def gates(self, rail: Net, start: Junction, stop: Junction, share: Share) -> Gates:
        """Where a route begins or ends at the terminals of a rail."""
        gates: Gates = {}
        found = self._find(start, stop, share)
        for conductor, terminal in self._touching.get(rail, ()):
            if conductor in found:
                states = found[conductor]
                gates[terminal] = gates[terminal] | states if terminal in gates else states
        return gates

    def _find(self, start: Junction, end: Junction, share: Share) -> dict[int, States]:
        """The conductors that a share's current goes through from one junction to another, and when."""
        key = (start, end, share)
        if key not in self._between:
            self._between[key] = dict(self.way.between(start, end, share.states))
        return self._between[key]
