"""The sizes of a whole circuit: a verdict on everything that carries current."""

from typing import NamedTuple

from circuitcheck.analysis.facts import Facts
from circuitcheck.circuit.model import Circuit
from circuitcheck.sizing.around import surroundings_assumed, wires_lying
from circuitcheck.sizing.contacts import size_carriers
from circuitcheck.sizing.draws import Assumption
from circuitcheck.sizing.flows import Flows
from circuitcheck.sizing.fuses import size_fuse
from circuitcheck.sizing.loads import size_resistor, size_supply
from circuitcheck.sizing.loops import Loops, size_drop, supply_of
from circuitcheck.sizing.sized import TOO_LARGE, TOO_SMALL, Sized
from circuitcheck.sizing.suppressors import size_suppressors
from circuitcheck.sizing.wires import SizedWire, size_wire


class Sizing(NamedTuple):
    """wires in the plan's order; parts: supplies, fuses, contacts, pins, diodes, suppressors, resistors; drops: of each
    motor that is ever fed. shorts: operation shorts a supply; what flows then is in none of the figures. assumptions:
    what stands in for what the plan doesn't say."""

    flows: Flows
    wires: tuple[SizedWire, ...]
    parts: tuple[Sized, ...]
    drops: tuple[Sized, ...]
    shorts: bool
    assumptions: tuple[Assumption, ...]

    @property
    def circuit(self) -> Circuit:
        """What was sized."""
        return self.flows.circuit

    @property
    def every(self) -> tuple[Sized, ...]:
        """All verdicts."""
        return (*(wire.sized for wire in self.wires), *self.parts, *self.drops)

    @property
    def fits(self) -> bool:
        """Is nothing too small or too large, and no supply shorted?"""
        return not self.shorts and not any(one.verdict in (TOO_SMALL, TOO_LARGE) for one in self.every)


def size_circuit(facts: Facts) -> Sizing:
    """Sizes everything. TooWide or TooManyCases where an exact answer needs too much at once."""
    flows = Flows(facts)
    lying = wires_lying(facts.circuit)
    wires = tuple(size_wire(flows, one) for one in lying)
    loops = Loops(flows, lying)
    supplies = [size_supply(flows, one) for one in facts.circuit.supplies]
    ordered = sorted(flows.fuses, key=lambda fuse: fuse.conductor)
    fuses = [size_fuse(flows, loops, one, wires) for one in ordered]
    resistors = [size_resistor(flows, number) for number, load in enumerate(facts.circuit.loads)
                 if load.kind == "resistor"]  # fmt: skip
    parts = (
        *supplies,
        *fuses,
        *size_carriers(flows),
        *size_suppressors(flows),
        *(one for one in resistors if one),
    )
    fed = [motor for motor in facts.circuit.motors if any(supply_of(flows, one.load) for one in motor.windings)]
    drops = tuple(size_drop(flows, loops, motor) for motor in fed)
    shorts = any(facts.reached(short.states) for short in facts.shorts)
    assumptions = (*surroundings_assumed(facts.circuit), *flows.draws.assumptions)
    return Sizing(flows, wires, parts, drops, shorts, assumptions)
