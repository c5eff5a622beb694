"""Loads that no volts ever reach, whatever the contacts do."""

from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.feeding import leads_both_ways
from circuitcheck.analysis.states import States, union
from circuitcheck.analysis.wired import unwired_terminals, wired_terminals


def fed_states(facts: Facts, load: int) -> States:
    """The states in which a load, by its index, has any volts at all, switches between two positions left out."""
    sets = (states for fed in facts.volts[load] for states in (fed.forward, fed.backward))
    return facts.possible(union(sets, facts.spaces.none()))


def unfed_loads(facts: Facts) -> frozenset[int]:
    """The loads that have no volts in any state.

    Left out are loads of parts that lack a wire, loads that only a short keeps from being fed, resistors that brake a
    motor (its own current runs through them, which is not counted as volts), and loads whose ends are always joined.
    """
    circuit, wired = facts.circuit, wired_terminals(facts.circuit)
    return frozenset(
        load
        for load, one in enumerate(circuit.loads)
        if not (
            unwired_terminals(circuit.parts[one.part], wired)
            or fed_states(facts, load)
            or _but_for_a_short(facts, load)
            or brakes(facts, load)
            or always_joined(facts, load)
        )
    )


def always_joined(facts: Facts, load: int) -> bool:
    """Do conductors join a load's ends both ways in every state? Not where a short of the rails is what joins them."""
    one, nets = facts.circuit.loads[load], facts.conduction.network.nets
    if nets[one.a] == nets[one.b]:
        return True
    return not facts.possible(~(leads_both_ways(facts.conduction, one.a, one.b, facts.spaces.all()) - facts.shorted))


def _but_for_a_short(facts: Facts, load: int) -> bool:
    if not facts.shorted:
        return False
    one, conduction = facts.circuit.loads[load], facts.conduction
    a, b = conduction.network.nets[one.a], conduction.network.nets[one.b]
    return any(
        conduction.leads_between(difference.high, above) & conduction.leads_between(below, difference.low)
        for difference in facts.differences
        for above, below in ((a, b), (b, a))
    )


def brakes(facts: Facts, load: int) -> bool:
    """Is the load a resistor that conductors can put across a motor?"""
    one, leads = facts.circuit.loads[load], facts.conduction.leads
    return one.kind == "resistor" and any(
        leads(winding.plus, one.a) & leads(one.b, winding.minus)
        or leads(winding.plus, one.b) & leads(one.a, winding.minus)
        for motor in facts.circuit.motors
        for winding in motor.windings
    )
