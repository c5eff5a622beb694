"""Lamps, buzzers, solenoids and resistors: two terminals, 1 and 2, with a resistance between them."""

from circuitcheck.circuit.catalogue.attributes import Shape
from circuitcheck.circuit.catalogue.pieces import Described, Kind, Pieces, refuse
from circuitcheck.circuit.catalogue.resistance import LOAD_DIMENSIONS, resistance
from circuitcheck.circuit.model import Load


def read_load(part: Described) -> Pieces:
    """A load at its rated volts; a solenoid makes a spike when it is cut off."""
    volts = part.given.value("", "volts") or 0.0
    ohms = resistance(part.given, "", volts)
    if ohms is None:
        help = f"Write ohms, watts or amps as well, e.g. `{KINDS[part.kind].example}`."
        raise refuse(part.place, f"{part.kind} {part.called} has volts only", help)
    return Pieces(part.info(("1", "2")), loads=(_load(part, volts, ohms, inductive=part.kind == "solenoid"),))


def read_resistor(part: Described) -> Pieces:
    """A load without rated volts."""
    ohms = part.given.value("", "ohms") or 0.0
    return Pieces(part.info(("1", "2")), loads=(_load(part, 0.0, ohms, inductive=False),))


def _load(part: Described, volts: float, ohms: float, inductive: bool) -> Load:
    a, b = part.terminal("1"), part.terminal("2")
    return Load(part.name, part.name, part.kind, a, b, volts, ohms, False, inductive, part.place)


RATED = {"": Shape(LOAD_DIMENSIONS, ("volts",))}

KINDS = {
    "lamp": Kind("lamp", "lamp L1 12 V 2 W", RATED, read_load),
    "buzzer": Kind("buzzer", "buzzer BZ1 12 V 0.02 A", RATED, read_load),
    "solenoid": Kind("solenoid", "solenoid Y1 12 V 12 ohm", RATED, read_load),
    "resistor": Kind("resistor", "resistor R1 680 ohm", {"": Shape(("ohms", "watts"), ("ohms",))}, read_resistor),
}
