"""The circuit with the fault that a finding tells of, put together anew from its words."""

from circuitcheck.circuit.model import Circuit
from tests.judge.steps import Judge

BROKEN = "with a wire to it broken"
STICKS = " sticks "


def with_broken_wire(circuit: Circuit, what: str) -> Circuit:
    """The circuit without the contact that is named in the words before "with a wire to it broken"."""
    told = set(what.partition(BROKEN)[0].replace(":", " ").replace(",", " ").split())
    kept = tuple(one for one in circuit.conductors if one.closed is None or one.name not in told)
    assert len(kept) == len(circuit.conductors) - 1, f"one contact is named in: {what}"
    return circuit._replace(conductors=kept)


def with_stuck_relay(judge: Judge, step: str) -> Judge:
    """The judge of the circuit in which the relay that "sticks" moves no more."""
    name = step.partition(STICKS)[0]
    return Judge(judge.circuit._replace(relays=tuple(one for one in judge.circuit.relays if one.name != name)))
