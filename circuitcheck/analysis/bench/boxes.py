"""A box with one of its faults, as it lies on the bench."""

from typing import NamedTuple

from circuitcheck.analysis.bench.settings import WITH, WITHOUT, Setting
from circuitcheck.analysis.faults.fault import Fault, with_fault
from circuitcheck.circuit.model import Circuit

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
    if fault is None or not _shows(fault, stage):
        return Box(circuit if stage != WITHOUT else _without_motors(circuit))
    faulty = with_fault(circuit, fault)
    return Box(faulty if stage != WITHOUT else _without_motors(faulty), fault.change.stuck)


def _shows(fault: Fault, stage: str) -> bool:
    of_motor = fault.kind in ("motor open", "motor shorted", "brush to case")
    return not (fault.kind == "limit moved" and stage != WITH) and not (of_motor and stage == WITHOUT)


def _without_motors(circuit: Circuit) -> Circuit:
    """A voltmeter stands in each motor's place; what joined a motor's terminals to its case went with it."""
    names = {motor.name for motor in circuit.motors}
    loads = (one._replace(ohms=METER_OHMS) if one.part in names else one for one in circuit.loads)
    kept = (one for one in circuit.conductors if one.part not in names or one.kind != "bond")
    return circuit._replace(loads=tuple(loads), conductors=tuple(kept), wires=())
