"""What takes the spike of a coil: can it, and how much later does the relay release?

When a coil of L henries and R ohms is cut off, its current I₀ goes on through what stands across it:

    diode       falls to I in L/R · ln((I₀ + u/R) / (I + u/R)), with u the diode's own 0.7 V
    resistor r  makes a spike of I₀ · r volts and falls to I in L/(R + r) · ln(I₀ / I)

A diode has to carry I₀ and to block the circuit's volts.
"""

import math
from collections.abc import Iterable
from typing import Final

from circuitcheck.analysis.linear import DIODE_VOLTS
from circuitcheck.analysis.network import joined_terminals
from circuitcheck.analysis.source import Source
from circuitcheck.circuit.model import Coil, Load, Suppressor
from circuitcheck.sizing.flows import Flows
from circuitcheck.sizing.loops import supply_of
from circuitcheck.sizing.sized import FITS, NO_CURRENTS, NOT_DECLARED, TOO_SMALL, Sized, verdict_on

REVERSE_TIMES: Final = 3.0
REVERSE_SOURCE = Source("relay manual: 10 times the circuit's volts, 2 to 3 times accepted in electronics", "read")
"""Reverse volts of a diode over those of its circuit."""


def size_suppressors(flows: Flows) -> Iterable[Sized]:
    """Each suppressor that stands across a coil by wires alone, but those built into relays: their maker saw to it."""
    nets = joined_terminals(flows.circuit, frozenset({"wire"}))
    for one in flows.circuit.suppressors:
        for number, load in enumerate(flows.circuit.loads):
            across = {nets[one.a], nets[one.b]} == {nets[load.a], nets[load.b]}
            if load.inductive and across and not one.built_in:
                supply = supply_of(flows, number)
                yield _size(flows, one, number, supply.volts if supply else load.volts)


def _size(flows: Flows, one: Suppressor, number: int, volts: float) -> Sized:
    coil, ratings = flows.circuit.loads[number], flows.circuit.parts[one.part].ratings
    amps, late = volts / coil.ohms, _released(flows, one, number, volts)
    at = f"{flows.circuit.parts[one.part].kind} {one.part}"
    if one.kind == "diode":
        return _diode(one, coil, (amps, volts), (ratings.get("amps"), ratings.get("volts")), late, at)
    if one.kind == "resistor":
        spike = f"Cutting {coil.name} makes a spike of {spike_volts(amps, one.ohms):.3g} V across it."
        return _sized(one, FITS, spike_volts(amps, one.ohms), None, "V", (spike, *late))
    rated = ratings.get("volts")
    verdict = NOT_DECLARED if rated is None else FITS if rated >= volts else TOO_SMALL
    write = f"`{one.kind} {2 * volts:g} V` at {at}" if rated is None else ""
    remarks = (f"It must not conduct at {volts:g} V, and takes {coil.name}'s {amps:.3g} A for a moment.",)
    return _sized(one, verdict, volts, rated, "V", remarks, write)


def _diode(
    one: Suppressor,
    coil: Load,
    needs: tuple[float, float],
    rated: tuple[float | None, float | None],
    late: tuple[str, ...],
    at: str,
) -> Sized:
    amps, volts = needs
    verdict = verdict_on(amps, rated[0])
    remarks: tuple[str, ...] = (f"{coil.name}'s current goes on through it; it blocks {volts:g} V.", *late)
    if rated[1] is not None and rated[1] < REVERSE_TIMES * volts:
        verdict = TOO_SMALL
        reverse = f"{REVERSE_TIMES * volts:g} V or more ({REVERSE_SOURCE})"
        remarks = (*remarks, f"It is rated {rated[1]:g} V reverse and needs {reverse}.")
    return _sized(one, verdict, amps, rated[0], "A", remarks, f"`1 A 400 V` at {at}" if None in rated else "")


def _released(flows: Flows, one: Suppressor, number: int, volts: float) -> tuple[str, ...]:
    """How long the current takes to fall to where the relay releases, where the plan gives henries."""
    coils = [coil for relay in flows.circuit.relays for coil in (relay.coil, relay.reset) if coil is not None]
    found = next((coil for coil in coils if coil.load == number and coil.henries), None)
    if found is None:
        return ()
    seconds = release_seconds(found, flows.circuit.loads[number].ohms, volts, one)
    return (f"Its current takes {1000 * seconds:.3g} ms to fall to the release volts.",)


def release_seconds(
    coil: Coil, ohms: float, volts: float, across: Suppressor, diode_volts: float = DIODE_VOLTS
) -> float:
    """From the cut of a coil at `volts` until its current has fallen to that of its release volts. Suppressors other
    than diodes and resistors take the current down in no time that matters here: 0."""
    begins, ends = volts / ohms, coil.release_volts / ohms
    if across.kind == "diode":
        own = diode_volts / ohms
        return coil.henries / ohms * math.log((begins + own) / (ends + own))
    return coil.henries / (ohms + across.ohms) * math.log(begins / ends) if across.kind == "resistor" else 0.0


def spike_volts(amps: float, ohms: float) -> float:
    """Across a resistor beside a coil whose current is cut off."""
    return amps * ohms


def _sized(
    one: Suppressor, verdict: str, needs: float, can: float | None, unit: str, remarks: tuple[str, ...], write: str = ""
) -> Sized:
    made = f"{can:g} {unit}" if can else ""
    return Sized("suppressor", one.part, made, NO_CURRENTS, needs, can, unit, verdict, remarks, write)
