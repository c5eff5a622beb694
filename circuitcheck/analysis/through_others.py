"""Currents that reach a load through other loads: in series, in a bridge, by a sneak path.

The operating point knows them (currents.py), for a conductor with all that hangs together with it. What loads fed by
conductors alone draw there is carried already (carrying.py); here is what flows beyond that.
"""

from typing import Final

from circuitcheck.analysis.carrying import Carrying
from circuitcheck.analysis.currents import CurrentCase, Currents
from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.resistances import Setting
from circuitcheck.analysis.routes import Share
from circuitcheck.analysis.states import States

NEGLIGIBLE_AMPS: Final = 1e-6


class ThroughOthers:
    """The shares of each conductor that flow through several loads in turn. Solved once, for all conductors."""

    def __init__(self, facts: Facts, carrying: Carrying) -> None:
        self._facts = facts
        self._carrying = carrying
        solved = Currents(facts, Setting())
        self._cases: list[tuple[int, States, CurrentCase]] = []
        for number, feeding in enumerate(facts.feeding):
            for case in solved.of_load(number) if feeding.open else ():
                states = (case.states & feeding.open).tight()
                # In a state where several loads are open the lowest of them speaks for all that hang together with it.
                for other in case.network.carrying:
                    states = states - facts.feeding[other].open if other < number else states
                if states:
                    self._cases.append((number, states.tight(), case))

    def __getitem__(self, conductor: int) -> tuple[Share, ...]:
        """The shares of a conductor by its index."""
        found = []
        for number, states, case in self._cases:
            amps = abs(case.amps.get(conductor, 0.0)) - self._drawn(self._carrying[conductor], states, case)
            if amps > NEGLIGIBLE_AMPS:
                found.append(Share(number, "series", abs(case.volts[number]), states, amps))
        return tuple(found)

    def of_supply(self, number: int) -> tuple[Share, ...]:
        """What a supply, by its number, gives beyond what it feeds by conductors alone."""
        supply, found = self._facts.circuit.supplies[number], []
        for load, states, case in self._cases:
            fed = self._drawn(self._carrying.of_supply(supply), states, case)
            amps = abs(case.delivered.get(number, 0.0)) - fed
            if amps > NEGLIGIBLE_AMPS:
                found.append(Share(load, "series", abs(case.volts[load]), states, amps))
        return tuple(found)

    def _drawn(self, shares: tuple[Share, ...], states: States, case: CurrentCase) -> float:
        """What those of the case's loads that conductors feed draw of these shares, motors at rest as they are here."""
        loads = self._facts.circuit.loads
        through = (one for one in shares if one.side != "brake" and one.load in case.volts)
        return sum(one.volts / loads[one.load].ohms for one in through if not states - one.states)
