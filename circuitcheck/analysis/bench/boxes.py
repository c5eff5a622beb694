"""A box with one of its faults, as it lies on the bench."""

from collections.abc import Iterable
from functools import reduce
from typing import NamedTuple

from circuitcheck.analysis.bench.readings import Point
from circuitcheck.analysis.bench.settings import WITH, WITHOUT, Setting
from circuitcheck.analysis.faults.fault import Fault, both_changes
from circuitcheck.analysis.supposed import Change, part_of, supposed
from circuitcheck.circuit.model import Circuit, Load

METER_OHMS = 10e6
"""A voltmeter's, common practice, no source: it takes the place of a motor that is disconnected."""


class Box(NamedTuple):
    """stuck: digits that nothing moves, with their values."""

    circuit: Circuit
    stuck: tuple[tuple[int, int], ...] = ()

    def stands(self, setting: Setting) -> tuple[int, ...]:
        """The digits' values once the setting is made, as far as they can be moved; before anything is tapped."""
        stuck = dict(self.stuck)
        return tuple(stuck.get(number, value) for number, value in enumerate(setting.values))


def box_with(circuit: Circuit, fault: Fault | None, stage: str) -> Box:
    """The box with a fault, or sound for None.

    Where a limit is screwed on doesn't matter while it is pressed by hand, nor what a motor is like that isn't there.
    """
    shown = [one for one in (fault.both or (fault,) if fault else ()) if _shows(one, stage)]
    change = reduce(both_changes, (one.change for one in shown), Change())
    faulty = supposed(circuit, change) if shown else circuit
    return Box(faulty if stage != WITHOUT else _without_motors(faulty), change.stuck)


def with_voltmeters(box: Box, points: Iterable[Point]) -> Box:
    """With a voltmeter at each point, red on the first terminal: a load that goes by the point's name."""
    circuit = box.circuit
    placed = [(at, part_of(circuit, at.red).place) for at in points]
    meters = [
        Load(at.name, "", "resistor", at.red, at.black, 0, METER_OHMS, False, False, place) for at, place in placed
    ]
    return box._replace(circuit=circuit._replace(loads=(*circuit.loads, *meters)))


def _shows(fault: Fault, stage: str) -> bool:
    of_motor = fault.kind in ("motor open", "motor shorted", "brush to case")
    return not (fault.kind == "limit moved" and stage != WITH) and not (of_motor and stage == WITHOUT)


def _without_motors(circuit: Circuit) -> Circuit:
    """A voltmeter stands in each motor's place; what joined a motor's terminals to its case went with it."""
    names = {motor.name for motor in circuit.motors}
    loads = (one._replace(ohms=METER_OHMS) if one.part in names else one for one in circuit.loads)
    kept = (one for one in circuit.conductors if one.kind != "bond")
    return circuit._replace(loads=tuple(loads), conductors=tuple(kept), wires=())
