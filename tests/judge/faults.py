"""The circuit with the fault that a finding tells of, put together anew from its words."""

from tests.judge.steps import Judge

STICKS = " sticks "


def with_stuck_relay(judge: Judge, step: str) -> Judge:
    """The judge of the circuit in which the relay that "sticks" moves no more."""
    name = step.partition(STICKS)[0]
    return Judge(judge.circuit._replace(relays=tuple(one for one in judge.circuit.relays if one.name != name)))
