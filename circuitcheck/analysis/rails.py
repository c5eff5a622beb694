"""The supplies as seen from the wires: which rails stand at different volts, and when current can rush between them.

A supply that is off passes no current and holds nothing. Supplies in series add up, through shared nets only; rails
that meet over a contact are found by conduction.
"""

from collections.abc import Iterator
from typing import NamedTuple

from circuitcheck.analysis.conduction import Conduction
from circuitcheck.analysis.network import Net
from circuitcheck.analysis.states import States
from circuitcheck.circuit.model import Circuit


class Difference(NamedTuple):
    """`high` stands `volts` above `low` in the states `live`, by the supplies between them."""

    high: Net
    low: Net
    volts: float
    live: States


class Short(NamedTuple):
    """In `states`, conductors close a loop through these supplies, whose volts do not cancel.

    stretches: where the loop's current leaves one supply and enters the next, in order.
    """

    supplies: tuple[int, ...]
    stretches: tuple[tuple[Net, Net], ...]
    states: States


def supply_on(circuit: Circuit, conduction: Conduction, supply: int) -> States:
    """The states in which a supply is on."""
    return conduction.spaces.where(circuit.supplies[supply].digit, (1,))


def differences(circuit: Circuit, conduction: Conduction) -> tuple[Difference, ...]:
    """Every pair of rails with volts between them, by one supply or several in series; most volts first."""
    found: dict[tuple[Net, Net, tuple[int, ...]], Difference] = {}
    for start in sorted(conduction.network.rails):
        for end, volts, used in _chains(circuit, conduction, start, ()):
            if volts > 0:
                live = conduction.spaces.all()
                for supply in used:
                    live = live & supply_on(circuit, conduction, supply)
                key = (end, start, tuple(sorted(used)))
                found[key] = Difference(end, start, volts, live)
    return tuple(sorted(found.values(), key=lambda one: -one.volts))


def _chains(
    circuit: Circuit, conduction: Conduction, at: Net, used: tuple[int, ...]
) -> Iterator[tuple[Net, float, tuple[int, ...]]]:
    """The nets reached from `at` through supplies, each once, with the volts gained."""
    nets = conduction.network.nets
    for number, supply in enumerate(circuit.supplies):
        if number in used:
            continue
        plus, minus = nets[supply.plus], nets[supply.minus]
        for here, there, volts in ((minus, plus, supply.volts), (plus, minus, -supply.volts)):
            if here == at:
                yield there, volts, (*used, number)
                for end, further, chain in _chains(circuit, conduction, there, (*used, number)):
                    yield end, volts + further, chain


def shorts(circuit: Circuit, conduction: Conduction) -> tuple[Short, ...]:
    """Every way in which conductors short-circuit supplies, one for each set of supplies in the loop."""
    found: dict[tuple[int, ...], list[Short]] = {}
    for first in range(len(circuit.supplies)):
        for loop in _loops(circuit, conduction, first):
            found.setdefault(loop.supplies, []).append(loop)
    result = []
    for supplies, loops in sorted(found.items()):
        for loop in loops:
            if loop.states:
                result.append(Short(supplies, loop.stretches, loop.states))
    return tuple(result)


def _loops(circuit: Circuit, conduction: Conduction, first: int) -> Iterator[Short]:
    """Loops through supply `first`, upward or downward, with no supply of a lower number in them."""
    nets = conduction.network.nets
    supply = circuit.supplies[first]
    plus, minus = nets[supply.plus], nets[supply.minus]
    begun = Short((first,), (), supply_on(circuit, conduction, first))
    yield from _close(circuit, conduction, plus, minus, begun, supply.volts)
    yield from _close(circuit, conduction, minus, plus, begun, -supply.volts)


def _close(
    circuit: Circuit, conduction: Conduction, at: Net, goal: Net, so_far: Short, volts: float
) -> Iterator[Short]:
    """Ways on from `at` to `goal` over conductors and further supplies. The loop's current must be driven round it."""
    direct = so_far.states & conduction.leads_between(at, goal)
    if direct and volts > 0:
        yield Short(tuple(sorted(so_far.supplies)), (*so_far.stretches, (at, goal)), direct)
    nets = conduction.network.nets
    for number, supply in enumerate(circuit.supplies):
        if number <= so_far.supplies[0] or number in so_far.supplies:
            continue
        plus, minus = nets[supply.plus], nets[supply.minus]
        for enter, leave, gain in ((minus, plus, supply.volts), (plus, minus, -supply.volts)):
            states = so_far.states & conduction.leads_between(at, enter)
            states = states & supply_on(circuit, conduction, number)
            if states:
                longer = Short((*so_far.supplies, number), (*so_far.stretches, (at, enter)), states)
                yield from _close(circuit, conduction, leave, goal, longer, volts + gain)
