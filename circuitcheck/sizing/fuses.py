"""Fuses: does one hold what runs and starts, and does it open before a wire behind it suffers?

A wire is protected where its fuse is sure to open, within the hour, at no more than 1.35 times what the wire may carry.
A wire that its own loads can't overload (a relay's coil on a thin wire) needs protection from a short alone: the fuse
must let through less heat than the wire takes in without losing any, I² t ≤ (k S)², with S in mm2 and k = 115 for
copper in PVC from 70 to 160 °C (IEC 60364-4-43, from memory). The shortest current counts, that of a short at the
load's own terminals: a fuse lets through the less heat the more current flows.
"""

import math
from typing import Final, NamedTuple

from circuitcheck.analysis.gauges import Gauge
from circuitcheck.circuit.model import Supply
from circuitcheck.sizing.flows import Flows, Fuse
from circuitcheck.sizing.fuse_table import CONTINUOUS_SHARE, CONTINUOUS_SOURCE, NORTH_AMERICAN, Family
from circuitcheck.sizing.greatest import Greatest
from circuitcheck.sizing.loops import Loop, Loops, supply_of
from circuitcheck.sizing.sized import FITS, NOT_DECLARED, TOO_LARGE, TOO_SMALL, Sized
from circuitcheck.sizing.starts import start_seconds
from circuitcheck.sizing.wires import SizedWire

ADIABATIC: Final = 115.0
"""A √s / mm2."""
LONGER_THAN_STARTS: Final = 1000.0
"""Seconds; what a fuse holds so long it holds through any start."""


class Guarded(NamedTuple):
    """What a fuse does for a wire: `verdict` "fits", "too large" or "not declared", and why where it isn't plain."""

    wire: SizedWire
    verdict: str
    why: str = ""
    write: str = ""


def size_fuse(flows: Flows, loops: Loops, fuse: Fuse, wires: tuple[SizedWire, ...]) -> Sized:
    """The verdict on one fuse."""
    currents = flows.currents(fuse.conductor)
    guarded = [guard_wire(flows, loops, fuse, wire) for wire in wires if _is_last(flows, fuse, wire)]
    running = currents.running.amount
    can = CONTINUOUS_SHARE * fuse.amps
    remarks, too_small = [], running > can
    if too_small:
        remarks.append(f"{running:.3g} A for long are more than 75 % of {fuse.amps:g} A ({CONTINUOUS_SOURCE}).")
    starting = flows.motors_start(fuse.conductor)
    seconds = _start_seconds(flows, fuse, starting)
    start, holds = _start(fuse, starting.amount, seconds)
    too_small = too_small or not holds
    remarks += start + _stall(fuse, currents.lasting, running)
    large = [one for one in guarded if one.verdict == TOO_LARGE]
    unclear = [one for one in guarded if one.verdict == NOT_DECLARED]
    verdict = TOO_LARGE if large else TOO_SMALL if too_small else NOT_DECLARED if unclear else FITS
    if too_small:
        remarks += _larger(fuse.family, running, starting.amount, seconds)
    remarks += (
        _told(large) + _smaller(fuse, large, None if too_small else running) + _told(unclear) + _standards(flows, fuse)
    )
    write = next((one.write for one in unclear if one.write), "")
    made = f"{fuse.amps:g} A {fuse.family.name}"
    return Sized("fuse", fuse.name, made, currents, running, can, "A", verdict, tuple(remarks), write)


def guard_wire(flows: Flows, loops: Loops, fuse: Fuse, wire: SizedWire) -> Guarded:
    """Whether the fuse opens before this wire, behind it, suffers."""
    if wire.capacity is None or wire.lying.gauge is None:
        return Guarded(wire, NOT_DECLARED, "of which it isn't known what they may carry", wire.sized.write)
    can = wire.capacity.amps
    if fuse.guards <= can * (1 + 1e-9):
        return Guarded(wire, FITS)
    if wire.sized.currents.lasting > can:
        return Guarded(wire, TOO_LARGE, f"which may carry {can:.3g} A")
    return _at_a_short(flows, loops, fuse, wire)


def _at_a_short(flows: Flows, loops: Loops, fuse: Fuse, wire: SizedWire) -> Guarded:
    can = wire.capacity.amps if wire.capacity else 0.0
    assert wire.lying.gauge is not None
    found = Guarded(wire, FITS)
    for load in dict.fromkeys(share.load for share in flows.shares(wire.lying.info.conductor)):
        supply = supply_of(flows, load)
        if supply is None:
            continue
        if not (supply.internal_ohms or supply.limit_amps):
            write = f"`internal 50 mohm` or `limit 12 A` at supply {supply.name}"
            why = f"which may carry {can:.3g} A, and what a short draws isn't known"
            return Guarded(wire, NOT_DECLARED, why, write)
        loop = _short_loop(flows, loops, fuse, load)
        if loop.unknown:
            write = "gauge and length of the wires behind it"
            return Guarded(wire, NOT_DECLARED, f"since the ohms of {loop.unknown[0]} on their way aren't known", write)
        late = too_late(fuse, wire.lying.gauge, can, short_amps(loop.ohms, supply))
        if late:
            return Guarded(wire, TOO_LARGE, f"which may carry {can:.3g} A, and {late}")
    return found


def _short_loop(flows: Flows, loops: Loops, fuse: Fuse, load: int) -> Loop:
    """The way of the longest short that the fuse has to end: to the load and back, or to the next fuse, and then as far
    back again."""
    beyond = {
        number
        for number in range(len(flows.circuit.conductors))
        if any(share.load == load for share in flows.shares(number))
        and any(other.amps < fuse.amps for other in flows.fuses_before(number))
    }
    loop = loops.of_load(load, flows.facts.spaces.all(), beyond)
    return loop._replace(ohms=2 * loop.ohms) if beyond else loop


def short_amps(ohms: float, supply: Supply) -> float:
    """What a short over a way of so many ohms draws from a supply."""
    ohms += supply.internal_ohms
    return min(supply.volts / ohms if ohms else math.inf, supply.limit_amps or math.inf)


def too_late(fuse: Fuse, gauge: Gauge, can: float, amps: float) -> str:
    """ "a short of 30 A opens F1 too late" for a wire of this gauge that may carry `can`; "" where it opens in time, or
    the wire carries that for as long as it likes."""
    heat = let_through(fuse.family, fuse.amps, amps)
    if amps <= can or heat <= (ADIABATIC * gauge.area_mm2) ** 2:
        return ""
    return f"a short of {amps:.3g} A " + (
        f"may never open {fuse.name}" if math.isinf(heat) else f"opens {fuse.name} too late"
    )


def let_through(family: Family, rating: float, amps: float) -> float:
    """The most I² t (A² s) that a fuse lets through at this current or any greater one; infinite where it may hold."""
    gates = [gate for gate in family.gates if gate.percent * rating / 100 <= amps and gate.most < math.inf]
    return min(((gate.percent * rating / 100) ** 2 * gate.most for gate in gates), default=math.inf)


def _is_last(flows: Flows, fuse: Fuse, wire: SizedWire) -> bool:
    """Is this the smallest fuse that the wire's current comes through? What lies behind a smaller one is that one's."""
    before = flows.fuses_before(wire.lying.info.conductor)
    return bool(before) and before[0].conductor == fuse.conductor


def _start_seconds(flows: Flows, fuse: Fuse, starting: Greatest) -> float | None:
    """How long the slowest start of what it feeds takes: None where that isn't told of every motor. A supply that
    limits makes it longer by as much as it cuts the current."""
    loads = {share.load for share in flows.shares(fuse.conductor)}
    motors = [one for one in flows.circuit.motors if any(winding.load in loads for winding in one.windings)]
    times = [start_seconds(flows.circuit, motor) for motor in motors]
    known = [seconds for seconds in times if seconds is not None]
    if len(known) < len(times):
        return None
    wanted = sum(part.amount for part in starting.parts)
    return max(known, default=0.0) * (wanted / starting.amount if starting.amount else 1.0)


def _start(fuse: Fuse, amps: float, seconds: float | None) -> tuple[list[str], bool]:
    """What is said of the start, and whether the fuse holds it as far as is known."""
    least, _ = fuse.family.times(amps / fuse.amps)
    if least >= LONGER_THAN_STARTS:
        return [], True
    memory = ", from memory" if fuse.family.from_memory(amps / fuse.amps) else ""
    gate = f"Starting, {amps:.3g} A are {100 * amps / fuse.amps:.0f} %: it holds {least:g} s at least"
    gate += f" ({fuse.family.standard}{memory})"
    if seconds is None:
        return [f"{gate}; how long the start takes isn't told (`circuitcheck motion` asks for it)."], True
    return [f"{gate}; the start takes about {seconds:.2g} s."], seconds <= least


def _stall(fuse: Fuse, lasting: float, running: float) -> list[str]:
    if lasting <= running:
        return []
    _, most = fuse.family.times(lasting / fuse.amps)
    share = f"Stalled, {lasting:.3g} A are {100 * lasting / fuse.amps:.0f} %"
    if math.isinf(most):
        return [f"{share}: it may never open, so it saves no motor."]
    memory = ", from memory" if fuse.family.from_memory(lasting / fuse.amps) else ""
    return [f"{share}: it opens within {most:g} s ({fuse.family.standard}{memory})."]


def _larger(family: Family, running: float, starting: float, seconds: float | None) -> list[str]:
    """The next rating that carries what runs and holds what starts."""
    carries = [rating for rating in family.ratings if CONTINUOUS_SHARE * rating >= running]
    holds = [rating for rating in carries if seconds is None or family.times(starting / rating)[0] >= seconds]
    if holds:
        return [f"The next that carries and holds that is {holds[0]:g} A; the wires behind it must stand it."]
    return ["None of its kind carries and holds that: take a slower kind, or more circuits."]


def _smaller(fuse: Fuse, large: list[Guarded], running: float | None) -> list[str]:
    """What would protect the wires that it is too large for. running: None where it is too small for its own loads."""
    if not large:
        return []
    least = min(one.wire.capacity.amps for one in large if one.wire.capacity)
    if not least:
        return []
    if running is None:
        return ["One small enough for them would not hold: take thicker wires."]
    below = [rating for rating in fuse.family.ratings if fuse._replace(amps=rating).guards <= least * (1 + 1e-9)]
    if not below:
        return ["No fuse of its kind is small enough: take thicker wires."]
    if CONTINUOUS_SHARE * below[-1] >= running:
        return [f"One of {below[-1]:g} A protects them and carries what runs; or take thicker wires."]
    return [f"Give them a fuse of their own, {below[-1]:g} A at most, or take thicker wires."]


def _told(guarded: list[Guarded]) -> list[str]:
    """The wires that a fuse doesn't protect, those with the same reason together."""
    reasons: dict[str, list[str]] = {}
    for one in guarded:
        reasons.setdefault(f"{one.verdict}: {one.why}", []).append(one.wire.sized.name)
    found = []
    for reason, names in reasons.items():
        listed = ", ".join(names[:4]) + (f" and {len(names) - 4} more" if len(names) > 4 else "")
        verdict, why = reason.split(": ", 1)
        lead = "Too large for" if verdict == TOO_LARGE else "Not decided for"
        found.append(f"{lead} {listed}, {why}.")
    return found


def _standards(flows: Flows, fuse: Fuse) -> list[str]:
    remarks = []
    volts = flows.volts(fuse.conductor)
    if volts > fuse.family.volts:
        remarks.append(f"{fuse.family.standard} is for {fuse.family.volts:g} V at most, and {volts:g} V stand here.")
    if fuse.family.name.startswith("cartridge"):
        american = NORTH_AMERICAN.sure
        remarks.append(
            f"One to {NORTH_AMERICAN.standard} of the same figure opens at {american.percent:g} % within an hour: look "
            "at what is printed on it."
        )
    return remarks
