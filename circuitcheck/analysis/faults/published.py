"""Which faults are supposed, and which may be left out and why: ISO 13849-2 annex D, and what the trade adds.

The standard's lists (tables D.3 ff.: conductors, terminals, connectors, switches, relays, coils, resistors, diodes) are
given from memory; the rows on wires in an enclosure or a duct also stand in the manual of a safety relay (Schmersal
PSC1 p. 160). A plan says nothing of insulation, ducts or how a contact is made, so a fault that could be left out only
by such means is supposed all the same, unless every part of its kind is made so.
"""

from typing import Final, NamedTuple

ANNEX_D: Final = "ISO 13849-2 annex D, from memory"
TRADE: Final = "common practice, no source"


class Supposed(NamedTuple):
    """kind: of the faults that this row gives. leave_out_when: a builder may leave it out then, and has to say so in
    writing; "" for never."""

    kind: str
    part: str
    leave_out_when: str
    source: str


class LeftOut(NamedTuple):
    """A fault of the lists that is not supposed here, and why it may be left out, or cannot be judged."""

    part: str
    what: str
    why: str
    source: str


SUPPOSED: Final = (
    Supposed("wire open", "wire", "", ANNEX_D),
    Supposed("wire to frame", "wire", "the wire runs inside an enclosure", f"{ANNEX_D}; Schmersal PSC1 manual p. 160"),
    Supposed("terminals touching", "terminal strip", "terminals and spacing to standard, tubing used", ANNEX_D),
    Supposed("pin open", "connector", "", ANNEX_D),
    Supposed("pins touching", "connector", "spacing of its pins to standard", ANNEX_D),
    Supposed("contact does not close", "switch, relay, limit switch", "", ANNEX_D),
    Supposed(
        "contact does not open",
        "switch, relay, limit switch",
        "a switch with direct opening (IEC 60947-5-1 annex K), its actuator looked at apart",
        ANNEX_D,
    ),
    Supposed("both throws closed", "relay", "forcibly guided contacts", ANNEX_D),
    Supposed("relay stuck operated", "relay", "", ANNEX_D),
    Supposed("relay stuck released", "relay", "", ANNEX_D),
    Supposed("coil open", "relay", "", ANNEX_D),
    Supposed("coil shorted", "relay", "a single-layer or potted coil", ANNEX_D),
    Supposed("switch stuck", "switch, button, outside contact", "", TRADE),
    Supposed("limit stuck", "limit switch", "", TRADE),
    Supposed("limit moved", "limit switch", "", TRADE),
    Supposed("limit torn off", "limit switch", "", TRADE),
    Supposed("diode open", "diode", "", ANNEX_D),
    Supposed("diode shorted", "diode", "", ANNEX_D),
    Supposed("suppressor open", "suppressor", "", ANNEX_D),
    Supposed("suppressor shorted", "suppressor", "", ANNEX_D),
    Supposed("load open", "resistor, lamp, buzzer, solenoid", "", ANNEX_D),
    Supposed("load shorted", "resistor, lamp, buzzer, solenoid", "a film or single-layer wound resistor", ANNEX_D),
    Supposed("fuse blown", "fuse", "", TRADE),
    Supposed("supply lost", "supply", "", TRADE),
    Supposed("supply reversed", "supply", "a plug that fits one way only", TRADE),
    Supposed("motor open", "motor", "", TRADE),
    Supposed("motor shorted", "motor", "", TRADE),
    Supposed("brush to case", "motor", "", TRADE),
)

LEFT_OUT: Final = (
    LeftOut(
        "emergency stop",
        "a contact that does not open, an actuator stuck released",
        "direct opening parts a weld (IEC 60947-5-1 annex K.2.2); the actuator has to be looked at apart",
        ANNEX_D,
    ),
    LeftOut(
        "wire",
        "a short between wires that share no connector or strip",
        "taken to be fixed inside one enclosure, in a duct, or in separate cables",
        f"{ANNEX_D}; Schmersal PSC1 manual p. 160",
    ),
    LeftOut("wire", "a short to the frame where the plan doesn't say what the frame is joined to", "unknown", TRADE),
    LeftOut("strip", "a terminal that is open", "the same as its wire open", ANNEX_D),
    LeftOut("connector", "plugged into the wrong place", "taken to be keyed", ANNEX_D),
    LeftOut(
        "force-guided relay",
        "both throws closed, and any contact that closes against a welded opposite one",
        "forcibly guided contacts (EN 50205; IEC 61810-3)",
        ANNEX_D,
    ),
    LeftOut("switch, limit switch", "all three of a changeover joined", "insulation to IEC 60947-5-1", ANNEX_D),
    LeftOut("switch, relay", "a short between separate contacts", "insulation to IEC 60947-5-1", ANNEX_D),
    LeftOut("resistor", "a drift of its value", "volts near a threshold are not told", ANNEX_D),
    LeftOut("fuse", "replaced by a greater one or by wire", "does nothing before a second fault", TRADE),
    LeftOut("timing relay", "a time that is wrong", "how long things take is not looked at here", TRADE),
)
