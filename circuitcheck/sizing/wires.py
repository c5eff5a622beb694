"""Wires: what flows, what their table allows, and the size that would do."""

from typing import NamedTuple

from circuitcheck.analysis.gauges import nearest_sizes
from circuitcheck.sizing.ampacity import Ampacity, NoTable, ampacity, next_size
from circuitcheck.sizing.around import Lying
from circuitcheck.sizing.flows import Flows
from circuitcheck.sizing.sized import IDLE, NOT_DECLARED, TOO_SMALL, Sized, verdict_on


class SizedWire(NamedTuple):
    """A wire with its verdict. capacity: None where its gauge isn't known or no table covers its surroundings."""

    lying: Lying
    capacity: Ampacity | None
    sized: Sized


def size_wire(flows: Flows, lying: Lying) -> SizedWire:
    """The verdict on one wire."""
    conductor = lying.info.conductor
    currents = flows.currents(conductor)
    needs = flows.needs(conductor, currents)
    capacity, trouble = capacity_of(lying)
    made = lying.gauge.name if lying.gauge else f"{lying.strange:g} mm²" if lying.strange else ""
    can = capacity.amps if capacity else None
    verdict = verdict_on(needs, can) if any(one.amount for one in currents) else IDLE
    remarks = [trouble] if trouble else []
    if verdict in (TOO_SMALL, NOT_DECLARED):
        remarks += _proposal(lying, needs, currents.starting.amount)
    write = gauge_to_write(lying) if verdict == NOT_DECLARED and not lying.gauge else ""
    fuse = next((one for one in flows.fuses_along(conductor) if one.guards < currents.lasting), None)
    if fuse and verdict == TOO_SMALL:
        remarks.insert(0, f"{fuse.name} lets {needs:.3g} A through for as long as it likes.")
    if verdict != IDLE and flows.unguarded(conductor):
        remarks.append("No fuse stands before it: a short there draws all that the supply gives. Keep it short.")
    sized = Sized("wire", lying.name, made, currents, needs, can, "A", verdict, tuple(remarks), write)
    return SizedWire(lying, capacity, sized)


def gauge_to_write(lying: Lying) -> str:
    """What the plan would have to say of a wire whose gauge isn't known."""
    if lying.strange:
        return "a gauge that tables have"
    return "its gauge, like `: 1.5 mm2`, or one for all in `conditions wire 1 mm2 0.5 m`"


def capacity_of(lying: Lying) -> tuple[Ampacity | None, str]:
    """What its table allows; without one, why."""
    if lying.gauge is None:
        if not lying.strange:
            return None, ""
        near = " or ".join(one.name for one in nearest_sizes(lying.strange))
        return None, f"No table has a wire of {lying.strange:.4g} mm²." + (f" The next size is {near}." if near else "")
    try:
        return ampacity(lying.gauge, lying.around), ""
    except NoTable as error:
        return None, f"{error}."


def _proposal(lying: Lying, amps: float, moment: float) -> list[str]:
    """moment: the amps of a start or a brake."""
    if lying.around.ambient_celsius >= lying.hottest:
        where = f"{lying.around.ambient_celsius:g} °C around it leave insulation for {lying.hottest:g} °C no current"
        return [f"{where}: take insulation that stands more, or lay it where it is cooler."]
    try:
        sizes = next_size(lying.gauge, amps, lying.around)
    except NoTable:
        return []
    if not sizes:
        return [f"No size of the tables carries {amps:.3g} A there: use two circuits, or a smaller fuse."]
    need = f"{amps:.3g} A" if amps else f"{moment:.3g} A that flow for a moment only"
    return [f"For {need} take {' or '.join(one.name for one in sizes)} or thicker."]
