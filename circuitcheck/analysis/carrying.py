"""Whose current each conductor carries, in which states.

A load that conductors feed draws its current over every conductor that lies on a way from the supply to it, or from it
back (on_the_way.py). Where ways lie side by side each counts with the whole current: of two contacts in parallel one
makes first and breaks last, and nobody can say how two wires share. A braked motor sends its current over every
conductor on a way from brush to brush.

What it leaves out: loads fed through other loads, which the operating point knows (through_others.py); what a turning
motor sends through a diode, or back into the supply; and of a way from a supply's rail to another's over the rail of a
third one, what lies between the first two.
"""

from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.feeding import Fed, across
from circuitcheck.analysis.network import Net
from circuitcheck.analysis.rails import Difference
from circuitcheck.analysis.routes import Crossing, Gates, Routes, Share
from circuitcheck.analysis.states import States, union
from circuitcheck.analysis.without_fuses import WithoutFuses
from circuitcheck.circuit.model import Supply, Terminal


class Carrying:
    """The shares of each conductor of a circuit, each worked out when first asked for."""

    def __init__(self, facts: Facts) -> None:
        self._facts = facts
        self._nets = facts.conduction.network.nets
        self._routes = Routes(facts)
        self._find_fed()
        self._find_braked()
        self._shares: dict[int, tuple[Share, ...]] = {}
        self._lacking: dict[tuple[int, ...], WithoutFuses] = {}

    def __getitem__(self, conductor: int) -> tuple[Share, ...]:
        """The shares of a conductor by its index; loads whose current it never carries are left out."""
        if conductor not in self._shares:
            found: dict[tuple[int, str, float], States] = {}
            for share in self._routes.carried(conductor):
                if share.states:
                    key = (share.load, share.side, share.volts)
                    found[key] = found[key] | share.states if key in found else share.states
            self._shares[conductor] = tuple(Share(*key, states.tight()) for key, states in found.items())
        return self._shares[conductor]

    def of_supply(self, supply: Supply) -> tuple[Share, ...]:
        """What a supply feeds."""
        crossings = self._routes.crossings
        return tuple(one.share for one in crossings if supply.plus in one.enters)

    def in_series(self, fuse: int, share: Share) -> bool:
        """Does all current of a share go through the fuse, wherever on its way?"""
        if share.side not in ("high", "low") or not self._passes(fuse, share):
            return False
        return not share.states & self._without((fuse,)).feeds(share.load)

    def in_front(self, fuse: int, conductor: int, share: Share) -> bool:
        """Does it go through the fuse before it comes to the conductor?

        Wires back to − come after every fuse that their load is fed through.
        """
        if not self.in_series(fuse, share):
            return False
        return share.side == "low" or not self.comes_past((fuse,), conductor, share)

    def comes_past(self, fuses: tuple[int, ...], conductor: int, share: Share) -> bool:
        """Do conductors lead from a supply's + to the conductor in the share's states, these fuses taken out?"""
        one, without = self._facts.circuit.conductors[conductor], self._without(fuses)
        return any(share.states & without.reaches(end) for end in (one.tail, one.head))

    def _passes(self, fuse: int, share: Share) -> bool:
        """Does the fuse carry it in all its states? Quickly asked, and most fuses don't."""
        passed = union((one.states for one in self[fuse] if one.load == share.load), self._facts.spaces.none())
        return not share.states - passed

    def _without(self, fuses: tuple[int, ...]) -> WithoutFuses:
        if fuses not in self._lacking:
            self._lacking[fuses] = WithoutFuses(self._facts, fuses)
        return self._lacking[fuses]

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
            here = states & across(self._facts.conduction, difference, enters, leaves) if states else states
            if here:
                self._find_side(Share(number, "high", fed.volts, here), difference.high, plus, enters)
                self._find_side(Share(number, "low", fed.volts, here), difference.low, minus, leaves)

    def _find_side(self, share: Share, home: Net, sources: Gates, end: Terminal) -> None:
        """The routes and the crossing between a load's end and the rail that its current comes from or goes to."""
        conduction, outward = self._facts.conduction, share.side == "high"
        for rail in sorted(conduction.network.rails):
            ends = ((home, rail), (rail, self._nets[end])) if outward else ((self._nets[end], rail), (rail, home))
            states = conduction.leads_between(*ends[0], share.states)
            states = conduction.leads_between(*ends[1], states) if states else states
            if not states:
                continue
            there = share._replace(states=states)
            gates = self._routes.through(end, rail, outward, there)
            if rail == home:
                self._routes.cross(rail, sources, gates, outward, there)
                continue
            start, stop = (-1 - home, -1 - rail) if outward else (-1 - rail, -1 - home)
            self._routes.add(start, stop, there)
            self._routes.cross(home, sources, self._routes.gates(home, start, stop, there), outward, there)
            self._routes.cross(rail, self._routes.gates(rail, start, stop, there), gates, outward, there)

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
                    self._routes.add(self._routes.way.junction(start), self._routes.way.junction(end), share)
                    for rail in rails:
                        states = conduction.leads_between(self._nets[start], rail, share.states)
                        states = conduction.leads_between(rail, self._nets[end], states) if states else states
                        if states:
                            self._find_brake_over(rail, start, end, share._replace(states=states))

    def _find_brake_over(self, rail: Net, start: Terminal, end: Terminal, share: Share) -> None:
        enters = self._routes.through(start, rail, False, share)
        self._routes.crossings.append(Crossing(rail, enters, self._routes.through(end, rail, True, share), share))
