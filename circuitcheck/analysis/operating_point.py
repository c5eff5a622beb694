"""The volts across a load where conduction alone cannot tell: loads in series, in a bridge, fed through a lamp.

The open states are split by what hangs together with the load (surroundings.py); each such case is a small network of
resistors, diodes and sources that is solved once, whatever the rest of the circuit does.

    cost: cases x (nets of the case) ** 3

What it leaves out: wires and contacts have no resistance, supplies no internal resistance; motors stand still (their
winding alone counts) and coils are cold. Diodes are piecewise linear: 0.7 V and 10 milliohm when they conduct.
"""

from collections.abc import Sequence
from typing import Final

from circuitcheck.analysis.conduction import Conduction
from circuitcheck.analysis.feeding import Fed
from circuitcheck.analysis.linear import Branch, diode, solve_network
from circuitcheck.analysis.network import Net, Way
from circuitcheck.analysis.states import States, union
from circuitcheck.analysis.surroundings import Case, cases
from circuitcheck.circuit.model import Circuit

NEGLIGIBLE: Final = 1e-6
"""Volts below which a load counts as not fed; the solver's own leak to ground stays far below it."""


def volts_where_open(circuit: Circuit, conduction: Conduction, load: int, open_states: States) -> tuple[Fed, ...]:
    """The volts of one load in the states that conduction leaves open, equal volts together, most volts first."""
    found: dict[float, States] = {}
    solved: dict[tuple[object, ...], float] = {}
    ways = _one_each(conduction)
    for case in cases(circuit, conduction, ways, load, open_states):
        key = (frozenset(case.ways), case.loads, case.supplies)
        if key not in solved:
            solved[key] = round(_volts(circuit, conduction, ways, load, case), 6)
        volts = solved[key]
        if abs(volts) > NEGLIGIBLE:
            found[volts] = found[volts] | case.states if volts in found else case.states
    none = conduction.spaces.none()
    return tuple(
        Fed(size, found.get(size, none).tight(), found.get(-size, none).tight())
        for size in sorted({abs(volts) for volts in found}, reverse=True)
    )


def _one_each(conduction: Conduction) -> list[Way]:
    """One way from each net to each other, however many conductors lie side by side: each would double the cases."""
    leading: dict[tuple[Net, Net], list[States]] = {}
    for piece in conduction.network.pieces:
        for tail, head, closed in piece.ways:
            leading.setdefault((tail, head), []).append(closed)
    none = conduction.spaces.none()
    return [Way(*ends, union(sets, none)) for ends, sets in leading.items()]


def _volts(circuit: Circuit, conduction: Conduction, ways: Sequence[Way], load: int, case: Case) -> float:
    nets = conduction.network.nets
    directions = {(ways[number].tail, ways[number].head) for number in case.ways}
    joined = [pair for pair in directions if pair[::-1] in directions]
    branches = [diode(tail, head) for tail, head in sorted(directions - set(joined))]
    for number in sorted(case.loads):
        one = circuit.loads[number]
        branches.append(Branch(nets[one.a], nets[one.b], "resistor", one.ohms))
    for number in sorted(case.supplies):
        supply = circuit.supplies[number]
        branches.append(Branch(nets[supply.plus], nets[supply.minus], "source", supply.volts))
    volts = solve_network(branches, joined)
    return volts[nets[circuit.loads[load].a]] - volts[nets[circuit.loads[load].b]]
