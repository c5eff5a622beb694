"""Whether anybody would notice a fault before a second one comes.

In ordinary use power is switched on and off, axes run, and controls are worked one after the other (of those that
spring back never two at once); nobody presses an emergency stop. A fault is noticed if, wherever the box stands,
ordinary use leads to where something else is seen than of a sound box: a motor that turns otherwise or stops otherwise,
a lamp, buzzer or solenoid that is on or off, a fuse that blows. Else it is hidden.
"""

from collections.abc import Iterator

from circuitcheck.analysis.course import joined
from circuitcheck.analysis.devices import MotorStates
from circuitcheck.analysis.faults.beside import Beside, Joint
from circuitcheck.analysis.faults.consequences import Outcome, new_shorts
from circuitcheck.analysis.influence import digits_of
from circuitcheck.analysis.resting import following, leading_to
from circuitcheck.analysis.states import States, union

RELEASED, PRESSED = 0, 1


def noticed_by(beside: Beside) -> tuple[str, ...]:
    """The names of the devices by which the fault is noticed; none where it is hidden."""
    shorts = list(new_shorts(beside))
    apart = {short.device: (short.joint, short.states) for short in shorts}
    for name, pairs in _seen(beside):
        if any(beside.may_differ(does, sound) for does, sound in pairs):
            joint = beside.joint(digits_of(*(one for pair in pairs for one in pair)))
            found = union(((does - sound) | (sound - does) for does, sound in pairs), beside.faulty.spaces.none())
            states = found.over(joint.space) & joint.lasting
            if states:
                apart[name] = joint, states | _shorted(joint, shorts)
    return tuple(name for name, (joint, states) in apart.items() if _always_comes(beside, joint, states))


def _shorted(joint: Joint, shorts: list[Outcome]) -> int:
    """Where a short ends the story before anything else is seen: that is seen too."""
    own = (short for short in shorts if short.joint.space is joint.space)
    return joined(short.states for short in own)


def _seen(beside: Beside) -> Iterator[tuple[str, list[tuple[States, States]]]]:
    """Of each motor and lamp what is seen, here and in the sound box: which way it turns, whether it is braked;
    whether it is lit."""
    for number, motor in enumerate(beside.faulty.circuit.motors):
        does, sound = beside.faulty.motors[number], beside.sound_motor(number)
        yield motor.name, list(zip(_looks(does), _looks(sound), strict=True))
    for number, lamp in beside.faulty.lamps.items():
        lit = beside.of_sound(beside.sound.lamps[number].lit)
        yield beside.faulty.circuit.loads[number].name, [(lamp.lit, lit)]


def _looks(does: MotorStates) -> tuple[States, States, States]:
    return does.forward, does.reverse, does.braked


def _always_comes(beside: Beside, joint: Joint, states: int) -> bool:
    """Does ordinary use lead to some of the states, from wherever it has led?"""
    calm, stops = _one_hand(beside, joint), _emergency_stops(beside)
    steps = [
        step._replace(allowed=step.allowed & calm)
        for step in joint.steps
        if not (step.digit in stops and step.end == PRESSED)
    ]
    begun = joint.begun & _let_be(beside, joint, stops) & calm
    usual = following(joint.space, steps, begun) & calm
    return bool(usual & states) and not usual & joint.lasting & ~leading_to(joint.space, steps, states)


def _emergency_stops(beside: Beside) -> frozenset[int]:
    """Their digits, the sound box's copies too."""
    parts = beside.sound.circuit.parts
    names = {name for name, info in parts.items() if info.kind == "estop"}
    own = {number for number, digit in enumerate(beside.sound.circuit.digits) if digit.name in names}
    return frozenset(own | {number + beside.count for number in own})


def _let_be(beside: Beside, joint: Joint, stops: frozenset[int]) -> int:
    """The states in which no emergency stop is pressed; one that sticks is where it is."""
    bits = joint.space.full
    for digit in stops.intersection(joint.space.digits):
        if not {digit, digit % beside.count} & beside.copied:
            bits &= joint.space.where(digit, (RELEASED,))
    return bits


def _one_hand(beside: Beside, joint: Joint) -> int:
    """The states in which at most one control that springs back is worked."""
    space = joint.space
    none, one = space.full, 0
    for digit in space.digits:
        home = beside.circuit.digits[digit].springs_to
        if home is not None:
            resting = space.where(digit, (home,))
            none, one = none & resting, (one & resting) | (none & ~resting)
    return none | one
