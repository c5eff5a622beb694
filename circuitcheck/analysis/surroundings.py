"""What hangs together with a load in which states: the distinct small networks in which it ever stands.

Only what hangs together with the load matters, and of that only the closed ways. So states are split, one way at a
time, outward from the load, until everything that it touches is known; the rest of the circuit plays no part.

A net that a supply holds ends the network: whatever hangs on it cannot change the volts there. So does a net that
closed ways join to such a net in both directions: the bus behind an emergency stop is held while that is closed. Ways
beside one another between the same two nets are all looked at, since they share a current.
"""

from collections.abc import Iterator, Sequence
from typing import Final, NamedTuple

from circuitcheck.analysis.biconnected import nets_of_blocks
from circuitcheck.analysis.conduction import Conduction
from circuitcheck.analysis.network import Net, Way
from circuitcheck.analysis.states import States
from circuitcheck.circuit.model import Circuit

MOST_CASES: Final = 50_000


MOST_LOADS: Final = 200
"""Loads of one case: each is asked with all the others."""


class TooManyCases(Exception):
    """A load whose volts depend on more distinct networks than can be solved. `load` is its index."""

    def __init__(self, load: int) -> None:
        super().__init__(f"load {load}")
        self.load = load


class Case(NamedTuple):
    """The states in which exactly these ways (by number), loads and supplies hang together with a load.

    carrying: those of the loads through which current could run; one with both ends at one net is none.
    """

    states: States
    ways: tuple[int, ...]
    loads: tuple[int, ...]
    supplies: tuple[int, ...]
    carrying: tuple[int, ...] = ()


Mark = tuple[str, int]
"""What has been decided: the kind ("way", "load" or "supply") and the number."""


class Growing(NamedTuple):
    """A case on the way: what has been decided, the nets that it touches, and those of them that are held."""

    case: Case
    known: frozenset[Mark]
    touched: frozenset[Net]
    held: frozenset[Net]


def cases(circuit: Circuit, conduction: Conduction, ways: Sequence[Way], load: int, states: States) -> Iterator[Case]:
    """Splits `states` by what hangs together with the load over these ways; where no two supplies' nets do, no current
    runs, and nothing is told. TooManyCases past MOST_CASES, or where more than MOST_LOADS hang together."""
    surroundings = _Surroundings(circuit, conduction, ways)
    beginning = surroundings.begin(load, states)
    waiting = [beginning] if surroundings.could_carry(beginning) else []
    count = 0
    while waiting:
        growing = waiting.pop()
        if len(growing.case.loads) > MOST_LOADS:
            raise TooManyCases(load)
        further = surroundings.decide(growing)
        if further is None:
            count += 1
            if count > MOST_CASES:
                raise TooManyCases(load)
            yield surroundings.together(growing)
        else:
            possible = (one for one in further if one.case.states)
            # Whatever isn't decided counts as closed, so only what is left out can end what could carry until then.
            waiting.extend(one for one in possible if one.case[1:] != growing.case[1:] or surroundings.could_carry(one))


class _Surroundings:
    """Finds what a case has not decided yet: a supply, a way or a load that touches it."""

    def __init__(self, circuit: Circuit, conduction: Conduction, ways: Sequence[Way]) -> None:
        nets = conduction.network.nets
        self._load_ends = [frozenset((nets[load.a], nets[load.b])) for load in circuit.loads]
        self._supply_ends = [frozenset((nets[supply.plus], nets[supply.minus])) for supply in circuit.supplies]
        self._on = [conduction.spaces.where(supply.digit, (1,)) for supply in circuit.supplies]
        self._rails = conduction.network.rails
        # Supplies that share no return may still meet over contacts: there nothing is cut off.
        self._one_return = len({nets[supply.minus] for supply in circuit.supplies}) == 1
        self._ways = ways
        self._ends = [frozenset((way.tail, way.head)) for way in ways]
        self._beyond_loads: dict[Net, list[Net]] = {}
        for pair in self._load_ends:
            for net in pair:
                self._beyond_loads.setdefault(net, []).extend(pair - {net})
        self._beyond_ways: dict[Net, list[tuple[int, Net]]] = {}
        for number, pair in enumerate(self._ends):
            for net in pair:
                self._beyond_ways.setdefault(net, []).extend((number, there) for there in pair - {net})

    def begin(self, load: int, states: States) -> Growing:
        """The load alone."""
        return Growing(Case(states, (), (load,), ()), frozenset(), self._load_ends[load], frozenset())

    def decide(self, growing: Growing) -> list[Growing] | None:
        """The cases that follow by deciding one more thing that touches this one; None where nothing is left."""
        case, known, touched, held = growing
        for number, ends in enumerate(self._supply_ends):
            mark = ("supply", number)
            if mark not in known and touched & ends:
                on = case._replace(states=case.states & self._on[number], supplies=(*case.supplies, number))
                off = growing._replace(case=case._replace(states=case.states - self._on[number]), known=known | {mark})
                return [self._taken(growing, on, mark, ends), off]
        way = self._next_way(growing)
        if way is not None:
            mark, closed = ("way", way), self._ways[way].closed
            taken = case._replace(states=case.states & closed, ways=(*case.ways, way))
            left = growing._replace(case=case._replace(states=case.states - closed), known=known | {mark})
            return [self._taken(growing, taken, mark, self._ends[way]), left]
        open_ended, in_it = touched - held, frozenset(case.loads)
        for number, ends in enumerate(self._load_ends):
            if number not in in_it and open_ended & ends:
                more = case._replace(loads=(*case.loads, number))
                return [growing._replace(case=more, touched=touched | ends)]
        return None

    def _taken(self, growing: Growing, case: Case, mark: Mark, ends: frozenset[Net]) -> Growing:
        held = self._held(case, growing.held)
        return Growing(case, growing.known | {mark}, growing.touched | ends, held)

    def _next_way(self, growing: Growing) -> int | None:
        """Ways to held nets first: what they hold grows no further. Of those between two held nets all are looked at:
        they share a current with what holds them."""
        _, known, touched, held = growing
        open_ended = touched - held
        found = None
        for number, ends in enumerate(self._ends):
            if not touched & ends or ("way", number) in known:
                continue
            if ends <= held:
                if not ends <= self._rails:
                    return number
            elif open_ended & ends:
                if held & ends:
                    return number
                found = number if found is None else found
        return found

    def _held(self, case: Case, held: frozenset[Net]) -> frozenset[Net]:
        """The nets beyond which nothing matters: supplies' own, and those that ways join to one both ways."""
        if not self._one_return:
            return held
        held = held.union(*(self._supply_ends[number] for number in case.supplies))
        directions = {(self._ways[number].tail, self._ways[number].head) for number in case.ways}
        grown = True
        while grown:
            # One way in from a rail and another out to the opposite one, as two diodes lead, hold nothing.
            more = {head for tail, head in directions if tail in held and (head, tail) in directions} - held
            held |= more
            grown = bool(more)
        return held

    def could_carry(self, growing: Growing) -> bool:
        """Can current still run through the first load, from one supply's net to another, over all that is not decided
        to be open?"""
        case, known, _, _ = growing
        on = [number for number in range(len(self._on)) if ("supply", number) not in known or number in case.supplies]
        goals = frozenset[Net]().union(*(self._supply_ends[number] for number in on))
        taken = set(case.ways)
        reached: set[Net] = set()
        edge = list(self._load_ends[case.loads[0]])
        while edge:
            net = edge.pop()
            if net not in reached:
                reached.add(net)
                if net not in goals:
                    edge += self._beyond_loads.get(net, ())
                    ways = self._beyond_ways.get(net, ())
                    edge += [there for number, there in ways if number in taken or ("way", number) not in known]
        return len(reached & goals) > 1

    def together(self, growing: Growing) -> Case:
        """The case with only the loads that hang together with its first without a held net between: some may have
        been taken in before what holds them was known."""
        case, held = growing.case, growing.held
        ends = self._load_ends[case.loads[0]]
        reached, loads, grown = ends - held, {case.loads[0]}, True
        # Where supplies share no return, current goes on through one and back through another.
        stretches = [self._ends[number] for number in case.ways]
        stretches += [self._supply_ends[number] for number in case.supplies]
        while grown:
            loads.update(number for number in case.loads if reached & self._load_ends[number])
            beside = [pair for pair in (*stretches, *(self._load_ends[number] for number in loads)) if reached & pair]
            ends = ends.union(*beside)
            grown = not ends - held <= reached
            reached = ends - held
        every = tuple(sorted(loads))
        return case._replace(loads=every, carrying=self._in_a_loop(case, every))

    def _in_a_loop(self, case: Case, loads: tuple[int, ...]) -> tuple[int, ...]:
        """Those of the loads that lie in a loop with one of the case's supplies."""
        supplies = [self._supply_ends[number] for number in case.supplies]
        pairs = [*supplies, *(self._ends[way] for way in case.ways), *(self._load_ends[load] for load in loads)]
        blocks = list(nets_of_blocks((min(pair), max(pair)) for pair in pairs if len(pair) > 1))
        fed = [nets for nets in blocks if any(pair <= nets for pair in supplies)]
        ends = {load: self._load_ends[load] for load in loads if len(self._load_ends[load]) > 1}
        return tuple(load for load, pair in ends.items() if any(pair <= nets for nets in fed))
