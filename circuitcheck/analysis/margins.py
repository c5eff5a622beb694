"""A quick bound that spares most plans the working out of real volts."""

from circuitcheck.analysis.copper import BASE_CELSIUS, copper_factor
from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.linear import DIODE_VOLTS
from circuitcheck.analysis.resistances import Setting, conductor_ohms


def could_starve(facts: Facts, celsius: float) -> bool:
    """Might any relay's coil get too little at this temperature, if all loads drew their most at once, over every
    resistance and diode in a row?"""
    circuit, nets = facts.circuit, facts.conduction.network.nets
    ohms = sum(conductor_ohms(circuit, Setting(wire_celsius=celsius))) + sum(
        supply.internal_ohms for supply in circuit.supplies
    )
    if not ohms and celsius <= BASE_CELSIUS:
        return False
    most = sum(supply.volts for supply in circuit.supplies)
    across = {frozenset((nets[load.a], nets[load.b])) for load in circuit.loads}
    diodes = [
        one for one in circuit.conductors if one.one_way and frozenset((nets[one.tail], nets[one.head])) not in across
    ]
    lost = ohms * sum(most / load.ohms for load in circuit.loads) + len(diodes) * (DIODE_VOLTS + 0.1)
    coils = [coil for relay in circuit.relays for coil in (relay.coil, relay.reset) if coil is not None]
    return any(
        fed.volts >= coil.operate_volts and fed.volts - lost < coil.operate_volts * copper_factor(celsius)
        for coil in coils
        for fed in facts.volts[coil.load]
    )
