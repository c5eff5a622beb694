"""Whose current each conductor carries, in which states.

A load that conductors feed draws its current over every conductor that lies on a way from the supply to it, or from it
back (on_the_way.py). Where ways lie side by side each counts with the whole current: of two contacts in parallel one
makes first and breaks last, and nobody can say how two wires share. A braked motor sends its current over every
conductor on a way from brush to brush.

What it leaves out: loads fed through other loads, which the operating point knows (through_others.py); what a turning
motor sends through a diode, or back into the supply; and of a way from a supply's rail to another's over the rail of a
third one, what lies between the first two.
"""

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.feeding import Fed
from circuitcheck.analysis.network import Net
from circuitcheck.analysis.on_the_way import Junction, OnTheWay
from circuitcheck.analysis.rails import Difference
from circuitcheck.analysis.states import States
from circuitcheck.circuit.model import Supply, Terminal


class Share(NamedTuple):
    """In `states` the current of a load (by number), which stands at `volts`, is carried.

    side: "high" between a supply's + and the load, "low" between the load and −, "brake" where a turning motor, shorted
    on itself, sends its current round, "series" where it flows through other loads as well (through_others.py), and
    only then amps is how much.
    """

    load: int
    side: str
    volts: float
    states: States
    amps: float = 0.0


class Route(NamedTuple):
    """A share's current goes through a piece, from one junction to another."""

    start: Junction
    end: Junction
    share: Share


Gates = dict[Terminal, States]
"""Terminals of a rail, with the states in which a current comes or goes there."""


class Crossing(NamedTuple):
    """A share's current goes along a rail's own wires, in at some of its terminals and out at others."""

    rail: Net
    enters: Gates
    leaves: Gates
    share: Share


class Carrying:
    """The shares of each conductor of a circuit, each worked out when first asked for."""

    def __init__(self, facts: Facts) -> None:
        self._facts = facts
        self._nets = facts.conduction.network.nets
        self._way = OnTheWay(facts.circuit, facts.conduction)
        self._touching: dict[Net, list[tuple[int, Terminal]]] = {}
        for number, one in enumerate(facts.circuit.conductors):
            for end in (one.tail, one.head) if not self._way.on_rail(number) else ():
                self._touching.setdefault(self._nets[end], []).append((number, end))
        self._routes: list[Route] = []
        self._crossings: list[Crossing] = []
        self._find_fed()
        self._find_braked()
        self._shares: dict[int, tuple[Share, ...]] = {}

    def __getitem__(self, conductor: int) -> tuple[Share, ...]:
        """The shares of a conductor by its index; loads whose current it never carries are left out."""
        if conductor not in self._shares:
            found: dict[tuple[int, str, float], States] = {}
            for share in self._carried(conductor):
                if share.states:
                    key = (share.load, share.side, share.volts)
                    found[key] = found[key] | share.states if key in found else share.states
            self._shares[conductor] = tuple(Share(*key, states.tight()) for key, states in found.items())
        return self._shares[conductor]

    def of_supply(self, supply: Supply) -> tuple[Share, ...]:
        """What a supply feeds."""
        return tuple(one.share for one in self._crossings if one.share.side == "high" and supply.plus in one.enters)

    def in_series(self, fuse: int, share: Share) -> bool:
        """Does all current of a share go through the fuse, wherever on its way?"""
        passed = self._facts.spaces.none()
        for one in self[fuse]:
            if one.load == share.load and one.side != "brake":
                passed = passed | one.states
        return share.side in ("high", "low") and not share.states - passed

    def in_front(self, fuse: int, conductor: int, share: Share) -> bool:
        """Does it go through the fuse before it comes to the conductor?

        Wires back to − come after every fuse that their load is fed through.
        """
        if not self.in_series(fuse, share):
            return False
        return share.side == "low" or not self._comes_past(fuse, conductor, share)

    def _comes_past(self, fuse: int, conductor: int, share: Share) -> bool:
        """Do conductors lead from the supply to the conductor in the share's states without going through the fuse?"""
        one, way = self._facts.circuit.conductors[conductor], self._way
        sources = {end for other in self._crossings if other.share.load == share.load for end in other.enters}
        if way.on_rail(fuse):
            near = next((side for side in way.rail_sides(fuse) if side & sources), frozenset[Terminal]())
            return way.on_rail(conductor) and bool(near & {one.tail, one.head})
        if way.on_rail(conductor) or not way.same_piece(fuse, conductor):
            return way.on_rail(conductor)
        rails = {way.junction(source) for source in sources}
        ends = (way.junction(one.tail), way.junction(one.head))
        return any(way.without(fuse, rail, end) & share.states for rail in rails for end in ends if end not in rails)

    def _carried(self, conductor: int) -> Iterator[Share]:
        if not self._way.on_rail(conductor):
            for route in self._routes:
                states = self._way.between(conductor, route.start, route.end) & route.share.states
                yield route.share._replace(states=states)
            return
        rail = self._nets[self._facts.circuit.conductors[conductor].tail]
        crossings = [one for one in self._crossings if one.rail == rail]
        one, other = self._way.rail_sides(conductor) if crossings else (frozenset(), frozenset())
        for crossing in crossings:
            there = self._any(crossing.enters, one) & self._any(crossing.leaves, other)
            back = self._any(crossing.enters, other) & self._any(crossing.leaves, one)
            yield crossing.share._replace(states=crossing.share.states & (there | back))

    def _any(self, gates: Gates, among: Iterable[Terminal]) -> States:
        found = self._facts.spaces.none()
        for terminal in among:
            if terminal in gates:
                found = found | gates[terminal]
        return found

    def _find_fed(self) -> None:
        for number, feeding in enumerate(self._facts.feeding):
            for fed in feeding.fed:
                for difference in self._facts.differences:
                    if difference.volts == fed.volts:
                        self._find_fed_by(number, fed, difference)

    def _find_fed_by(self, number: int, fed: Fed, difference: Difference) -> None:
        load = self._facts.circuit.loads[number]
        plus, minus = self._sources(difference)
        for states, enters, leaves in ((fed.forward, load.a, load.b), (fed.backward, load.b, load.a)):
            live = states & difference.live if states else states
            if live:
                self._find_side(Share(number, "high", fed.volts, live), difference.high, plus, enters)
                self._find_side(Share(number, "low", fed.volts, live), difference.low, minus, leaves)

    def _find_side(self, share: Share, home: Net, sources: Gates, end: Terminal) -> None:
        """The routes and the crossing between a load's end and the rail that its current comes from or goes to."""
        conduction, outward = self._facts.conduction, share.side == "high"
        for rail in sorted(conduction.network.rails):
            ends = ((home, rail), (rail, self._nets[end])) if outward else ((self._nets[end], rail), (rail, home))
            states = (share.states & conduction.leads_between(*ends[0]) & conduction.leads_between(*ends[1])).tight()
            if not states:
                continue
            there = share._replace(states=states)
            gates = self._through(end, rail, outward, there)
            if rail == home:
                self._cross(rail, sources, gates, outward, there)
                continue
            start, stop = (-1 - home, -1 - rail) if outward else (-1 - rail, -1 - home)
            self._routes.append(Route(start, stop, there))
            self._cross(home, sources, self._gates(home, start, stop, there), outward, there)
            self._cross(rail, self._gates(rail, start, stop, there), gates, outward, there)

    def _cross(self, rail: Net, near: Gates, far: Gates, outward: bool, share: Share) -> None:
        """Along a rail between gates nearer to the supply and further from it."""
        self._crossings.append(Crossing(rail, *((near, far) if outward else (far, near)), share))

    def _through(self, end: Terminal, rail: Net, outward: bool, share: Share) -> Gates:
        """Adds the route between a terminal and a rail, and tells at which terminals it leaves or enters the rail."""
        here, there = -1 - rail, self._way.junction(end)
        if here == there:
            return {end: share.states}
        start, stop = (here, there) if outward else (there, here)
        self._routes.append(Route(start, stop, share))
        return self._gates(rail, start, stop, share)

    def _gates(self, rail: Net, start: Junction, stop: Junction, share: Share) -> Gates:
        """Where a route begins or ends at the terminals of a rail."""
        gates: Gates = {}
        for conductor, terminal in self._touching.get(rail, ()):
            states = self._way.between(conductor, start, stop) & share.states
            if states:
                gates[terminal] = gates[terminal] | states if terminal in gates else states
        return gates

    def _sources(self, difference: Difference) -> tuple[Gates, Gates]:
        """The supplies' terminals where the current of a difference comes from, and where it goes to."""
        supplies, every = self._facts.circuit.supplies, self._facts.spaces.all()
        pair = (difference.high, difference.low)
        single = [one for one in supplies if (self._nets[one.plus], self._nets[one.minus]) == pair]
        plus = {one.plus: every for one in single or supplies if self._nets[one.plus] == difference.high}
        return plus, {one.minus: every for one in single or supplies if self._nets[one.minus] == difference.low}

    def _find_braked(self) -> None:
        conduction, rails = self._facts.conduction, sorted(self._facts.conduction.network.rails)
        for motor, does in zip(self._facts.circuit.motors, self._facts.motors, strict=True):
            for winding in motor.windings if does.braked else ():
                for start, end in ((winding.plus, winding.minus), (winding.minus, winding.plus)):
                    share = Share(winding.load, "brake", motor.volts, does.braked)
                    self._routes.append(Route(self._way.junction(start), self._way.junction(end), share))
                    for rail in rails:
                        onto = conduction.leads_between(self._nets[start], rail)
                        states = (share.states & onto & conduction.leads_between(rail, self._nets[end])).tight()
                        if states:
                            self._find_brake_over(rail, start, end, share._replace(states=states))

    def _find_brake_over(self, rail: Net, start: Terminal, end: Terminal, share: Share) -> None:
        enters = self._through(start, rail, False, share)
        self._crossings.append(Crossing(rail, enters, self._through(end, rail, True, share), share))
