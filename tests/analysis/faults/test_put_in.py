"""The circuit with a fault put in, against the judge's reading of how it is called; every fault of a small box."""

import pytest

from circuitcheck.analysis.faults.fault import with_fault
from circuitcheck.analysis.faults.listing import single_faults
from circuitcheck.analysis.faults.same_circuit import likeness
from circuitcheck.circuit.figures import WireInfo
from circuitcheck.circuit.model import Circuit, Closed
from tests.analysis.faults.test_listing import circuit_of, example
from tests.judge.steps import with_value
from tests.judge.told_faults import may_come, told_fault

BOX = """
        supply PS 12 V 5 A
        fuse   F1 5 A
        button PB1 no
        switch S1 spdt positions off on far
        estop  ES1 nc
        outside O1 contact
        strip  X1 3 ways
        axis   drum turning through park half
        cam    CS1 no on drum at park
        diode  D1
        suppressor V1 varistor 18 V
        lamp   L1 12 V 2 W
        motor  M1 12 V stall 5 A case on - drives drum toward half
        rung   S1.far, X1.1
        rung   PS.+, F1, PB1, S1.com-on, X1.1
        wire   M1.+ X1.1
        rung   M1.-, X1.3, PS.-
        rung   X1.1, ES1, O1, L1, D1, PS.-
        rung   X1.1, CS1, V1, PS.-
    """


@pytest.mark.parametrize(
    "name", ["right/curtain", "right/storm_beam", "right/touring_drawbridge", "right/sea_drum", ""]
)
def test_a_fault_is_the_circuit_that_its_words_say(name: str) -> None:
    """And comes about where the judge says that it may, who knows no more of it than the words. A winding that is open
    hangs in the air with its other end there."""
    circuit = example(name) if name else circuit_of(BOX)
    for fault in single_faults(circuit):
        faulty, told = with_fault(circuit, fault), told_fault(circuit, fault.called)
        if not fault.change.broken:
            assert likeness(faulty) == likeness(told), fault.called
        assert [digit.kind for digit in faulty.digits] == [digit.kind for digit in told.digits]
        nowhere = (0,) * len(circuit.digits)
        begins = fault.change.begins or (Closed(0, frozenset(range(circuit.digits[0].radix))),)
        for one in begins:
            for value in range(circuit.digits[one.digit].radix):
                state = with_value(nowhere, one.digit, value)
                assert may_come(circuit, fault.called, state) == (value in one.values), fault.called


def wires_of(circuit: Circuit) -> set[tuple[str, WireInfo]]:
    """What is said of each wire, by its ends."""
    return {(circuit.conductors[one.conductor].name, one._replace(conductor=0)) for one in circuit.wires}


@pytest.mark.parametrize("name", ["right/touring_drawbridge", "right/dragon_roar"])
def test_what_is_said_of_wires_and_suppressors_stays_with_a_fault(name: str) -> None:
    """But for a wire or a coil's diode that is open itself; a motor's broken winding has its end on the motor."""
    circuit = example(name)
    for fault in single_faults(circuit):
        faulty = with_fault(circuit, fault)
        opened = [circuit.conductors[number] for number in fault.change.opened]
        kept = {one for one in wires_of(circuit) if one[0] not in {each.name for each in opened if each.kind == "wire"}}
        assert wires_of(faulty) == kept, fault.called
        diodes = {one.tail for one in opened if one.kind == "diode"}
        assert faulty.suppressors == tuple(one for one in circuit.suppressors if one.a not in diodes), fault.called
        for number in range(len(circuit.loads)):
            load, before = faulty.loads[number], circuit.loads[number]
            assert load.b == before.b
            assert (load.a == before.a) == (number not in fault.change.broken)
            assert load.a in faulty.parts[load.part].terminals
        touching = [one for one in faulty.conductors if one.kind == "touch"]
        assert tuple((one.tail, one.head) for one in touching) == fault.change.joined


def test_every_kind_of_fault_is_supposed_of_a_box_with_every_kind_of_part() -> None:
    """By name and published row, in the plan's order; terminals of the strip with nothing between touch nothing."""
    told = [(one.called, one.kind) for one in single_faults(circuit_of(BOX))]
    assert told[:36] == [
        ("PS lost", "supply lost"),
        ("PS reversed", "supply reversed"),
        ("F1 blown", "fuse blown"),
        ("PB1 stuck released", "switch stuck"),
        ("PB1 stuck pressed", "switch stuck"),
        ("PB1.13-14 welded", "contact does not open"),
        ("PB1.13-14 open", "contact does not close"),
        ("S1 stuck off", "switch stuck"),
        ("S1 stuck on", "switch stuck"),
        ("S1 stuck far", "switch stuck"),
        ("S1.com-on welded", "contact does not open"),
        ("S1.com-on open", "contact does not close"),
        ("S1.com-far welded", "contact does not open"),
        ("S1.com-far open", "contact does not close"),
        ("ES1 stuck pressed", "switch stuck"),
        ("ES1.11-12 open", "contact does not close"),
        ("O1 stuck off", "switch stuck"),
        ("O1 stuck on", "switch stuck"),
        ("O1.1-2 welded", "contact does not open"),
        ("O1.1-2 open", "contact does not close"),
        ("CS1 stuck pressed", "limit stuck"),
        ("CS1 stuck free", "limit stuck"),
        ("CS1 torn off", "limit torn off"),
        ("CS1 moved on", "limit moved"),
        ("CS1 moved back", "limit moved"),
        ("CS1.com-no welded", "contact does not open"),
        ("CS1.com-no open", "contact does not close"),
        ("D1 open", "diode open"),
        ("D1 shorted", "diode shorted"),
        ("V1 open", "suppressor open"),
        ("V1 shorted", "suppressor shorted"),
        ("L1 open", "load open"),
        ("L1 shorted", "load shorted"),
        ("M1 open", "motor open"),
        ("M1 shorted", "motor shorted"),
        ("M1.+ touches its case", "brush to case"),
    ]
    on_frame = {f"the wire {end} to PS.- " for end in ("X1.3", "D1.cathode", "V1.2")} | {"the wire M1.- to X1.3 "}
    wires = {called.removesuffix("open") for called, kind in told[36:] if kind == "wire open"}
    assert len(wires) == 16
    touching = {called for called, kind in told[36:] if kind == "wire to frame"}
    assert touching == {f"{wire}touches the frame" for wire in wires - on_frame}
