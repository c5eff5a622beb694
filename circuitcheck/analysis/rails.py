"""The supplies as seen from the wires: which rails stand at different volts, and when current can rush between them.

A supply that is off passes no current and holds nothing. Supplies in series add up, whether they share a net or meet
over a contact.
"""

from collections.abc import Iterator
from math import prod
from typing import Final, NamedTuple

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
    found: dict[tuple[Net, Net, float], States] = {}
    for start in sorted(conduction.network.rails):
        for end, volts, live in _chains(circuit, conduction, start, (), conduction.spaces.all()):
            if volts > 0:
                key = (end, start, volts)
                found[key] = found[key] | live if key in found else live
    every = (Difference(high, low, volts, live) for (high, low, volts), live in found.items())
    return tuple(sorted(every, key=lambda one: -one.volts))


def _chains(
    circuit: Circuit, conduction: Conduction, at: Net, used: tuple[int, ...], live: States
) -> Iterator[tuple[Net, float, States]]:
    """The nets reached from `at` through supplies, each once, with the volts gained and the states in which they are.

    From supply to supply current may pass over contacts; what joins the first and last to a load is not looked at.
    """
    nets = conduction.network.nets
    for number, supply in enumerate(circuit.supplies):
        if number in used:
            continue
        plus, minus = nets[supply.plus], nets[supply.minus]
        for here, there, volts in ((minus, plus, supply.volts), (plus, minus, -supply.volts)):
            if here != at and not used:
                continue
            states = live & supply_on(circuit, conduction, number) & conduction.leads_between(at, here)
            if states:
                yield there, volts, states
                for end, further, chain in _chains(circuit, conduction, there, (*used, number), states):
                    yield end, volts + further, chain


MERGED: Final = 1 << 16
"""Combinations up to which shorts of one kind in several places are told as one."""


def shorts(circuit: Circuit, conduction: Conduction) -> tuple[Short, ...]:
    """Every way in which conductors short-circuit supplies: one for each loop of supplies, while it is not too wide."""
    found: list[Short] = []
    for first in range(len(circuit.supplies)):
        for loop in _loops(circuit, conduction, first):
            same = next((one for one in found if one.stretches == loop.stretches and _is_narrow(one, loop)), None)
            if same is None:
                found.append(loop)
            else:
                found[found.index(same)] = same._replace(states=(same.states | loop.states).tight())
    return tuple(sorted(found, key=lambda one: one.supplies))


def _is_narrow(one: Short, other: Short) -> bool:
    radices = one.states.spaces.radices
    digits = {*one.states.space.digits, *other.states.space.digits}
    return prod(radices[digit] for digit in digits) <= MERGED


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
    if volts > 0:
        for joined in conduction.joins(at, goal):
            states = (so_far.states & joined).tight()
            if states:
                yield Short(tuple(sorted(so_far.supplies)), (*so_far.stretches, (at, goal)), states)
    for number, enter, leave, gain in _ends(circuit, conduction):
        if number > so_far.supplies[0] and number not in so_far.supplies:
            live = so_far.states & supply_on(circuit, conduction, number)
            for joined in conduction.joins(at, enter):
                if live & joined:
                    longer = Short((*so_far.supplies, number), (*so_far.stretches, (at, enter)), live & joined)
                    yield from _close(circuit, conduction, leave, goal, longer, volts + gain)
        if number not in so_far.supplies and not _touches(so_far, enter, leave):
            yield from _close_past(circuit, conduction, at, goal, so_far, volts, (number, enter, leave))


def _close_past(
    circuit: Circuit,
    conduction: Conduction,
    at: Net,
    goal: Net,
    so_far: Short,
    volts: float,
    past: tuple[int, Net, Net],
) -> Iterator[Short]:
    """Ways on over what joins the two rails of a supply that is off: then they are no more than two nets."""
    number, enter, leave = past
    off = so_far.states - supply_on(circuit, conduction, number)
    for across in conduction.joins_directly(enter, leave):
        for joined in conduction.joins(at, enter):
            states = off & across & joined
            if states:
                stretches = (*so_far.stretches, (at, enter), (enter, leave))
                longer = so_far._replace(stretches=stretches, states=states)
                yield from _close(circuit, conduction, leave, goal, longer, volts)


def _touches(so_far: Short, enter: Net, leave: Net) -> bool:
    return (enter, leave) in so_far.stretches or (leave, enter) in so_far.stretches


def _ends(circuit: Circuit, conduction: Conduction) -> Iterator[tuple[int, Net, Net, float]]:
    """Each supply both ways: where current enters and leaves it, and the volts that it gains."""
    nets = conduction.network.nets
    for number, supply in enumerate(circuit.supplies):
        plus, minus = nets[supply.plus], nets[supply.minus]
        yield number, minus, plus, supply.volts
        yield number, plus, minus, -supply.volts
