"""Supplies, and the fuses behind them."""

from circuitcheck.circuit.catalogue.attributes import Shape
from circuitcheck.circuit.catalogue.pieces import Described, Kind, Pieces
from circuitcheck.circuit.model import Conductor, Digit, Supply


def read_supply(part: Described) -> Pieces:
    """Marks + and −, and a digit: off, on."""
    plus, minus = part.terminal("+"), part.terminal("-")
    amps = part.given.value("", "amps") or 0.0
    supply = Supply(part.name, plus, minus, part.given.value("", "volts") or 0.0, amps, part.digit)
    return Pieces(part.info(("+", "-")), digits=(Digit(part.name, "supply", ("off", "on")),), supplies=(supply,))


def read_fuse(part: Described) -> Pieces:
    """Marks 1 and 2, always joined."""
    fuse = Conductor(part.terminal("1"), part.terminal("2"), "fuse", part.name, part.place)
    return Pieces(part.info(("1", "2")), conductors=(fuse,))


SUPPLY_TAKES = {"": Shape(("volts", "amps"), ("volts",))}
FUSE_TAKES = {"": Shape(("amps", "volts"), ("amps",))}

KINDS = {
    "supply": Kind("supply", "supply PS 12 V 10 A", SUPPLY_TAKES, read_supply, digit=True),
    "fuse": Kind("fuse", "fuse F1 7.5 A", FUSE_TAKES, read_fuse),
}
