"""A quick bound that spares most plans the working out of real volts."""

from typing import NamedTuple

from circuitcheck.analysis.copper import BASE_CELSIUS, copper_factor
from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.linear import DIODE_OHMS, DIODE_VOLTS
from circuitcheck.analysis.network import Net
from circuitcheck.analysis.rails import Difference
from circuitcheck.analysis.resistances import Setting, conductor_ohms
from circuitcheck.circuit.model import Circuit, Coil


class Most(NamedTuple):
    """What any coil may lose. amps: of all loads at once. diodes: how many may lie on a way to a coil. volts: lost in
    these diodes and in every resistance."""

    amps: float
    diodes: int
    volts: float


def could_starve(facts: Facts, celsius: float) -> bool:
    """Might any relay's coil get too little at this temperature, if all loads drew their most at once, over every
    resistance in a row and every diode that could lie on the way?"""
    circuit = facts.circuit
    ohms = sum(conductor_ohms(circuit, Setting(wire_celsius=celsius))) + sum(
        supply.internal_ohms for supply in circuit.supplies
    )
    if not ohms and celsius <= BASE_CELSIUS:
        return False
    # What no load draws would have to run against a supply, so no conductor carries more than all loads together.
    amps = sum(supply.volts for supply in circuit.supplies) * sum(1 / load.ohms for load in circuit.loads)
    diodes = max((_diodes_on_the_way(facts, one) for one in facts.differences), default=0)
    most = Most(amps, diodes, ohms * amps + diodes * (DIODE_VOLTS + DIODE_OHMS * amps))
    return any(_could_starve(facts, coil, most, celsius) for coil in _coils(circuit))


def _could_starve(facts: Facts, coil: Coil, most: Most, celsius: float) -> bool:
    needed = coil.operate_volts * copper_factor(celsius)
    operating = [fed for fed in facts.volts[coil.load] if fed.volts >= coil.operate_volts]
    if any(fed.volts - most.volts < needed for fed in operating):
        return True
    circuit, open_states = facts.circuit, facts.feeding[coil.load].open
    through_others = any((fed.forward | fed.backward) & open_states for fed in operating)
    warm = [load for load in circuit.loads if load.kind in ("coil", "solenoid")]
    if through_others and celsius > BASE_CELSIUS and len(warm) > 1:
        return True
    # Behind a diode, or where no return is common, all that hangs there may bring a supply to its limit.
    returns = {facts.conduction.network.nets[supply.minus] for supply in circuit.supplies}
    shares = bool(operating) and (through_others or most.diodes > 0 or len(returns) > 1)
    return shares and any(0 < supply.limit_amps < most.amps for supply in circuit.supplies)


def _coils(circuit: Circuit) -> list[Coil]:
    return [coil for relay in circuit.relays for coil in (relay.coil, relay.reset) if coil is not None]


def _diodes_on_the_way(facts: Facts, rails: Difference) -> int:
    """How many diodes could lie on a way from the high rail to a coil, or from one to the low rail, whichever contacts
    are closed. No such way goes over the other rail: that would be a short."""
    circuit, nets = facts.circuit, facts.conduction.network.nets
    loads = [circuit.loads[coil.load] for coil in _coils(circuit)]
    ends = {nets[end] for load in loads for end in (load.a, load.b)}
    steps = [(nets[one.tail], nets[one.head]) for one in circuit.conductors]
    steps += [(head, tail) for (tail, head), one in zip(steps, circuit.conductors, strict=True) if not one.one_way]
    back = [(head, tail) for tail, head in steps]
    into = _reached({rails.high}, steps, rails.low), _reached(ends, back, rails.low)
    onward = _reached(ends, steps, rails.high), _reached({rails.low}, back, rails.high)
    diodes = [(nets[one.tail], nets[one.head]) for one in circuit.conductors if one.one_way]
    return sum(
        any(tail in before and head in after for before, after in (into, onward))
        for tail, head in diodes
        if head != rails.high and tail != rails.low
    )


def _reached(starts: set[Net], steps: list[tuple[Net, Net]], barred: Net) -> set[Net]:
    """All nets to which steps lead from the starts, not over the one that is barred."""
    onward: dict[Net, list[Net]] = {}
    for start, end in steps:
        onward.setdefault(start, []).append(end)
    reached = starts - {barred}
    edge = list(reached)
    while edge:
        further = [net for net in onward.get(edge.pop(), ()) if net != barred and net not in reached]
        reached.update(further)
        edge += further
    return reached
