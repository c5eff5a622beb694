"""Supplies, and the fuses behind them."""

from circuitcheck.circuit.catalogue.attributes import FLAG, Shape
from circuitcheck.circuit.catalogue.pieces import Described, Kind, Pieces, only_one, refuse
from circuitcheck.circuit.model import Conductor, Digit, Supply


def read_supply(part: Described) -> Pieces:
    """Marks + and −, and a digit: off, on."""
    supply = Supply(
        part.name,
        part.terminal("+"),
        part.terminal("-"),
        part.given.value("", "volts") or 0.0,
        part.given.value("", "amps") or 0.0,
        part.digit,
        part.given.value("internal", "ohms") or 0.0,
        part.given.value("limit", "amps") or 0.0,
        part.given.value("withstands", "volts") or 0.0,
    )
    _see_that_figures_meet(part, supply)
    return Pieces(part.info(("+", "-")), digits=(Digit(part.name, "supply", ("off", "on")),), supplies=(supply,))


def _see_that_figures_meet(part: Described, supply: Supply) -> None:
    if 0 < supply.limit_amps < supply.amps:
        what = f"{part.called} limits at {supply.limit_amps:g} A and is rated {supply.amps:g} A"
        help = "A supply gives its rated current before it limits: `limit` is the greater of the two."
        raise refuse(part.given.places["limit"], what, help)
    if 0 < supply.withstands_volts < supply.volts:
        what = f"{part.called} withstands {supply.withstands_volts:g} V and gives {supply.volts:g} V"
        help = "A supply withstands what it gives itself: `withstands` is the greater of the two."
        raise refuse(part.given.places["withstands"], what, help)


def read_fuse(part: Described) -> Pieces:
    """Marks 1 and 2, always joined; a cartridge's speed is one of its features."""
    only_one(part, FUSE_FORMS)
    fuse = Conductor(part.terminal("1"), part.terminal("2"), "fuse", part.name, part.place)
    info = part.info(("1", "2"))
    if part.given.has("cartridge"):
        info = info._replace(features=("cartridge", part.given.words["cartridge"][0].text))
    return Pieces(info, conductors=(fuse,))


SUPPLY_TAKES = {
    "": Shape(("volts", "amps"), ("volts",)),
    "internal": Shape(("ohms",), ("ohms",)),
    "limit": Shape(("amps",), ("amps",)),
    "withstands": Shape(("volts",), ("volts",)),
}
FUSE_FORMS = ("blade", "cartridge")
FUSE_TAKES = {
    "": Shape(("amps", "volts"), ("amps",)),
    "blade": FLAG,
    "cartridge": Shape(words=(1, 1), choices=("fast", "slow")),
}

KINDS = {
    "supply": Kind("supply", "supply PS 12 V 10 A", SUPPLY_TAKES, read_supply, digit=True),
    "fuse": Kind("fuse", "fuse F1 7.5 A", FUSE_TAKES, read_fuse, FUSE_FORMS),
}
