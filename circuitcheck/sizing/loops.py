"""The resistance of the way from a supply through conductors to a load and back, and the volts lost on it.

Copper counts as hot as the wire's insulation allows. Where ways lie side by side all of them count, so that a loss told
here is never too small; contacts and supplies count with the ohms that the plan gives them.
"""

from collections.abc import Container, Mapping
from typing import Final, NamedTuple

from circuitcheck.analysis.resistances import contact_ohms
from circuitcheck.analysis.source import Source
from circuitcheck.analysis.states import States
from circuitcheck.circuit.model import Circuit, Motor, Supply
from circuitcheck.sizing.around import Lying
from circuitcheck.sizing.flows import Flows
from circuitcheck.sizing.greatest import Part
from circuitcheck.sizing.sized import FITS, NO_CURRENTS, NOT_DECLARED, TOO_SMALL, Sized

MOST_DROP: Final = 10.0
CRITICAL_DROP: Final = 3.0
DROP_SOURCE = Source("ABYC E-11: 3 % where it is critical, 10 % elsewhere", "quoted")


class Loop(NamedTuple):
    """ohms of the conductors on the way, the supply's own left out. unknown: wires that lack a gauge or a length."""

    ohms: float
    unknown: tuple[str, ...]


class Loops:
    """The ways of loads, with the ohms of all conductors looked up once."""

    def __init__(self, flows: Flows, wires: tuple[Lying, ...]) -> None:
        self._flows = flows
        self._wires = {wire.info.conductor: wire for wire in wires}
        self._shares = [
            (number, share)
            for number in range(len(flows.circuit.conductors))
            for share in flows.shares(number)
            if share.side in ("high", "low")
        ]

    def of_load(self, load: int, within: States, left_out: Container[int] = ()) -> Loop:
        """The way of a load with the most ohms, in any of these states that operation reaches.

        left_out: conductors that don't count.
        """
        parts: dict[tuple[object, ...], Part] = {}
        unknown = []
        for number, share in self._shares:
            states = (share.states & within).tight() if share.load == load else within - within
            if not states or number in left_out:
                continue
            ohms = self._ohms(number)
            if ohms is None:
                unknown.append(self._wires[number].name)
            elif ohms:
                key = (states.space.digits, states.bits)
                before = parts[key].amount if key in parts else 0.0
                parts[key] = Part(len(parts) if key not in parts else parts[key].load, before + ohms, states)
        greatest = self._flows.sums.greatest(list(parts.values()))
        return Loop(greatest.amount, tuple(dict.fromkeys(unknown)))

    def _ohms(self, conductor: int) -> float | None:
        return hot_ohms(self._flows.circuit, self._wires, conductor)


def hot_ohms(circuit: Circuit, wires: Mapping[int, Lying], conductor: int) -> float | None:
    """The ohms of a conductor, a wire's copper as hot as its insulation allows; None for one of unknown gauge or
    length."""
    if conductor in wires:
        wire = wires[conductor]
        return wire.gauge.ohms(wire.metres, wire.hottest) if wire.gauge and wire.metres else None
    return contact_ohms(circuit, circuit.conductors[conductor])


def supply_of(flows: Flows, load: int) -> Supply | None:
    """The supply with the most volts that feeds a load."""
    feeding = [one for one in flows.circuit.supplies if any(s.load == load for s in flows.supply_shares(one))]
    return max(feeding, key=lambda one: one.volts, default=None)


def size_drop(flows: Flows, loops: Loops, motor: Motor) -> Sized:
    """The share of the supply's volts that the way to a motor takes, running and stalled."""
    running_most, stalled_most = 0.0, 0.0
    unknown: tuple[str, ...] = ()
    for winding in motor.windings:
        load = flows.circuit.loads[winding.load]
        supply = supply_of(flows, winding.load)
        inside = supply.internal_ohms if supply else 0.0
        for fed in flows.facts.feeding[winding.load].fed:
            for states in (fed.forward, fed.backward):
                loop = loops.of_load(winding.load, states) if states else Loop(0.0, ())
                ohms = loop.ohms + inside
                running = 100 * flows.draws.of[winding.load].running * ohms / fed.volts
                running_most = max(running_most, running)
                stalled_most = max(stalled_most, 100 * ohms / (ohms + load.ohms))
                unknown = loop.unknown if len(loop.unknown) > len(unknown) else unknown
    return _drop(motor, running_most, stalled_most, unknown)


def _drop(motor: Motor, running: float, stalled: float, unknown: tuple[str, ...]) -> Sized:
    remarks = [f"Stalled it is {stalled:.2g} % of the supply's volts, and the stall torque that much less."]
    write = ""
    verdict = FITS if running <= MOST_DROP else TOO_SMALL
    if running > CRITICAL_DROP:
        remarks.append(f"More than {CRITICAL_DROP:g} % is much ({DROP_SOURCE}): take thicker or shorter wires.")
    if unknown:
        listed = ", ".join(unknown[:3]) + (f" and {len(unknown) - 3} more" if len(unknown) > 3 else "")
        remarks.append(f"{listed} {'is' if len(unknown) == 1 else 'are'} not counted.")
        write = "gauge and length of the wires on the way, like `: 1.5 mm2 0.4 m`"
        verdict = NOT_DECLARED if verdict == FITS else verdict
    return Sized("motor", motor.name, "", NO_CURRENTS, running, MOST_DROP, "%", verdict, tuple(remarks), write)
