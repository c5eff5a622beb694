"""Contacts, connector pins and diodes: the worst of each part against what the plan says it takes.

A contact makes what starts through it (a standing motor draws its stall current, a braked one sends as much round, a
cold filament ten times its own) and breaks what runs. From 20 V up the arc over an opening contact no longer dies of
itself as it does at 12 V (arc volts 12 to 15 V at medium loads), so there a contact that breaks a motor, a solenoid or
a coil counts for half of its resistive rating (common practice, no source). Pins and diodes are not counted as making
or breaking anything.
"""

from collections.abc import Iterable
from typing import Final

from circuitcheck.sizing.currents import Currents
from circuitcheck.sizing.flows import Flows
from circuitcheck.sizing.sized import IDLE, NO_CURRENTS, NOT_DECLARED, TOO_SMALL, Sized, verdict_on
from circuitcheck.sizing.suppressors import REVERSE_SOURCE, REVERSE_TIMES

ARCING_VOLTS: Final = 20.0
INDUCTIVE_SHARE: Final = 0.5
INDUCTIVE: Final = ("motor", "solenoid", "coil")
KINDS: Final = {"contact": "contacts", "pin": "pins", "diode": "diode"}
CONTACT_AMPS: Final = (1.0, 2.0, 3.0, 5.0, 8.0, 10.0, 16.0, 20.0, 25.0, 30.0, 40.0, 60.0, 80.0)
"""What contacts and diodes are sold for (common practice, no source)."""


def size_carriers(flows: Flows) -> Iterable[Sized]:
    """A verdict for each part with contacts, pins or a diode of its own, in the plan's order."""
    members: dict[str, list[int]] = {}
    for number, one in enumerate(flows.circuit.conductors):
        if one.kind in KINDS:
            members.setdefault(one.part, []).append(number)
    for part, numbers in members.items():
        kind = KINDS[flows.circuit.conductors[numbers[0]].kind]
        built_in = kind == "diode" and flows.circuit.parts[part].kind not in ("diode", "suppressor")
        # A relay's built-in diode stands in its coil's list of conductors; its contacts come after it.
        own = [number for number in numbers if KINDS[flows.circuit.conductors[number].kind] != "diode"]
        if built_in or (own and kind == "diode"):
            kind, numbers = "contacts", own
        if numbers and not (kind == "diode" and _only_suppresses(flows, numbers[0])):
            yield _size_part(flows, kind, part, numbers)


def _only_suppresses(flows: Flows, conductor: int) -> bool:
    return not flows.shares(conductor)


def _size_part(flows: Flows, kind: str, part: str, numbers: list[int]) -> Sized:
    worst, needs, currents, remarks = numbers[0], 0.0, NO_CURRENTS, list[str]()
    for number in numbers:
        found = flows.currents(number)
        needed, why = _needs(flows, kind, number, found)
        if needed > needs:
            worst, needs, currents, remarks = number, needed, found, why
    ratings = flows.circuit.parts[part].ratings
    amps = ratings.get("contacts_amps", ratings.get("amps"))
    rated_volts = ratings.get("contacts_volts", ratings.get("volts"))
    volts = max(flows.volts(number) for number in numbers)
    verdict = verdict_on(needs, amps) if needs else IDLE
    name = part if kind == "diode" else flows.circuit.conductors[worst].name if needs else part
    remarks, verdict = _by_volts(kind, remarks, verdict, (volts, rated_volts), needs)
    made = f"{amps:g} A" if amps else ""
    if rated_volts:
        made = f"{made} {rated_volts:g} V".strip()
    missing = needs and (amps is None or (rated_volts is None and kind != "pins"))
    write = _to_write(kind, flows.circuit.parts[part].kind, amps or next_amps(needs), volts) if missing else ""
    write = f"{write} at {flows.circuit.parts[part].kind} {part}" if write else ""
    return Sized(kind, name, made, currents, needs, amps, "A", verdict, tuple(remarks), write)


def next_amps(needs: float) -> float:
    """The next rating that contacts are sold for."""
    return next((amps for amps in CONTACT_AMPS if amps >= needs), needs)


def _to_write(kind: str, part: str, amps: float, volts: float) -> str:
    """How the plan would give a part's rating."""
    if kind == "pins":
        return f"`{amps:g} A`"
    rated = 400 if kind == "diode" else 30 if volts <= 30 else volts
    return f"`contacts {amps:g} A {rated:g} V`" if part == "relay" else f"`{amps:g} A {rated:g} V`"


def _needs(flows: Flows, kind: str, number: int, currents: Currents) -> tuple[float, list[str]]:
    """What one conductor needs, and what is worth saying of how that comes about."""
    lasting = flows.needs(number, currents)
    if kind != "contacts":
        return lasting, []
    remarks = []
    needed = max(lasting, currents.starting.amount)
    loads = [flows.circuit.loads[part.load] for part in currents.running.parts]
    if flows.volts(number) >= ARCING_VOLTS and any(load.kind in INDUCTIVE for load in loads):
        breaking = currents.running.amount / INDUCTIVE_SHARE
        if breaking > needed:
            needed = breaking
            remarks.append(f"It breaks {currents.running.amount:.3g} A of motors or coils: counted for half its amps.")
    thrown = [part for part in currents.starting.parts if flows.circuit.loads[part.load].part in flows.draws.reversed]
    if thrown:
        motor = flows.circuit.loads[thrown[0].load].part
        remarks.append(f"{motor} may be thrown into reverse at speed: twice its stall current.")
    return needed, remarks


def _by_volts(
    kind: str, remarks: list[str], verdict: str, volts: tuple[float, float | None], needs: float
) -> tuple[list[str], str]:
    """What the rated volts add to what the amps say."""
    stands, rated = volts
    wanted = REVERSE_TIMES * stands if kind == "diode" else stands
    if rated is not None and rated < wanted and needs:
        what = f"{wanted:g} V reverse or more ({REVERSE_SOURCE})" if kind == "diode" else f"{stands:g} V"
        return [*remarks, f"It is rated {rated:g} V and needs {what}."], TOO_SMALL
    if verdict == TOO_SMALL:
        remarks = [*remarks, f"Take one for {next_amps(needs):g} A or more, or switch less through it."]
    if verdict == NOT_DECLARED:
        remarks = [*remarks, f"It must take {needs:.3g} A at {stands:g} V."]
    return remarks, verdict
