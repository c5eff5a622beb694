"""What a plan's promises say, as sets of states."""

from circuitcheck.analysis.devices import LampStates, MotorStates
from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.sequels import Starts, starts_after
from circuitcheck.analysis.states import States
from circuitcheck.analysis.travel import driven
from circuitcheck.circuit.model import Axis
from circuitcheck.plan.syntax import Claim, Combined, Condition, Promise

ON = 1


def condition_states(facts: Facts, condition: Condition) -> States:
    """The states in which a condition holds.

    `deck stops at top` is broken past its top, and at its top where it is still driven outward.
    """
    if isinstance(condition, Combined):
        parts = [condition_states(facts, operand) for operand in condition.operands]
        result = parts[0]
        for part in parts[1:]:
            result = result & part if condition.operator == "and" else result | part
        return ~result if condition.operator == "not" else result
    if condition.verb == "is":
        return _is(facts, condition)
    return _stands(facts, condition)


def restart_of(facts: Facts, promise: Promise) -> Starts | None:
    """How the motor of `never M1 starts when power returns` starts all the same."""
    motor, supply = (claim.subject.text for claim in (promise.condition, promise.when) if isinstance(claim, Claim))
    digits = {one.name: one.digit for one in facts.circuit.supplies}
    returning = frozenset({digits[supply]} if supply in digits else digits.values())
    number = next(number for number, one in enumerate(facts.circuit.motors) if one.name == motor)
    return starts_after(facts, number, returning, ON)


def promised_never_to_restart(facts: Facts) -> frozenset[str]:
    """The names of the motors that the plan promises never to start when power returns, whichever supply it is."""
    one_supply = len(facts.circuit.supplies) == 1
    return frozenset(
        promise.condition.subject.text
        for promise in facts.circuit.promises
        if isinstance(promise.condition, Claim) and isinstance(promise.when, Claim) and is_of_restart(promise)
        if one_supply or promise.when.subject.text not in facts.circuit.parts
    )


def is_of_restart(promise: Promise) -> bool:
    """Is it `never M1 starts when power returns`?"""
    return isinstance(promise.condition, Claim) and promise.condition.verb == "starts"


def _stands(facts: Facts, claim: Claim) -> States:
    axis = next(one for one in facts.circuit.axes if one.name == claim.subject.text)
    zones = facts.circuit.digits[axis.digit].values
    place = claim.value.text
    if claim.verb == "at":
        return facts.spaces.where(axis.digit, (zones.index(place),))
    past = facts.spaces.where(axis.digit, _past(axis, zones, place))
    if claim.verb == "past":
        return past
    outward = -1 if place == axis.places[0] else 1
    at_place = facts.spaces.where(axis.digit, (zones.index(place),))
    return ~(past | (at_place & driven(facts, facts.circuit.axes.index(axis), outward)))


def _past(axis: Axis, zones: tuple[str, ...], place: str) -> range:
    """The zones beyond a place: toward the axis' beginning from its first place, from all others toward its end."""
    if axis.turning:
        return range(0)
    return range(zones.index(place)) if place == axis.places[0] else range(zones.index(place) + 1, len(zones))


def _is(facts: Facts, claim: Claim) -> States:
    subject, word = claim.subject.text, claim.value.text
    for motor, does in zip(facts.circuit.motors, facts.motors, strict=True):
        if motor.name == subject:
            return _motor(facts, does, word)
    for number, lamp in facts.lamps.items():
        if facts.circuit.loads[number].part == subject:
            return _lamp(lamp, word)
    for limit in facts.circuit.limits:
        if limit.name == subject:
            pressed = facts.spaces.where(facts.circuit.axes[limit.axis].digit, limit.zones)
            return pressed if word == "pressed" else ~pressed
    number, digit = next((number, digit) for number, digit in enumerate(facts.circuit.digits) if digit.name == subject)
    return facts.spaces.where(number, (digit.values.index(word),))


def _motor(facts: Facts, does: MotorStates, word: str) -> States:
    if word == "shorted":
        return facts.shorted
    said: dict[str, States] = {
        "forward": does.forward,
        "reverse": does.reverse,
        "driven": does.driven,
        "braked": does.braked,
        "coasting": does.coasting,
        "weak": does.weak,
        "stopped": ~does.driven,
    }
    return said[word] - facts.shorted


def _lamp(does: LampStates, word: str) -> States:
    said = {"lit": does.lit, "on": does.lit, "glows": does.glowing, "dark": does.dark, "off": ~does.lit}
    return said[word]
