"""Diodes, and parts that stand across a coil to take its spike."""

from circuitcheck.circuit.catalogue.attributes import FLAG, Shape
from circuitcheck.circuit.catalogue.pieces import Described, Kind, Pieces, only_one
from circuitcheck.circuit.model import Conductor, Load, Suppressor


def read_diode(part: Described) -> Pieces:
    """Passes current from anode to cathode; takes a spike where it stands across a coil."""
    anode, cathode = part.terminal("anode"), part.terminal("cathode")
    diode = Conductor(anode, cathode, "diode", part.name, part.place, one_way=True)
    suppressor = Suppressor(part.name, "diode", anode, cathode, 0.0, False)
    return Pieces(part.info(("anode", "cathode")), conductors=(diode,), suppressors=(suppressor,))


def read_suppressor(part: Described) -> Pieces:
    """A varistor, a bidirectional suppressor diode (tvs) and an RC pair pass no current at working volts."""
    kind = only_one(part, SUPPRESSOR_KINDS)
    if kind == "diode":
        return read_diode(part)
    info, a, b = part.info(("1", "2")), part.terminal("1"), part.terminal("2")
    if kind != "resistor":
        return Pieces(info, suppressors=(Suppressor(part.name, kind, a, b, 0.0, False),))
    ohms = part.given.value("resistor", "ohms") or 0.0
    resistor = Load(part.name, part.name, "resistor", a, b, 0.0, ohms, False, False, part.place)
    return Pieces(info, loads=(resistor,), suppressors=(Suppressor(part.name, "resistor", a, b, ohms, False),))


SUPPRESSOR_KINDS = ("varistor", "tvs", "rc", "resistor", "diode")
TAKES = dict.fromkeys(SUPPRESSOR_KINDS, FLAG) | {
    "": Shape(("amps", "volts", "watts")),
    "resistor": Shape(("ohms",), ("ohms",)),
}

KINDS = {
    "diode": Kind("diode", "diode D1 3 A", {"": Shape(("amps", "volts"))}, read_diode),
    "suppressor": Kind(
        "suppressor", "suppressor V2 resistor 680 ohm", TAKES, read_suppressor, SUPPRESSOR_KINDS, needs_form=True
    ),
}
