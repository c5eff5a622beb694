"""Ways from a supply's + to its − past every fuse, all contacts taken as closed."""

from collections.abc import Iterator
from typing import NamedTuple

from circuitcheck.analysis.shortest_ways import Step, Ways, shortest_ways
from circuitcheck.circuit.model import Circuit, Closed, Supply


class Passed(NamedTuple):
    """A part that current passes. closed: the contact's, None for what always conducts. load: the index of a load."""

    part: str
    closed: Closed | None = None
    load: int | None = None


def unfused_ways(circuit: Circuit, supply: Supply) -> Ways[Passed] | None:
    """The ways with no fuse in them that pass as few parts as any; None where every way has one.

    Diodes pass in their direction; of other supplies a way may take those that stand in series with this one.
    """
    return shortest_ways(tuple(_steps(circuit, supply)), (supply.plus,), (supply.minus,))


def _steps(circuit: Circuit, supply: Supply) -> Iterator[Step[Passed]]:
    for one in circuit.conductors:
        if one.kind != "fuse":
            passed = Passed(one.part, one.closed) if one.part else None
            yield Step(one.tail, one.head, passed)
            if not one.one_way:
                yield Step(one.head, one.tail, passed)
    for number, load in enumerate(circuit.loads):
        yield Step(load.a, load.b, Passed(load.part, load=number))
        yield Step(load.b, load.a, Passed(load.part, load=number))
    for other in circuit.supplies:
        if other.name != supply.name:
            yield Step(other.minus, other.plus, Passed(other.name))
