"""The real volts and amps: terminal by terminal, with what the plan says of wires, contacts and supplies.

For each distinct set of closed contacts around a load (surroundings.py) one small network is solved (real_network.py).
What the plan gives no resistance for has none. A supply's rails, and buses that closed contacts hold at them, end such
a network: the currents of several networks that hold in one state add up in what they share, but the volts that one
loses there by the other's current are not in it.

    cost: distinct networks x terminals of each, where wires hardly branch
"""

from collections.abc import Iterator
from typing import Final, NamedTuple

from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.real_network import PerAmpere, RealNetworks
from circuitcheck.analysis.resistances import Setting
from circuitcheck.analysis.states import States, union
from circuitcheck.analysis.surroundings import Case, cases

NEGLIGIBLE_AMPS: Final = 1e-8


class CurrentCase(NamedTuple):
    """In `states`, the loads that hang together stand at these volts, and these amps flow for them.

    volts: by load, positive where its a is. amps: by conductor, positive from tail to head; one that carries nothing is
    left out. delivered: the amps that each supply gives for them. at_supply: the volts at its terminals, as far as
    these loads alone lower (or raise) them. network: what was solved, in some of the states.
    """

    states: States
    volts: dict[int, float]
    amps: dict[int, float]
    delivered: dict[int, float]
    at_supply: dict[int, float]
    network: Case


Key = tuple[frozenset[int], tuple[int, ...], tuple[int, ...]]
"""A distinct network: contacts and diodes, loads, supplies."""


class Currents:
    """The currents of a circuit in one setting. What the plan says is read once; each network is solved once."""

    def __init__(self, facts: Facts, setting: Setting) -> None:
        self._facts = facts
        self._networks = RealNetworks(facts.circuit, facts.conduction, setting)
        self._solved: dict[Key, CurrentCase] = {}
        spaces = facts.spaces
        on = union((spaces.where(supply.digit, (1,)) for supply in facts.circuit.supplies), spaces.none())
        self._live = on - facts.shorted

    def of_load(self, load: int, within: States | None = None) -> tuple[CurrentCase, ...]:
        """Every distinct case in which current flows in what hangs together with a load; shorted states are left out.

        within: only these states are looked at; None for all. TooManyCases where there are too many, NoOperatingPoint
        where one is beyond the model.
        """
        facts = self._facts
        found: dict[Key, States] = {}
        states = self._live if within is None else self._live & within
        if not states:
            return ()
        for case in cases(facts.circuit, facts.conduction, self._networks.ways, load, states):
            key = (self._networks.contacts_of(case), tuple(sorted(case.loads)), tuple(sorted(case.supplies)))
            found[key] = found[key] | case.states if key in found else case.states
            if key not in self._solved:
                self._solved[key] = self._solve(case)
        return tuple(
            self._solved[key]._replace(states=states.tight()) for key, states in found.items() if self._solved[key].amps
        )

    def _solve(self, case: Case) -> CurrentCase:
        real = self._networks.solve(case)
        amps = {number: value for number, value in real.amps.items() if abs(value) > NEGLIGIBLE_AMPS}
        return CurrentCase(case.states, real.volts, amps, real.delivered, real.at_supply, case)

    def per_ampere(self, case: CurrentCase, load: int) -> PerAmpere:
        """What conductors and supplies carry more for each ampere more that a load draws, motors at rest."""
        return self._networks.per_ampere(case.network, load)

    def of_all(self) -> Iterator[CurrentCase]:
        """Every case of the circuit once: in each state the amps of all cases that hold there add up to the whole."""
        for load in range(len(self._facts.circuit.loads)):
            yield from (case for case in self.of_load(load) if case.network.carrying[:1] == (load,))


def currents(facts: Facts, load: int, setting: Setting) -> tuple[CurrentCase, ...]:
    """The volts and amps of what hangs together with a load, for each distinct set of closed contacts around it."""
    return Currents(facts, setting).of_load(load)
