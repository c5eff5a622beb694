"""Whether anybody would notice a fault before a second one comes.

In ordinary use power is switched on and off, axes run, and controls are worked one after the other (of those that
spring back never two at once); nobody presses an emergency stop. A fault is noticed if, wherever the box stands,
ordinary use leads to where something else is seen than of a sound box: a motor that turns otherwise or stops otherwise,
a lamp, buzzer or solenoid that is on or off, a fuse that blows. Else it is hidden.
"""

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from circuitcheck.analysis.faults.beside import Beside, Joint
from circuitcheck.analysis.faults.consequences import Outcome, new_shorts
from circuitcheck.analysis.influence import digits_of
from circuitcheck.analysis.resting import Step, following, leading_to
from circuitcheck.analysis.rounds import joined
from circuitcheck.analysis.states import Space, States, union

RELEASED, PRESSED = 0, 1


def noticed_by(beside: Beside) -> tuple[str, ...]:
    """The names of the devices by which the fault is noticed; none where it is hidden."""
    shorts = list(new_shorts(beside))
    found = []
    for device in _seen(beside):
        if not all(does.same_as(sound) for does, sound in device.pairs):
            joint = beside.joint(digits_of(*(one for pair in device.pairs for one in pair)))
            apart = union(
                ((does - sound) | (sound - does) for does, sound in device.pairs), beside.faulty.spaces.none()
            )
            states = apart.over(joint.space) & joint.lasting
            if states and _always_comes(beside, joint, states | _shorted(joint, shorts), device.active):
                found.append(device.name)
    anything = union((device.active for device in _seen(beside)), beside.sound.spaces.none())
    found += [short.device for short in shorts if _always_comes(beside, short.joint, short.states, anything)]
    return tuple(dict.fromkeys(found))


def _shorted(joint: Joint, shorts: list[Outcome]) -> int:
    """Where a short ends the story before anything else is seen: that is seen too."""
    return joined(short.states for short in shorts if short.joint.space is joint.space)


class Device(NamedTuple):
    """What is seen of it, here and in the sound box: which way a motor turns, whether it is braked; whether a lamp is
    lit. active: where it does something in the sound box, as that sees it."""

    name: str
    pairs: list[tuple[States, States]]
    active: States


def _seen(beside: Beside) -> Iterator[Device]:
    for number, motor in enumerate(beside.faulty.circuit.motors):
        pairs = list(zip(*beside.motor(number), strict=True))
        yield Device(motor.name, pairs, beside.sound.motors[number].driven)
    for number, lamp in beside.faulty.lamps.items():
        lit = beside.sound.lamps[number].lit
        yield Device(beside.faulty.circuit.loads[number].name, [(lamp.lit, beside.of_sound(lit))], lit)


def _always_comes(beside: Beside, joint: Joint, states: int, active: States) -> bool:
    """Does ordinary use lead to some of the states, from wherever it has led, unless not even a sound box would ever do
    anything there?"""
    calm, stops = _one_hand(beside, joint.space), _emergency_stops(beside)
    steps = _ordinary(joint.steps, calm, stops)
    begun = joint.begun & _let_be(beside, joint, stops) & calm
    usual = following(joint.space, steps, begun) & calm
    if not usual & states:
        return False
    missed = usual & joint.lasting & ~leading_to(joint.space, steps, states)
    return not missed & _still_active(beside, joint, stops, active) if missed else True


def _still_active(beside: Beside, joint: Joint, stops: frozenset[int], active: States) -> int:
    """From where ordinary use leads a sound box to where it does something."""
    usual = beside.usual(joint.space)
    if not set(active.space.digits) <= set(usual.space.digits):
        return joint.space.full
    steps = _ordinary(usual.steps, _one_hand(beside, usual.space), stops)
    led = leading_to(usual.space, steps, active.over(usual.space))
    seen = beside.of_sound(beside.seen_over(usual, led, joint.space))
    return seen.over(joint.space)


def _ordinary(steps: Iterable[Step], calm: int, stops: frozenset[int]) -> list[Step]:
    return [
        step._replace(allowed=step.allowed & calm)
        for step in steps
        if not (step.digit in stops and step.end == PRESSED)
    ]


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
        if digit % beside.count not in beside.copied:
            bits &= joint.space.where(digit, (RELEASED,))
    return bits


def _one_hand(beside: Beside, space: Space) -> int:
    """The states in which at most one control that springs back is worked."""
    none, one = space.full, 0
    for digit in space.digits:
        home = beside.circuit.digits[digit].springs_to
        if home is not None:
            resting = space.where(digit, (home,))
            none, one = none & resting, (one & resting) | (none & ~resting)
    return none | one
