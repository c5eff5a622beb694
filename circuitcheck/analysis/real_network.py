"""One case as a network of its terminals: wires, contacts, supplies and motors with what the plan says of them."""

from typing import Final, NamedTuple

from circuitcheck.analysis.branch_currents import Solution, solve_branches
from circuitcheck.analysis.conduction import Conduction
from circuitcheck.analysis.linear import Branch, diode
from circuitcheck.analysis.network import Way
from circuitcheck.analysis.resistances import Setting, conductor_ohms, load_ohms
from circuitcheck.analysis.surroundings import Case
from circuitcheck.circuit.model import Circuit

CLAMP_OHMS: Final = 1e-6
"""Within an electronic supply, where its volts are held and where it lets no current back: too little to be seen."""

BLEEDER_OHMS: Final = 1e6
"""Across an electronic supply's terminals: with nothing else on them they stand at its own volts."""


class Real(NamedTuple):
    """Volts by load (positive where its a is), amps by conductor (from tail to head), amps that each supply delivers,
    and the volts at its terminals."""

    volts: dict[int, float]
    amps: dict[int, float]
    delivered: dict[int, float]
    at_supply: dict[int, float]


class PerAmpere(NamedTuple):
    """What more each conductor carries (from tail to head) and each supply delivers, for each ampere more that a load
    draws from its a to its b."""

    amps: dict[int, float]
    delivered: dict[int, float]


class _Network(NamedTuple):
    """Conductors that have ohms, or are diodes, come first among the branches; ideal ones join terminals."""

    resistive: list[int]
    ideal: list[int]
    branches: list[Branch]
    joined: list[tuple[int, int]]

    def amps(self, solved: Solution) -> dict[int, float]:
        """Of each conductor, from tail to head."""
        resistive = dict(zip(self.resistive, solved.amps, strict=False))
        return resistive | dict(zip(self.ideal, solved.joined_amps, strict=True))


class RealNetworks:
    """Builds and solves the networks of a circuit in one setting.

    ways: one for each direction of each conductor that isn't simply always closed; conductor_of: whose.
    """

    def __init__(self, circuit: Circuit, conduction: Conduction, setting: Setting) -> None:
        self._circuit, self._setting, self._nets = circuit, setting, conduction.network.nets
        self._ohms = conductor_ohms(circuit, setting)
        self._always: dict[int, list[int]] = {}
        self._numbers = {terminal: number for number, terminal in enumerate(self._nets)}
        self.ways: list[Way] = []
        self._conductor_of: list[int] = []
        for number, conductor in enumerate(circuit.conductors):
            tail, head = self._nets[conductor.tail], self._nets[conductor.head]
            if conductor.closed is None and not conductor.one_way:
                self._always.setdefault(tail, []).append(number)
                continue
            contact, spaces = conductor.closed, conduction.spaces
            closed = spaces.all() if contact is None else spaces.where(contact.digit, contact.values)
            for ends in ((tail, head),) if conductor.one_way else ((tail, head), (head, tail)):
                self.ways.append(Way(*ends, closed))
                self._conductor_of.append(number)

    def contacts_of(self, case: Case) -> frozenset[int]:
        """The contacts and diodes that conduct, or could, in a case: by conductor."""
        return frozenset(self._conductor_of[way] for way in case.ways)

    def solve(self, case: Case) -> Real:
        """The case's volts and amps. NoOperatingPoint where it is beyond this model.

        A winding in the setting's `turning` draws its amps as long as its volts would push more through it at rest.
        """
        turning = self._setting.turning.keys() & set(case.loads)
        real = self._solve(case, {})
        drawn = {
            number: self._setting.turning[number] * (1 if real.volts[number] > 0 else -1)
            for number in turning
            if abs(real.volts[number]) > self._stall_volts(number)
        }
        while drawn:
            real = self._solve(case, drawn)
            stalled = [
                number
                for number, amps in drawn.items()
                if real.volts[number] * (1 if amps > 0 else -1) < self._stall_volts(number)
            ]
            if not stalled:
                return real
            drawn = {number: amps for number, amps in drawn.items() if number not in stalled}
            real = self._solve(case, drawn)
        return real

    def _stall_volts(self, number: int) -> float:
        """The volts at which a winding at rest draws just what it would draw turning."""
        return self._setting.turning[number] * load_ohms(self._circuit, number, self._setting)

    def per_ampere(self, case: Case, load: int) -> PerAmpere:
        """What follows as long as no diode turns: sources' volts and currents don't change, so they count as none."""
        network = self._network(case, {})
        volts = solve_branches(network.branches, network.joined).volts
        still = [_change(branch, volts) for branch in network.branches]
        ends = self._circuit.loads[load][3:5]
        more = Branch(self._numbers[ends[0]], self._numbers[ends[1]], "current", 1.0)
        amps = network.amps(solve_branches([*still, more], network.joined))
        return PerAmpere(amps, {number: self._delivered(number, amps) for number in case.supplies})

    def _network(self, case: Case, drawn: dict[int, float]) -> _Network:
        conductors = self._conductors(case)
        resistive = [number for number in conductors if self._ohms[number] or self._circuit.conductors[number].one_way]
        ideal = [number for number in conductors if number not in set(resistive)]
        branches = [self._conductor(number) for number in resistive]
        branches += [self._load(number, drawn) for number in sorted(case.loads)]
        branches += [branch for number in case.supplies for branch in self._supply(number)]
        return _Network(resistive, ideal, branches, [self._ends(number) for number in ideal])

    def _solve(self, case: Case, drawn: dict[int, float]) -> Real:
        network = self._network(case, drawn)
        solved = solve_branches(network.branches, network.joined)
        amps = network.amps(solved)
        return Real(
            {number: self._across(solved.volts, *self._circuit.loads[number][3:5]) for number in sorted(case.loads)},
            amps,
            {number: self._delivered(number, amps) for number in case.supplies},
            {number: self._across(solved.volts, *self._circuit.supplies[number][1:3]) for number in case.supplies},
        )

    def _conductors(self, case: Case) -> list[int]:
        """Everything that conducts in a case: its contacts, and all wires of the nets that they and its loads touch."""
        circuit = self._circuit
        closed = self.contacts_of(case)
        touched = [end for number in case.loads for end in (circuit.loads[number].a, circuit.loads[number].b)]
        touched += [end for one in case.supplies for end in (circuit.supplies[one].plus, circuit.supplies[one].minus)]
        touched += [end for one in closed for end in (circuit.conductors[one].tail, circuit.conductors[one].head)]
        nets = sorted({self._nets[terminal] for terminal in touched})
        return [*sorted(closed), *(number for net in nets for number in self._always.get(net, ()))]

    def _ends(self, number: int) -> tuple[int, int]:
        conductor = self._circuit.conductors[number]
        return self._numbers[conductor.tail], self._numbers[conductor.head]

    def _across(self, volts: dict[int, float], high: str, low: str) -> float:
        return volts[self._numbers[high]] - volts[self._numbers[low]]

    def _conductor(self, number: int) -> Branch:
        tail, head = self._ends(number)
        return (
            diode(tail, head)
            if self._circuit.conductors[number].one_way
            else Branch(tail, head, "resistor", self._ohms[number])
        )

    def _load(self, number: int, drawn: dict[int, float]) -> Branch:
        load = self._circuit.loads[number]
        a, b = self._numbers[load.a], self._numbers[load.b]
        if number in drawn:
            return Branch(a, b, "current", drawn[number])
        ohms = load_ohms(self._circuit, number, self._setting)
        return Branch(a, b, "resistor", ohms, self._setting.generated.get(number, 0.0))

    def _supply(self, number: int) -> list[Branch]:
        """A source; with an internal resistance, a resistor that its volts drive.

        One that limits its current or is told to withstand only so many volts is an electronic one: it gives its limit
        at most, its volts being held as long as less is drawn, and it takes no current back.
        """
        supply = self._circuit.supplies[number]
        plus, minus = self._numbers[supply.plus], self._numbers[supply.minus]
        if not supply.limit_amps and not supply.withstands_volts:
            if not supply.internal_ohms:
                return [Branch(plus, minus, "source", supply.volts)]
            return [Branch(plus, minus, "resistor", supply.internal_ohms, supply.volts)]
        inside = -1 - number
        outward = Branch(inside, plus, "diode", supply.internal_ohms or CLAMP_OHMS)
        bleeder = Branch(plus, minus, "resistor", BLEEDER_OHMS)
        if not supply.limit_amps:
            return [Branch(inside, minus, "source", supply.volts), outward, bleeder]
        return [
            Branch(minus, inside, "current", supply.limit_amps),
            Branch(inside, minus, "diode", CLAMP_OHMS, supply.volts),
            outward,
            bleeder,
        ]

    def _delivered(self, number: int, amps: dict[int, float]) -> float:
        """What leaves the supply's plus terminal; nothing but conductors is ever at it."""
        plus = self._circuit.supplies[number].plus
        leaving = 0.0
        for one, value in amps.items():
            conductor = self._circuit.conductors[one]
            leaving += value if conductor.tail == plus else -value if conductor.head == plus else 0.0
        return leaving


def _change(branch: Branch, volts: dict[int, float]) -> Branch:
    """What a branch is to small changes: a resistor, joined ends, or nothing."""
    if branch.kind == "source":
        return branch._replace(value=0.0)
    if branch.kind == "current" or (branch.kind == "diode" and not branch.amps(volts)):
        return Branch(branch.a, branch.b, "current", 0.0)
    return Branch(branch.a, branch.b, "resistor", branch.value)
