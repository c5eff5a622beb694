"""A box with a fault, as it lies on the bench in each stage."""

from circuitcheck.analysis.bench.boxes import METER_OHMS, box_with
from circuitcheck.analysis.bench.settings import OFF, WITH, WITHOUT
from circuitcheck.analysis.faults.fault import Fault, both_at_once
from circuitcheck.analysis.faults.listing import single_faults
from tests.analysis.plans import circuit_of

BOX = circuit_of("""
supply PS 12 V 10 A
button PB1 no
axis   deck from bottom to top
limit  LS1 nc on deck at top
lamp   L1 12 V 2 W
motor  M1 two-speed 12 V stall 10 A case on - drives deck toward top
rung   PS.+, PB1, LS1, M1.high
wire   M1.- PS.-
rung   PB1.14, L1, PS.-
""")
SOUND = {stage: box_with(BOX, None, stage) for stage in (OFF, WITHOUT, WITH)}


def fault(kind: str) -> Fault:
    """One of this kind."""
    return next(one for one in single_faults(BOX) if one.kind == kind)


def stages_that_show(one: Fault) -> list[str]:
    """Those in which the box is another than the sound one."""
    return [stage for stage, sound in SOUND.items() if box_with(BOX, one, stage) != sound]


def test_a_motor_is_a_voltmeter_and_has_no_case_while_it_is_disconnected() -> None:
    """All else stays."""
    ohms = {one.name: one.ohms for one in SOUND[WITHOUT].circuit.loads}
    as_built = {one.name: one.ohms for one in BOX.loads}
    assert ohms == as_built | {"M1 low": METER_OHMS, "M1 high": METER_OHMS}
    bonds = [one for one in BOX.conductors if one.kind == "bond"]
    assert len(bonds) == 1
    assert SOUND[WITHOUT].circuit.conductors == tuple(one for one in BOX.conductors if one not in bonds)
    assert SOUND[OFF].circuit is SOUND[WITH].circuit is BOX


def test_a_fault_shows_where_what_it_concerns_is_there() -> None:
    """A motor's not while it is disconnected; where a limit is screwed on, only once the motor moves it."""
    assert stages_that_show(fault("motor open")) == [OFF, WITH]
    assert stages_that_show(fault("limit moved")) == [WITH]
    assert stages_that_show(next(one for one in single_faults(BOX) if one.part == "L1")) == [OFF, WITHOUT, WITH]


def test_of_two_faults_at_once_each_shows_for_itself() -> None:
    """While the motor is away the other one is left."""
    of_lamp = next(one for one in single_faults(BOX) if one.part == "L1")
    both = both_at_once(of_lamp, fault("motor open"))
    assert box_with(BOX, both, WITHOUT) == box_with(BOX, of_lamp, WITHOUT)
    assert box_with(BOX, both, WITH) not in (box_with(BOX, of_lamp, WITH), SOUND[WITH])
