"""Which faults break what a plan requires of the box with one fault in it."""

from collections.abc import Iterable, Iterator
from typing import Final, NamedTuple

from circuitcheck.analysis.faults.beside import Beside
from circuitcheck.analysis.faults.consequences import Outcome
from circuitcheck.analysis.faults.fault import Fault
from circuitcheck.analysis.faults.verdicts import Judge, Verdict
from circuitcheck.analysis.influence import digits_of
from circuitcheck.plan.syntax import Require

PRESSED: Final = 1


class Breaking(NamedTuple):
    """A fault that breaks a requirement, and how, motor by motor; empty where that cannot be decided."""

    fault: Fault
    outcomes: tuple[Outcome, ...]


def breaking_faults(judge: Judge, faults: Iterable[Fault], requirement: Require) -> Iterator[Breaking]:
    """Those that drive the axis past its end, or keep the emergency stop from stopping a motor."""
    for fault in faults:
        verdict = judge.verdict(fault)
        if verdict.undecided:
            yield Breaking(fault, ())
        elif found := tuple(_breaking(verdict, requirement)):
            yield Breaking(fault, found)


def _breaking(verdict: Verdict, requirement: Require) -> Iterator[Outcome]:
    if requirement.past is None:
        for beside in verdict.besides:
            yield from _driven_while_pressed(beside, requirement.subject.text)
        return
    wanted = "overtravel", requirement.subject.text, requirement.past.text
    yield from (one for one in verdict.outcomes if (one.consequence, one.axis, one.place) == wanted)


def _driven_while_pressed(beside: Beside, stop: str) -> Iterator[Outcome]:
    """A motor that is driven for good with the stop pressed, and in the sound box isn't."""
    digit = next(number for number, one in enumerate(beside.sound.circuit.digits) if one.name == stop)
    pressed = beside.faulty.spaces.where(digit, (PRESSED,))
    for number, motor in enumerate(beside.faulty.circuit.motors):
        does, sound = (run.driven for run in beside.motor(number))
        if not does.same_as(sound):
            wrong = (does - sound) & pressed
            joint = beside.joint({*digits_of(does, sound), digit})
            states = wrong.over(joint.space) & joint.lasting
            if states:
                rightly = (does & sound).over(joint.space) & joint.lasting
                yield Outcome("does not stop", motor.name, joint, states, begun=rightly)
