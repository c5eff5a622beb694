"""The currents of a whole circuit: what each conductor carries, and which fuses stand in front of it."""

from math import inf
from typing import Final, NamedTuple

from circuitcheck.analysis.carrying import Carrying
from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.routes import Share
from circuitcheck.analysis.through_others import ThroughOthers
from circuitcheck.circuit.model import Circuit, Supply
from circuitcheck.sizing.currents import Currents, find_currents, lasting_if_guarded
from circuitcheck.sizing.draws import find_draws
from circuitcheck.sizing.fuse_table import Family, family_of
from circuitcheck.sizing.greatest import Greatest, Part, Sums

OVERLOAD: Final = 1.35
"""What a wire takes, times its ampacity, for the hour in which its fuse is sure to open. IEC 60364-4-43 allows 1.45
(from memory); with 1.35 a blade fuse (sure to open at 135 %) may be rated as much as the wire."""


class Fuse(NamedTuple):
    """A fuse, by the index of its conductor."""

    conductor: int
    name: str
    amps: float
    family: Family

    @property
    def guards(self) -> float:
        """What a wire behind it must be able to carry: its rating for a blade, more for a fuse that opens later."""
        return self.amps * (self.family.sure.percent / (100 * OVERLOAD))


class Flows:
    """The shares and currents of each conductor and supply, each worked out once."""

    def __init__(self, facts: Facts) -> None:
        self.facts = facts
        self.circuit: Circuit = facts.circuit
        self.draws = find_draws(facts)
        self.sums = Sums(facts)
        self.fuses = fuses_of(facts.circuit)
        self._carrying = Carrying(facts)
        self._through_others = ThroughOthers(facts, self._carrying)
        self._shares: dict[int, tuple[Share, ...]] = {}
        self._before: dict[int, tuple[Fuse, ...]] = {}

    def shares(self, conductor: int) -> tuple[Share, ...]:
        """Whose current a conductor carries, in states that operation reaches, as far as that can be told."""
        if conductor not in self._shares:
            found = (*self._carrying[conductor], *self._through_others[conductor])
            self._shares[conductor] = tuple(share for share in found if self.sums.where_reached(share.states))
        return self._shares[conductor]

    def currents(self, conductor: int) -> Currents:
        """The most that a conductor carries."""
        shares = self.shares(conductor)
        return find_currents(self.circuit, self.draws, self.sums, shares, self._limit(shares))

    def motors_start(self, conductor: int) -> Greatest:
        """The most that flows while motors start; a filament is warm before a fuse takes notice."""
        shares, parts = self.shares(conductor), []
        for share in shares:
            load = self.circuit.loads[share.load]
            draw = self.draws.of[share.load].at(load, share)
            amps = draw.starting if load.kind == "motor" else draw.running
            parts.append(Part(share.load, amps, share.states, share.side != "brake"))
        return self.sums.greatest(parts).limited(self._limit(shares))

    def _limit(self, shares: tuple[Share, ...]) -> float:
        """The current at which the supplies of these loads limit, all together; 0 where one of them doesn't."""
        loads = {share.load for share in shares}
        limits = [
            supply.limit_amps
            for supply in self.circuit.supplies
            if any(share.load in loads for share in self.supply_shares(supply))
        ]
        return sum(limits) if all(limits) else 0.0

    def supply_shares(self, supply: Supply) -> tuple[Share, ...]:
        """What a supply feeds, through other loads as well."""
        number = self.circuit.supplies.index(supply)
        return (*self._carrying.of_supply(supply), *self._through_others.of_supply(number))

    def supply_currents(self, supply: Supply) -> Currents:
        """The most that a supply would have to give, its own limit left out."""
        return find_currents(self.circuit, self.draws, self.sums, self.supply_shares(supply))

    def volts(self, conductor: int) -> float:
        """The most volts of any load whose current a conductor carries."""
        return max((share.volts for share in self.shares(conductor)), default=0.0)

    def fuses_before(self, conductor: int) -> tuple[Fuse, ...]:
        """The fuses that all of a conductor's current has come through, the smallest first."""
        if conductor not in self._before:
            lasting, carrying = self._lasting(conductor), self._carrying
            self._before[conductor] = tuple(
                fuse
                for fuse in self.fuses_along(conductor)
                if all(carrying.in_front(fuse.conductor, conductor, share) for share in lasting)
            )
        return self._before[conductor]

    def fuses_along(self, conductor: int) -> tuple[Fuse, ...]:
        """The same with those that it goes through further on: they end an overload too, but no short before them."""
        lasting = self._lasting(conductor)
        others = [fuse for fuse in self.fuses if lasting and fuse.conductor != conductor]
        return tuple(
            fuse for fuse in others if all(self._carrying.in_series(fuse.conductor, share) for share in lasting)
        )

    def unguarded(self, conductor: int) -> bool:
        """Does a supply's + come to the conductor through no fuse at all?"""
        fuses = tuple(fuse.conductor for fuse in self.fuses)
        high = (share for share in self.shares(conductor) if share.side == "high")
        return any(self._carrying.comes_past(fuses, conductor, share) for share in high)

    def _lasting(self, conductor: int) -> list[Share]:
        """What a braked motor sends round comes through no fuse and is gone in a moment."""
        return [share for share in self.shares(conductor) if share.side in ("high", "low")]

    def needs(self, conductor: int, currents: Currents) -> float:
        """What it must be able to carry for long: what runs, and of an overload as much as its fuse lets through, or
        the fuses of its loads where each has its own."""
        guards = [fuse.guards for fuse in self.fuses_along(conductor)]
        if not guards and currents.lasting > currents.running.amount:
            guards = [self._each_fused(conductor)]
        return max(currents.running.amount, min([currents.lasting, *guards]))

    def _each_fused(self, conductor: int) -> float:
        """The most that goes on flowing where each load held fast has a fuse in its own way."""
        shares = self.shares(conductor)
        guarded = {
            share: min(
                (one.guards for one in self.fuses if self._carrying.in_series(one.conductor, share)), default=inf
            )
            for share in shares
        }
        return lasting_if_guarded(self.circuit, self.draws, self.sums, guarded, self._limit(shares))


def fuses_of(circuit: Circuit) -> tuple[Fuse, ...]:
    """The fuses of a circuit, the smallest first."""
    found = []
    for number, one in enumerate(circuit.conductors):
        if one.kind == "fuse":
            part = circuit.parts[one.part]
            amps = part.ratings["amps"]
            found.append(Fuse(number, part.name, amps, family_of(part.features, amps)))
    return tuple(sorted(found, key=lambda fuse: fuse.amps))
