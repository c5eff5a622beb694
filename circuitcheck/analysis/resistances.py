"""What the plan says of resistances, and at which temperatures: the figures that a real current depends on."""

from collections.abc import Mapping
from types import MappingProxyType
from typing import NamedTuple

from circuitcheck.analysis.copper import copper_factor
from circuitcheck.analysis.gauges import stranded_ohms
from circuitcheck.circuit.model import Circuit, Conductor

NOTHING: Mapping[int, float] = MappingProxyType({})


class Setting(NamedTuple):
    """What currents depend on besides the state.

    wire_celsius, coil_celsius: the copper's temperature; a coil's ohms are taken to be given at 20 °C.
    turning: the amps that a winding (by its load's index) draws once it turns. One not named stands still.
    generated: the volts that a winding makes by turning, positive where they stand against current from a to b.
    """

    wire_celsius: float = 20.0
    coil_celsius: float = 20.0
    turning: Mapping[int, float] = NOTHING
    generated: Mapping[int, float] = NOTHING


def conductor_ohms(circuit: Circuit, setting: Setting) -> list[float]:
    """The ohms of each conductor, in the circuit's order; 0 where the plan doesn't tell, and for fuses.

    Wires: stranded ones (gauges.py), from area and length, their own or the plan's conditions'. Contacts and pins: as
    their part is rated.
    """
    said = {info.conductor: (info.area_mm2, info.metres) for info in circuit.wires}
    found = []
    for number, conductor in enumerate(circuit.conductors):
        if conductor.kind == "wire":
            area, metres = said.get(number, (0.0, 0.0))
            area, metres = area or circuit.conditions.area_mm2, metres or circuit.conditions.metres
            found.append(stranded_ohms(area, metres, setting.wire_celsius) if area and metres else 0.0)
        else:
            found.append(contact_ohms(circuit, conductor))
    return found


def contact_ohms(circuit: Circuit, conductor: Conductor) -> float:
    """The ohms of a contact or pin, as its part is rated; 0 where the plan doesn't tell, and for all other parts."""
    ratings = circuit.parts[conductor.part].ratings if conductor.kind in ("contact", "pin") else {}
    return ratings.get("contacts_ohms", ratings.get("ohms", 0.0))


def load_ohms(circuit: Circuit, number: int, setting: Setting) -> float:
    """The ohms of a load at the setting's temperatures; a motor's are those of its standing winding, cold."""
    load = circuit.loads[number]
    warm = copper_factor(setting.coil_celsius) if load.kind in ("coil", "solenoid") else 1.0
    return load.ohms * warm
