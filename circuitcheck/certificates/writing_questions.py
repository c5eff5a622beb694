"""Over which digits each claim about operation is to be shown."""

from collections.abc import Iterable
from functools import partial
from itertools import chain

from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.influence import cone_of_influence, digits_of
from circuitcheck.analysis.travel import digits_of_drive
from circuitcheck.certificates.verifier import (
    BRAKED,
    FOUND,
    GETS_THERE,
    NO_LINK,
    NO_PULSE,
    NO_SHORT_MOVING,
    NOT_AGAIN,
    NOT_PUSHED,
    NOT_THROWN,
    OWN_DRIVE,
    SETTLES,
    STAYS_STILL,
    STEADY,
    STOPS_IN_TIME,
    TURNS_BACK,
    WITHIN_BROKEN,
    WITHIN_ENDS,
    Box,
    Set,
    all_digits,
    claims_of,
    driven_apart,
    links,
    may_move,
    pushing_motors,
    raising,
    stops,
    switching,
    with_poles_placed,
    workable,
    worked,
)
from circuitcheck.certificates.writing_promises import promise_questions
from circuitcheck.circuit.model import Relay


def questions_of_sneaks(box: Box) -> Iterable[tuple[str, frozenset[int]]]:
    """Each claim about sneak paths that does not hold whatever operation gets to, with what it hangs on."""
    for number in workable(box.circuit):
        if any(states := worked(box, number)):
            yield f"{box.circuit.loads[number].name} {OWN_DRIVE}", all_digits(box.sets, states)
    for part in switching(box.circuit):
        if pairs := links(box, part):
            yield f"{part} {NO_LINK}", all_digits(box.sets, chain.from_iterable(pairs))


def questions_of(box: Box, facts: Facts, calm: bool, moving: Set) -> Iterable[tuple[str, frozenset[int]]]:
    """Each claim about operation, with the digits that it asks about, in the order in which claims are written."""
    circuit = facts.circuit
    if moving:
        yield NO_SHORT_MOVING, box.sets.digits(moving)
    driving = list(zip(circuit.motors, facts.motors, strict=True))
    for motor, does in driving:
        # Which of two brushes is fed decides nothing that `loose` could tell, but how the motor is braked.
        fed = (one for winding in motor.windings for one in facts.volts[winding.load])
        digits = digits_of(does.loose, does.braked, *(part for one in fed for part in one[1:]))
        if not motor.may_coast:
            yield f"{motor.name} {BRAKED}", digits
        yield f"{motor.name} {NOT_THROWN}", digits
        yield f"{motor.name} {STAYS_STILL}", digits
        moments = [with_poles_placed(box, one, partial(may_move, box)) for one in driven_apart(box, motor).values()]
        yield f"{motor.name} {NO_PULSE}", digits | all_digits(box.sets, moments)
        if motor in pushing_motors(circuit):
            pushed = [box.sets.digits(one) for pair in raising(box, motor) for one in pair]
            yield f"{motor.name} {NOT_PUSHED}", digits.union(*pushed)
        for stop, claims in stops(circuit).items():
            yield from ((f"{motor.name} {claim}", digits | {stop}) for claim in claims)
    possible = claims_of(circuit)
    for motor, does in driving:
        if f"{motor.name} {STOPS_IN_TIME}" in possible and motor.axis is not None:
            yield f"{motor.name} {STOPS_IN_TIME}", digits_of_drive(facts, motor.axis) | digits_of(does.braked)
    for claim in (WITHIN_ENDS, WITHIN_BROKEN, NOT_AGAIN, STEADY, GETS_THERE, TURNS_BACK, FOUND):
        for number, axis in enumerate(circuit.axes):
            if f"{axis.name} {claim}" in possible:
                held = [does.braked for one, does in driving if one.axis == number and claim == NOT_AGAIN]
                yield f"{axis.name} {claim}", digits_of_drive(facts, number) | digits_of(*held)
    for relay in () if calm else circuit.relays:
        yield f"{relay.name} {SETTLES}", frozenset({relay.digit})
    yield from promise_questions(facts)


def settling_with(facts: Facts, relay: Relay) -> frozenset[int]:
    """The digits that have a say in a relay, or in relays that have one, while all axes stand still; and supplies."""
    relays = {one.digit for one in facts.circuit.relays}
    supplies = {supply.digit for supply in facts.circuit.supplies}
    says = cone_of_influence((relay.digit,), lambda digit: facts.depends_on(digit) if digit in relays else frozenset())
    return says | supplies
