"""The volts across a load where conduction alone cannot tell: loads in series, in a bridge, fed through a lamp.

Only what hangs together with the load matters, and of that only the closed contacts. So the open states are split, one
contact at a time, outward from the load, until everything that it touches is known; each such case is a small network
of resistors, diodes and sources that is solved once, whatever the rest of the circuit does.

    cost: cases x (nets of the case) ** 3

What it leaves out: wires and contacts have no resistance, supplies no internal resistance; motors stand still (their
winding alone counts) and coils are cold. Diodes are piecewise linear: 0.7 V and 10 milliohm when they conduct.
"""

from collections.abc import Iterator
from typing import Final, NamedTuple

from circuitcheck.analysis.conduction import Conduction
from circuitcheck.analysis.feeding import Fed
from circuitcheck.analysis.linear import Branch, solve_network
from circuitcheck.analysis.network import Net, Way
from circuitcheck.analysis.states import States
from circuitcheck.circuit.model import Circuit

MOST_CASES: Final = 50_000
NEGLIGIBLE: Final = 1e-6
"""Volts below which a load counts as not fed; the solver's own leak to ground stays far below it."""


class TooManyCases(Exception):
    """A load whose volts depend on more distinct networks than can be solved. `load` is its index."""

    def __init__(self, load: int) -> None:
        super().__init__(f"load {load}")
        self.load = load


class Case(NamedTuple):
    """The states in which exactly these ways, loads and sources hang together with a load."""

    states: States
    ways: tuple[Way, ...]
    loads: tuple[int, ...]
    supplies: tuple[int, ...]


def volts_where_open(circuit: Circuit, conduction: Conduction, load: int, open_states: States) -> tuple[Fed, ...]:
    """The volts of one load in the states that conduction leaves open, equal volts together, most volts first."""
    found: dict[float, States] = {}
    solved: dict[tuple[object, ...], float] = {}
    for case in cases(circuit, conduction, load, open_states):
        key = (frozenset((way.tail, way.head) for way in case.ways), case.loads, case.supplies)
        if key not in solved:
            solved[key] = round(_volts(circuit, conduction, load, case), 6)
        volts = solved[key]
        if abs(volts) > NEGLIGIBLE:
            found[volts] = found[volts] | case.states if volts in found else case.states
    none = conduction.spaces.none()
    return tuple(
        Fed(size, found.get(size, none).tight(), found.get(-size, none).tight())
        for size in sorted({abs(volts) for volts in found}, reverse=True)
    )


def cases(circuit: Circuit, conduction: Conduction, load: int, states: States) -> Iterator[Case]:
    """Splits `states` by what hangs together with the load. TooManyCases past MOST_CASES."""
    surroundings = _Surroundings(circuit, conduction)
    waiting = [Case(states, (), (load,), ())]
    decided: list[frozenset[tuple[Net, Net]]] = [frozenset()]
    count = 0
    while waiting:
        case, known = waiting.pop(), decided.pop()
        step = surroundings.next_step(case, known)
        if step is None:
            count += 1
            if count > MOST_CASES:
                raise TooManyCases(load)
            yield case
            continue
        for longer, way in step:
            if longer.states:
                waiting.append(longer)
                decided.append(known | {way})


class _Surroundings:
    """Finds what a case has not decided yet: a way, a load or a supply that touches it."""

    def __init__(self, circuit: Circuit, conduction: Conduction) -> None:
        nets = conduction.network.nets
        self._rails = conduction.network.rails
        self._load_ends = [(nets[load.a], nets[load.b]) for load in circuit.loads]
        self._supply_ends = [(nets[supply.plus], nets[supply.minus]) for supply in circuit.supplies]
        self._on = [conduction.spaces.where(supply.digit, (1,)) for supply in circuit.supplies]
        self._one_return = len({minus for _, minus in self._supply_ends}) == 1
        self._ways = [way for piece in conduction.network.pieces for way in piece.ways]

    def next_step(self, case: Case, known: frozenset[tuple[Net, Net]]) -> list[tuple[Case, tuple[Net, Net]]] | None:
        """The cases that follow by deciding one more thing that touches this one; None where nothing is left."""
        touched = self._touched(case)
        for number, ends in enumerate(self._supply_ends):
            mark = (-1, number)
            if mark not in known and touched.intersection(ends):
                on = case._replace(states=case.states & self._on[number], supplies=(*case.supplies, number))
                return [(on, mark), (case._replace(states=case.states - self._on[number]), mark)]
        growing = touched - self._held(case)
        for number, ends in enumerate(self._load_ends):
            if number not in case.loads and growing.intersection(ends):
                return [(case._replace(loads=(*case.loads, number)), (-2, number))]
        for way in self._ways:
            mark = (way.tail, way.head)
            if mark not in known and growing.intersection(mark):
                closed = case._replace(states=case.states & way.closed, ways=(*case.ways, way))
                return [(closed, mark), (case._replace(states=case.states - way.closed), mark)]
        return None

    def _touched(self, case: Case) -> set[Net]:
        touched = {net for number in case.loads for net in self._load_ends[number]}
        touched.update(net for number in case.supplies for net in self._supply_ends[number])
        for way in case.ways:
            touched.update((way.tail, way.head))
        return touched

    def _held(self, case: Case) -> set[Net]:
        """The nets that supplies hold, so that nothing beyond them matters. Supplies that share no return may still
        meet over contacts, so there nothing is cut off."""
        if not self._one_return:
            return set()
        return {net for number in case.supplies for net in self._supply_ends[number]}


def _volts(circuit: Circuit, conduction: Conduction, load: int, case: Case) -> float:
    nets = conduction.network.nets
    directions = {(way.tail, way.head) for way in case.ways}
    joined = [pair for pair in directions if pair[::-1] in directions]
    branches = [Branch(tail, head, "diode", 0.0) for tail, head in sorted(directions - set(joined))]
    for number in sorted(case.loads):
        one = circuit.loads[number]
        branches.append(Branch(nets[one.a], nets[one.b], "resistor", one.ohms))
    for number in sorted(case.supplies):
        supply = circuit.supplies[number]
        branches.append(Branch(nets[supply.plus], nets[supply.minus], "source", supply.volts))
    volts = solve_network(branches, joined)
    return volts[nets[circuit.loads[load].a]] - volts[nets[circuit.loads[load].b]]
