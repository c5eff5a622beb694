"""The way of current to a load over conductors alone."""

from circuitcheck.analysis.facts import Facts
from circuitcheck.circuit.model import Terminal

Stretch = tuple[Terminal, Terminal]


def straight_way(facts: Facts, number: int) -> tuple[Stretch, ...]:
    """From a supply's + to a load, by its index, and from it to the supply's −; () where no conductors ever lead so.

    A load that is fed with both polarities: the way in which its a is positive.
    """
    load, conduction = facts.circuit.loads[number], facts.conduction
    nets = conduction.network.nets
    for enter, leave in ((load.a, load.b), (load.b, load.a)):
        for supply in facts.circuit.supplies:
            high, low = nets[supply.plus], nets[supply.minus]
            if conduction.leads_between(high, nets[enter]) and conduction.leads_between(nets[leave], low):
                return (supply.plus, enter), (leave, supply.minus)
    return ()
