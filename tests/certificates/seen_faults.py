"""What is claimed of the box with one fault in it, looked at beside a sound one in each pair of states by the judge."""

from collections.abc import Callable, Iterator
from functools import partial

from circuitcheck.analysis.faults.listing import single_faults
from circuitcheck.certificates.verifier import requirements
from circuitcheck.circuit.model import Circuit
from circuitcheck.plan.syntax import Require
from tests.certificates.seen import DRIVEN, Seen
from tests.judge.besides import Besides, Pair


def looks(seen: Seen) -> dict[str, Callable[[], bool]]:
    """How the judge looks at each claim."""
    return {claim: partial(_outlasts, seen, one) for claim, one in requirements(seen.circuit).items()}


def _outlasts(seen: Seen, requirement: Require) -> bool:
    """With none of the faults is a motor driven for good that must not be, and in the sound box isn't."""
    return not any(breaks(seen, requirement, fault.called) for fault in single_faults(seen.circuit))


def breaks(seen: Seen, requirement: Require, called: str) -> bool:
    """Does the fault that is called so break what is required?"""
    boxes = Besides(seen.judge, set(seen.reached), called)
    return any(_is_broken(boxes, pair, requirement) for pair in boxes.lasting())


def _is_broken(boxes: Besides, pair: Pair, requirement: Require) -> bool:
    circuit = boxes.sound.circuit
    digit = [one.name for one in circuit.digits].index(requirement.subject.text)
    does, should = boxes.words(pair)
    if requirement.past is None:
        pressed = pair.faulty[digit] == 1
        return pressed and any(does[one] in DRIVEN and should[one] not in DRIVEN for one in does)
    outward = dict(_outward(circuit, digit, requirement.past.text, pair.faulty[digit]))
    return any(does[name] == way and should[name] != way for name, way in outward.items())


def _outward(circuit: Circuit, digit: int, end: str, zone: int) -> Iterator[tuple[str, str]]:
    """Which word of each motor means on outward, where the axis is at or past that end."""
    (number,) = (place for place, axis in enumerate(circuit.axes) if axis.digit == digit)
    axis = circuit.axes[number]
    at_top = end == axis.places[-1]
    there = zone >= axis.range[1] if at_top else zone <= axis.range[0]
    for motor in circuit.motors:
        if there and motor.axis == number:
            yield motor.name, "forward" if motor.upward == at_top else "reverse"
