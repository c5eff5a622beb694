"""What hangs together with a load in which states: the distinct small networks in which it ever stands.

Only what hangs together with the load matters, and of that only the closed ways. So states are split, one way at a
time, outward from the load, until everything that it touches is known; the rest of the circuit plays no part.

A net that a supply holds ends the network: whatever hangs on it cannot change the volts there. So does a net that
closed ways join to such a net in both directions: the bus behind an emergency stop is held while that is closed. Ways
beside one another between the same two nets are all looked at, since they share a current.
"""

from collections.abc import Iterator, Sequence
from typing import Final, NamedTuple

from circuitcheck.analysis.conduction import Conduction
from circuitcheck.analysis.network import Net, Way
from circuitcheck.analysis.states import States
from circuitcheck.circuit.model import Circuit

MOST_CASES: Final = 50_000


class TooManyCases(Exception):
    """A load whose volts depend on more distinct networks than can be solved. `load` is its index."""

    def __init__(self, load: int) -> None:
        super().__init__(f"load {load}")
        self.load = load


class Case(NamedTuple):
    """The states in which exactly these ways (by number), loads and supplies hang together with a load."""

    states: States
    ways: tuple[int, ...]
    loads: tuple[int, ...]
    supplies: tuple[int, ...]


Mark = tuple[str, int]
"""What has been decided: the kind ("way", "load" or "supply") and the number."""


def cases(circuit: Circuit, conduction: Conduction, ways: Sequence[Way], load: int, states: States) -> Iterator[Case]:
    """Splits `states` by what hangs together with the load over these ways. TooManyCases past MOST_CASES."""
    surroundings = _Surroundings(circuit, conduction, ways)
    waiting: list[tuple[Case, frozenset[Mark]]] = [(Case(states, (), (load,), ()), frozenset())]
    count = 0
    while waiting:
        case, known = waiting.pop()
        step = surroundings.next_step(case, known)
        if step is None:
            count += 1
            if count > MOST_CASES:
                raise TooManyCases(load)
            yield surroundings.together(case)
            continue
        mark, branches = step
        waiting.extend((longer, known | {mark}) for longer in branches if longer.states)


class _Surroundings:
    """Finds what a case has not decided yet: a way, a load or a supply that touches it."""

    def __init__(self, circuit: Circuit, conduction: Conduction, ways: Sequence[Way]) -> None:
        nets = conduction.network.nets
        self._load_ends = [(nets[load.a], nets[load.b]) for load in circuit.loads]
        self._supply_ends = [(nets[supply.plus], nets[supply.minus]) for supply in circuit.supplies]
        self._on = [conduction.spaces.where(supply.digit, (1,)) for supply in circuit.supplies]
        self._rails = conduction.network.rails
        self._one_return = len({minus for _, minus in self._supply_ends}) == 1
        self._ways = ways

    def next_step(self, case: Case, known: frozenset[Mark]) -> tuple[Mark, list[Case]] | None:
        """One more thing that touches this case, and the cases that follow by deciding it; None where nothing is
        left."""
        touched = self._touched(case)
        for number, ends in enumerate(self._supply_ends):
            if ("supply", number) not in known and touched.intersection(ends):
                on = case._replace(states=case.states & self._on[number], supplies=(*case.supplies, number))
                return ("supply", number), [on, case._replace(states=case.states - self._on[number])]
        held = self._held(case)
        way = self._next_way(touched, held, known)
        if way is not None:
            closed = self._ways[way].closed
            taken = case._replace(states=case.states & closed, ways=(*case.ways, way))
            return ("way", way), [taken, case._replace(states=case.states - closed)]
        growing = touched - held
        for number, ends in enumerate(self._load_ends):
            if number not in case.loads and growing.intersection(ends):
                return ("load", number), [case._replace(loads=(*case.loads, number))]
        return None

    def together(self, case: Case) -> Case:
        """The case with only the loads that hang together with its first without a held net between: some may have
        been taken in before what holds them was known."""
        held = self._held(case)
        reached = set(self._load_ends[case.loads[0]]) - held
        loads = {case.loads[0]}
        pairs = [(self._ways[number].tail, self._ways[number].head) for number in case.ways]
        grown = True
        while grown:
            loads.update(number for number in case.loads if reached.intersection(self._load_ends[number]))
            beside = [pair for pair in (*pairs, *map(self._load_ends.__getitem__, loads)) if reached.intersection(pair)]
            more = {net for pair in beside for net in pair} - held - reached
            reached |= more
            grown = bool(more)
        return case._replace(loads=tuple(sorted(loads)))

    def _next_way(self, touched: set[Net], held: set[Net], known: frozenset[Mark]) -> int | None:
        """Ways to held nets first: what they hold grows no further."""
        found = None
        for number, way in enumerate(self._ways):
            if ("way", number) in known or not (way.tail in touched or way.head in touched):
                continue
            if way.tail in held and way.head in held:
                if not {way.tail, way.head} <= self._rails:
                    return number
            elif way.tail in touched - held or way.head in touched - held:
                if way.tail in held or way.head in held:
                    return number
                found = number if found is None else found
        return found

    def _touched(self, case: Case) -> set[Net]:
        touched = {net for number in case.loads for net in self._load_ends[number]}
        touched.update(net for number in case.supplies for net in self._supply_ends[number])
        for number in case.ways:
            touched.update((self._ways[number].tail, self._ways[number].head))
        return touched

    def _held(self, case: Case) -> set[Net]:
        """The nets beyond which nothing matters. Supplies that share no return may still meet over contacts, so there
        nothing is cut off."""
        if not self._one_return:
            return set()
        held = {net for number in case.supplies for net in self._supply_ends[number]}
        taken = [self._ways[number] for number in case.ways]
        directions = {(way.tail, way.head) for way in taken}
        grown = True
        while grown and taken:
            grown = False
            for way in taken:
                if (way.head in held) != (way.tail in held) and (way.head, way.tail) in directions:
                    held.update((way.tail, way.head))
                    grown = True
        return held
