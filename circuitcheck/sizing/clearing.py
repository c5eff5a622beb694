"""Whether the fuse that clears a supply short saves every wire that the short's current flows through.

A wire on the way of a short is saved where the fuses before or behind it let no more last than it may carry, as for any
overload; or where, at a dead short of this way, its fuse opens before the wire takes harm (fuses.py has both rules).
Where ways through a wire lie side by side, behind fuses of their own, what they let last adds up; how a dead short
shares between them nobody can say.

Where the plan lacks a figure there is no verdict, but what to write.
"""

from collections.abc import Iterable, Sequence
from itertools import combinations
from typing import NamedTuple

from circuitcheck.analysis.faults.short_ways import ShortCircuit, ShortWay
from circuitcheck.analysis.gauges import Gauge
from circuitcheck.analysis.states import States
from circuitcheck.circuit.wording import listed
from circuitcheck.sizing.ampacity import NoTable, next_size
from circuitcheck.sizing.around import Lying, wires_lying
from circuitcheck.sizing.flows import Fuse, fuses_of
from circuitcheck.sizing.fuses import short_amps, too_late
from circuitcheck.sizing.loops import hot_ohms
from circuitcheck.sizing.wires import capacity_of, gauge_to_write

SLACK = 1 + 1e-9


class Exposed(NamedTuple):
    """A wire that no fuse is known to save. why: a clause about it. surely: it is not; else it can't be told. write:
    what the plan would have to say for a verdict, if anything."""

    wire: str
    why: str
    surely: bool = False
    write: str = ""


class Clearing(NamedTuple):
    """What ends a short. fuses: by name. burnt: wires that surely aren't saved. untold: those of which it can't be
    told. remedy: for what is burnt."""

    fuses: tuple[str, ...]
    burnt: tuple[Exposed, ...] = ()
    untold: tuple[Exposed, ...] = ()
    remedy: str = ""


def clear_short(short: ShortCircuit) -> Clearing:
    """The verdict on one short, every way of which has a fuse."""
    return _OneShort(short).clearing()


class _OneShort:
    def __init__(self, short: ShortCircuit) -> None:
        self._circuit, self._short = short.circuit, short
        self._ways = short.ways or ()
        self._wires = {one.info.conductor: one for one in wires_lying(short.circuit)}
        self._fuses = {one.conductor: one for one in fuses_of(short.circuit)}

    def clearing(self) -> Clearing:
        """The verdict."""
        passed = dict.fromkeys(number for way in self._ways for number in way.conductors)
        fuses = tuple(self._fuses[number].name for number in passed if number in self._fuses)
        if self._short.ways is None:
            return Clearing(fuses, untold=(Exposed("", "its current has too many ways side by side"),))
        found = [(number, self._exposed(number)) for number in passed if number in self._wires]
        exposed = [(number, one) for number, one in found if one is not None]
        burnt = [number for number, one in exposed if one.surely]
        return Clearing(
            fuses,
            tuple(one for _, one in exposed if one.surely),
            tuple(one for _, one in exposed if not one.surely),
            self._remedy(burnt) if burnt else "",
        )

    def _exposed(self, number: int) -> Exposed | None:
        """A wire that isn't known to be saved; None for one that is."""
        wire = self._wires[number]
        capacity, trouble = capacity_of(wire)
        if capacity is None or wire.gauge is None:
            why = trouble.rstrip(".") or "its gauge isn't given"
            return Exposed(wire.name, why, write="" if wire.gauge else gauge_to_write(wire))
        through = [way for way in self._ways if number in way.conductors]
        if max(_let_last(self._fuses_of(ways)) for ways in _at_once(through)) <= capacity.amps * SLACK:
            return None
        return self._at_dead_short(wire, wire.gauge, capacity.amps, through)

    def _at_dead_short(self, wire: Lying, gauge: Gauge, can: float, through: list[ShortWay]) -> Exposed | None:
        carries = f"it may carry {can:.3g} A"
        common = set.intersection(*(set(fuses) for fuses in self._fuses_of(through)))
        supplies = self._short.outcome.short.supplies if self._short.outcome.short else ()
        if not common or len(supplies) != 1:
            shared = "several fuses" if not common else "several supplies"
            return Exposed(wire.name, f"{carries}, and how a short shares between {shared} isn't known")
        fuse, supply = min(common, key=_amps), self._circuit.supplies[supplies[0]]
        if 0 < supply.limit_amps <= can * SLACK:
            return None
        holds = f"{carries}, {fuse.name} lets {fuse.guards:.3g} A last"
        if not (supply.internal_ohms or supply.limit_amps):
            write = f"`internal 50 mohm` or `limit 12 A` at supply {supply.name}"
            return Exposed(wire.name, f"{holds}, and what a short draws isn't known", write=write)
        ohms, unknown = self._most_ohms(through)
        if unknown:
            write = "gauge and length of the wires on the way, like `: 1.5 mm2 0.4 m`"
            return Exposed(wire.name, f"{holds}, and the ohms of {unknown} aren't known", write=write)
        late = too_late(fuse, gauge, can, short_amps(ohms, supply))
        return Exposed(wire.name, f"{carries}, and {late}", surely=True) if late else None

    def _fuses_of(self, ways: Sequence[ShortWay]) -> list[frozenset[Fuse]]:
        """Those on each of some ways."""
        return [frozenset(self._fuses[one] for one in way.conductors if one in self._fuses) for way in ways]

    def _most_ohms(self, ways: Iterable[ShortWay]) -> tuple[float, str]:
        """Of the way with the most, and a wire whose ohms aren't known."""
        most = 0.0
        for way in ways:
            found = {number: hot_ohms(self._circuit, self._wires, number) for number in way.conductors}
            unknown = next((number for number, ohms in found.items() if ohms is None), None)
            if unknown is not None:
                return 0.0, self._wires[unknown].name
            most = max(most, sum(ohms or 0.0 for ohms in found.values()))
        return most, ""

    def _remedy(self, burnt: list[int]) -> str:
        """Thicker wires, or a smaller fuse."""
        ways = [way for way in self._ways if set(burnt).intersection(way.conductors)]
        fuse = min(frozenset[Fuse]().union(*self._fuses_of(ways)), key=_amps)
        wires = [self._wires[number] for number in burnt]
        thinnest = min(wires, key=lambda one: one.gauge.area_mm2 if one.gauge else 0.0)
        least = min(capacity.amps for one in wires if (capacity := capacity_of(one)[0]))
        below = [rating for rating in fuse.family.ratings if fuse._replace(amps=rating).guards <= least * SLACK]
        smaller = f"a fuse of {below[-1]:g} A at most before them" if below else ""
        thicker = listed(_sizes(thinnest, fuse.guards), "or")
        changes = [f"{thicker} or thicker" if thicker else "", smaller]
        names = listed([one.name for one in wires], "and")
        return f"{fuse.name} doesn't save {names}: take {' or '.join(one for one in changes if one)}."


def _sizes(wire: Lying, amps: float) -> list[str]:
    try:
        return [one.name for one in next_size(wire.gauge, amps, wire.around)]
    except NoTable:
        return []


def _amps(fuse: Fuse) -> float:
    return fuse.amps


def _at_once(ways: Sequence[ShortWay]) -> list[list[ShortWay]]:
    """Which of some ways are closed together, in one state or another."""
    cells: list[tuple[States, list[ShortWay]]] = [(ways[0].states.spaces.all(), [])]
    for way in ways:
        parted: list[tuple[States, list[ShortWay]]] = []
        for states, members in cells:
            parted.append(((states & way.states).tight(), [*members, way]))
            parted.append(((states - way.states).tight(), members))
        cells = [(states, members) for states, members in parted if states]
    return [members for _, members in cells if members]


def _let_last(ways: Sequence[frozenset[Fuse]]) -> float:
    """The most that goes on flowing over some ways side by side: what the fewest fuses let last that part them all."""
    every = frozenset[Fuse]().union(*ways)
    parting = (
        sum(fuse.guards for fuse in chosen)
        for count in range(1, len(every) + 1)
        for chosen in combinations(every, count)
        if all(way.intersection(chosen) for way in ways)
    )
    return min(parting)
