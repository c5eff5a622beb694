"""Supplies, and the power in resistors."""

from circuitcheck.circuit.model import Supply
from circuitcheck.sizing.flows import Flows
from circuitcheck.sizing.greatest import Part
from circuitcheck.sizing.sized import IDLE, NO_CURRENTS, NOT_DECLARED, TOO_SMALL, Sized, verdict_on


def size_supply(flows: Flows, supply: Supply) -> Sized:
    """What runs for long against the supply's amps, with the coils that are held at once and what starts told."""
    currents = flows.supply_currents(supply)
    coils = flows.sums.greatest([
        Part(share.load, share.volts / flows.circuit.loads[share.load].ohms, share.states)
        for share in flows.supply_shares(supply)
        if flows.circuit.loads[share.load].kind == "coil"
    ])  # fmt: skip
    remarks = []
    if coils.amount:
        remarks.append(f"The relays held at once take {coils.amount:.3g} A of it.")
    most = supply.limit_amps or supply.amps
    if most and currents.starting.amount > most:
        at = f"limits at {most:g} A" if supply.limit_amps else f"is rated {most:g} A"
        remarks.append(
            f"It {at}, and {currents.starting.amount:.3g} A flow for a moment when all starts at once: its volts may "
            "sag, and relays drop."
        )
    verdict = verdict_on(currents.running.amount, supply.amps or None) if currents.starting.amount else IDLE
    write = f"its amps, like `supply {supply.name} {supply.volts:g} V 10 A`" if verdict == NOT_DECLARED else ""
    if verdict == TOO_SMALL:
        remarks.append(f"Take one for {currents.running.amount:.3g} A or more.")
    made = f"{supply.amps:g} A" if supply.amps else ""
    return Sized(
        "supply", supply.name, made, currents, currents.running.amount, supply.amps or None, "A", verdict,
        tuple(remarks), write,
    )  # fmt: skip


def size_resistor(flows: Flows, number: int) -> Sized | None:
    """The most power in a resistor, by the most volts that operation ever puts across it; None where it never has any,
    or a relay's maker put it in."""
    load = flows.circuit.loads[number]
    part = flows.circuit.parts[load.part]
    met = (fed.volts for fed in flows.facts.volts[number] if flows.facts.reached(fed.forward | fed.backward))
    volts = max(met, default=0.0)
    if not volts or part.kind == "relay":
        return None
    watts, rated = volts**2 / load.ohms, part.ratings.get("watts")
    verdict = verdict_on(watts, rated)
    remarks = [f"{volts:.3g} V across {load.ohms:g} ohm."]
    if verdict == TOO_SMALL:
        remarks.append(f"Take one for {watts:.3g} W or more; twice as much stays cool (common practice).")
    write = f"`{load.ohms:g} ohm {_next_watts(watts):g} W` at {part.kind} {load.part}" if rated is None else ""
    made = f"{rated:g} W" if rated else ""
    return Sized("resistor", load.name, made, NO_CURRENTS, watts, rated, "W", verdict, tuple(remarks), write)


def _next_watts(watts: float) -> float:
    """The next power that resistors are sold for, with half of it to spare (common practice, no source)."""
    return next((size for size in (0.25, 0.5, 1.0, 2.0, 5.0, 10.0, 25.0, 50.0) if size >= 2 * watts), 2 * watts)
