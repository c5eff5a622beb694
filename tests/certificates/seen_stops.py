"""What is claimed of emergency stops and of limits at the ends of axes, looked at in each state that the judge sees."""

from collections.abc import Callable, Iterator
from functools import partial
from typing import Any

from circuitcheck.certificates.verifier import (
    HAS_A_SAY,
    NOT_RESET,
    OBEYS,
    OBEYS_BROKEN,
    OBEYS_STUCK,
    STAYS_PRESSED,
    WITHIN_BROKEN,
    WITHIN_ENDS,
)
from circuitcheck.circuit.model import Circuit, Closed, Limit
from tests.certificates.seen import DRIVEN, Seen
from tests.judge.claims import directions
from tests.judge.one_state import State, leads, view
from tests.judge.sequels import after_all, starts, with_stuck
from tests.judge.steps import Judge, with_value


def looks(seen: Seen) -> dict[str, Callable[[], bool]]:
    """How the judge looks at each claim."""
    circuit = seen.circuit
    found: dict[str, Callable[[], bool]] = {}
    for digit, stop in enumerate(circuit.digits):
        found[f"{stop.name} {STAYS_PRESSED}"] = partial(_stays_pressed, seen, digit)
        for number, motor in enumerate(circuit.motors):
            for claim, look in (
                (OBEYS, _obeys),
                (OBEYS_STUCK, _obeys_with_a_relay_stuck),
                (OBEYS_BROKEN, _obeys_with_a_wire_broken),
                (NOT_RESET, _stays_still_when_reset),
            ):
                found[f"{motor.name} {claim.format(stop.name)}"] = partial(look, seen, number, digit)
    for name in (one.name for one in circuit.axes):
        found[f"{name} {WITHIN_ENDS}"] = partial(_stays_within, seen, name)
        found[f"{name} {WITHIN_BROKEN}"] = partial(_stays_within_with_a_wire_broken, seen, name)
    for limit in circuit.limits:
        claim = HAS_A_SAY.format(circuit.axes[limit.axis].name)
        found[f"{limit.name} {claim}"] = partial(_has_a_say, seen, limit)
    return found


def _stays_pressed(seen: Seen, digit: int) -> bool:
    return seen.circuit.digits[digit].springs_to is None


def _is_never_driven(judge: Judge, reached: set[State], motor: int, stop: int) -> bool:
    """At no rest at which the stop is pressed."""
    return not any(
        state[stop] == 1 and judge.judged(state).motors[motor] in DRIVEN
        for state in reached
        if judge.is_proper(state) and judge.is_at_rest(state)
    )


def _obeys(seen: Seen, motor: int, stop: int) -> bool:
    return _is_never_driven(seen.judge, set(seen.reached), motor, stop)


def _obeys_with_a_relay_stuck(seen: Seen, motor: int, stop: int) -> bool:
    """Each relay, wherever it stands released or operated, moves no more from then on."""
    return all(
        _is_never_driven(*with_stuck(seen.judge, set(seen.reached), relay, value), motor, stop)
        for relay in range(len(seen.circuit.relays))
        for value in (0, 1)
    )


def _obeys_with_a_wire_broken(seen: Seen, motor: int, stop: int) -> bool:
    """Each contact that the stop closes may fail to from any moment on."""
    judges = _broken(seen.circuit, seen.circuit.digits[stop].name, {1})
    return all(_is_never_driven(judge, after_all(seen.reached, judge.successors), motor, stop) for judge in judges)


def _stays_still_when_reset(seen: Seen, motor: int, stop: int) -> bool:
    return not starts(seen.judge, set(seen.reached), motor, frozenset({stop}), 0)


def _broken(circuit: Circuit, part: str, values: set[int]) -> Iterator[Judge]:
    """The judge of the circuit without one contact of a part that has a wire at both ends and is closed at one of these
    values of its digit."""
    wired = {end for one in circuit.conductors if one.kind == "wire" for end in (one.tail, one.head)}
    for one in circuit.conductors:
        if one.part == part and one.closed and values & one.closed.values and {one.tail, one.head} <= wired:
            yield Judge(circuit._replace(conductors=tuple(other for other in circuit.conductors if other is not one)))


def _stays_within(seen: Seen, name: str) -> bool:
    axis = seen.axis(name)
    return not any(seen.outward(axis, state) & directions(seen.judge, state, axis) for state in seen.rests)


def _stays_within_with_a_wire_broken(seen: Seen, name: str) -> bool:
    """From any moment on a contact of a limit at an end never closes: at that end the axis is not driven on."""
    axis = seen.axis(name)
    every = set(range(len(seen.circuit.digits[axis.digit].values)))
    for limit in seen.circuit.limits:
        if seen.circuit.axes[limit.axis] is axis:
            ways = {way for way, end in zip((-1, 1), axis.range, strict=True) if end in limit.zones}
            for judge in _broken(seen.circuit, limit.name, every):
                rests = (
                    one
                    for one in after_all(seen.reached, judge.successors)
                    if judge.is_proper(one) and judge.is_at_rest(one)
                )
                if any(ways & seen.outward(axis, one) & directions(judge, one, axis) for one in rests):
                    return False
    return True


def _has_a_say(seen: Seen, limit: Limit) -> bool:
    """In some state the drive, or what a relay with a say in it wants, would differ with the limit the other way."""
    judge, other = seen.judge, Judge(_turned(seen.circuit, limit))
    asked: list[Any] = [partial(_drive, limit=limit)]
    relays = {relay.digit for relay in seen.circuit.relays}
    for ask in asked:
        concerned = {digit for digit in relays if _hangs_on(judge, ask, digit)}
        asked += [partial(_wishes, digit=digit) for digit in concerned]
        relays -= concerned
    return any(
        other.judged(state).shorted or ask(judge, state) != ask(other, state)
        for state in judge.every_state()
        for ask in asked
    )


def _turned(circuit: Circuit, limit: Limit) -> Circuit:
    """The circuit in which a limit's contacts are closed just where they were not."""
    digit = circuit.axes[limit.axis].digit
    every = frozenset(range(len(circuit.digits[digit].values)))
    return circuit._replace(
        conductors=tuple(
            one._replace(closed=Closed(digit, every - one.closed.values))
            if one.part == limit.name and one.closed
            else one
            for one in circuit.conductors
        )
    )


def _drive(judge: Judge, state: State, limit: Limit) -> list[Any]:
    """The volts of each winding that drives the limit's axis, and whether it is shut."""
    volts, seen = judge.judged(state).volts, view(judge.circuit, state)
    windings = [one for motor in judge.circuit.motors if motor.axis == limit.axis for one in motor.windings]
    shut = [leads(seen, one.plus, one.minus) and leads(seen, one.minus, one.plus) for one in windings]
    return [[round(volts[one.load], 6) for one in windings], shut]


def _wishes(judge: Judge, state: State, digit: int) -> set[Any]:
    return {wish for wish in judge.judged(state).wishes if wish.digit == digit}


def _hangs_on(judge: Judge, ask: Callable[[Judge, State], Any], digit: int) -> bool:
    return any(
        ask(judge, state) != ask(judge, with_value(state, digit, value))
        for state in judge.every_state()
        for value in range(judge.circuit.digits[digit].radix)
    )
