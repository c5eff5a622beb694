"""Parts that only join wires: connectors, terminal strips, splices and the ports of modules."""

from circuitcheck.circuit.catalogue.attributes import Shape
from circuitcheck.circuit.catalogue.pieces import Described, Kind, Pieces
from circuitcheck.circuit.model import Conductor


def read_connector(part: Described) -> Pieces:
    """A plug pin p1 and a socket pin s1 for each way, joined while it is plugged in."""
    numbers = range(1, int(part.given.value("", "ways") or 0) + 1)
    marks = tuple(mark for number in numbers for mark in (f"p{number}", f"s{number}"))
    pins = tuple(
        Conductor(part.terminal(f"p{number}"), part.terminal(f"s{number}"), "pin", part.name, part.place)
        for number in numbers
    )
    return Pieces(part.info(marks, marks), conductors=pins)


def read_strip(part: Described) -> Pieces:
    """One terminal for each way, none joined to another."""
    marks = tuple(str(number) for number in range(1, int(part.given.value("", "ways") or 0) + 1))
    return Pieces(part.info(marks, marks))


def read_single(part: Described) -> Pieces:
    """One terminal that has the part's own name."""
    return Pieces(part.info(("",)))


PINS = {"": Shape(("ways", "amps", "volts", "ohms"), ("ways",))}
TERMINALS = {"": Shape(("ways", "amps", "volts"), ("ways",))}

KINDS = {
    "connector": Kind("connector", "connector J1 4 ways", PINS, read_connector),
    "strip": Kind("strip", "strip X1 6 ways", TERMINALS, read_strip),
    "splice": Kind("splice", "splice N1", {}, read_single),
    "port": Kind("port", "port plus minus", {}, read_single),
}
