"""Faults of every example for people, against the example's text with the fault written into it as lines.

The circuit of the changed text is analysed as any other plan, and has to be the faulty box in every state.
"""

import pytest

from circuitcheck.analysis.facts import analyse
from circuitcheck.analysis.faults.fault import Fault, with_fault
from circuitcheck.analysis.faults.listing import single_faults
from circuitcheck.circuit.model import Circuit
from tests.analysis.faults.by_hand import EXAMPLES, circuit_of, in_wires, written_by_hand
from tests.analysis.faults.test_plain_rerun import picture

QUICK = ("cue_light", "gallery_lift", "lighthouse_shutter", "trapdoor_lantern")
SLOW = tuple(sorted({path.stem for path in (EXAMPLES / "right").glob("*.plan")} - set(QUICK)))


def said_by_hand(circuit: Circuit) -> list[Fault]:
    """The faults that leave the same circuit both ways. What sticks is worked in vain in the text; a winding that hangs
    in the air, and a supply that gives nothing, still have ends that a brake may lead over."""
    found = [(one, one.change) for one in single_faults(circuit)]
    return [one for one, change in found if not (change.stuck or change.broken or change.lost)]


@pytest.mark.parametrize("name", [*QUICK, *(pytest.param(one, marks=pytest.mark.slow) for one in SLOW)])
def test_a_fault_of_every_example_is_the_same_as_its_lines_written_by_hand(name: str) -> None:
    """Motors, shorts and reached states."""
    plan = in_wires((EXAMPLES / "right" / f"{name}.plan").read_text(encoding="utf-8"))
    circuit = circuit_of(plan.text)
    found = said_by_hand(circuit)
    assert found
    for fault in found:
        changed = written_by_hand(plan, circuit, fault)
        if changed is not None:
            assert picture(analyse(with_fault(circuit, fault))) == picture(analyse(circuit_of(changed))), fault.called


@pytest.mark.parametrize("name", QUICK)
def test_an_example_brought_to_single_wires_is_the_same_circuit(name: str) -> None:
    """The text that faults are written into says what the example says."""
    text = (EXAMPLES / "right" / f"{name}.plan").read_text(encoding="utf-8")
    assert picture(analyse(circuit_of(in_wires(text).text))) == picture(analyse(circuit_of(text)))
