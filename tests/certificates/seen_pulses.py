"""What is claimed of moments between two rests, and of motors that still turn, looked at by the judge."""

import random
from collections.abc import Callable, Iterable, Iterator
from functools import cache, partial
from itertools import product
from math import prod
from typing import NamedTuple

from circuitcheck.certificates.verifier import NO_PULSE, NOT_PUSHED
from circuitcheck.circuit.model import Circuit, Load, Motor, PartInfo, Supply
from tests.certificates.seen import DRIVEN, Seen, following, passes_off
from tests.judge.changeovers import SIDES, in_the_moment
from tests.judge.one_state import State, view
from tests.judge.steps import with_value
from tests.judge.times import Ticking, exactly, quick_wishes, seconds_of, tick_of, ticked_on
from tests.judge.volts import network_volts

MOST_TICKS = 6_000
"""Moments told apart by how long relays have been waiting; where there are more the judge sees no pulse."""
MOST_PLACES = 40
"""Positions of moving poles that are looked at in one moment; where there are more, so many at random."""


class Moments(NamedTuple):
    """All moments that lie between two rests, tick by tick: what may come next, and what may have come before."""

    after: dict[Ticking, set[Ticking]]
    before: dict[Ticking, set[Ticking]]


class Looking(NamedTuple):
    """What all motors are looked at with."""

    seen: Seen
    moments: Callable[[], Moments]
    words: Callable[[State, frozenset[str]], dict[str, set[str]]]


def looks(seen: Seen) -> dict[str, Callable[[], bool]]:
    """How the judge looks at each claim."""
    looking = Looking(seen, cache(partial(_between_rests, seen)), cache(partial(_words_while_moving, seen)))
    found: dict[str, Callable[[], bool]] = {}
    for motor in seen.circuit.motors:
        found[f"{motor.name} {NO_PULSE}"] = partial(_is_never_pulsed, looking, motor.name)
        found[f"{motor.name} {NOT_PUSHED}"] = partial(_never_pushes, seen, motor)
    return found


def _is_never_pulsed(looking: Looking, motor: str) -> bool:
    """From a rest at which a motor is not driven a way, is no moment passed in which it is, unless some order of moves
    leads on to a rest at which it is again?"""
    seen, (after, before) = looking.seen, looking.moments()
    for direction in DRIVEN:
        usual = {state for state in seen.rests if seen.word(motor, state) == direction}
        begun = {one for state in seen.rests if state not in usual for one in _begun(seen, state)}
        explaining = [one for one in after if one.state in usual]
        explained = {one.state for one in following(explaining, before.__getitem__)}
        for one in following(begun & after.keys(), after.__getitem__):
            if one.state not in explained and direction in looking.words(one.state, _may_go(seen, one))[motor]:
                return False
    return True


def _begun(seen: Seen, state: State) -> set[Ticking]:
    """What one step from a rest leads to. A switch that passes off rests there."""
    first = {there for there in seen.judge.successors(state) - {state} if not passes_off(seen, state, there)}
    return {_ticking(seen, there, {}) for there in first}


def _ticking(seen: Seen, state: State, waited: dict[object, int]) -> Ticking:
    return Ticking(state, tuple((wish, waited.get(wish, 0)) for wish in quick_wishes(seen.judge, state)))


def _between_rests(seen: Seen) -> Moments:
    tick = tick_of(seen.circuit)
    after: dict[Ticking, set[Ticking]] = {}
    waiting = {one for state in seen.rests for one in _begun(seen, state)}
    while waiting:
        here = waiting.pop()
        after[here] = {*ticked_on(seen.judge, here, tick), *_hands_gone_on(seen, here)}
        waiting |= after[here] - after.keys()
        if len(after) > MOST_TICKS:
            return Moments({}, {})
    before: dict[Ticking, set[Ticking]] = {one: set() for one in after}
    for one, others in after.items():
        for other in others:
            before[other].add(one)
    return Moments(after, before)


def _hands_gone_on(seen: Seen, here: Ticking) -> Iterator[Ticking]:
    """Switches that are between positions arrive at one; relays that wait go on waiting."""
    shorted = seen.judge.judged(here.state).shorted
    for number, digit in enumerate(() if shorted else seen.circuit.digits):
        if here.state[number] >= len(digit.values):
            for _, end in digit.moments[here.state[number] - len(digit.values)].moves:
                yield _ticking(seen, with_value(here.state, number, end), dict(here.waited))


def _may_go(seen: Seen, here: Ticking) -> frozenset[str]:
    """The relays that may move in this moment; timers do only at rest."""
    tick = tick_of(seen.circuit)
    least = {wish: exactly(seconds_of(seen.circuit, wish))[0] for wish, _ in here.waited}
    going = {wish.digit for wish, ticks in here.waited if ticks * tick >= least[wish]}
    if seen.is_rest(here.state):
        going |= {wish.digit for wish in seen.judge.judged(here.state).wishes if wish.timed}
    return frozenset(relay.name for relay in seen.circuit.relays if relay.digit in going)


def _words_while_moving(seen: Seen, state: State, moving: frozenset[str]) -> dict[str, set[str]]:
    """All that each motor does while the poles of these relays are anywhere, but where a supply is shorted."""
    poles = {one.tail: _sides(seen.circuit, one.tail) for one in seen.circuit.conductors if one.part in moving}
    places: Iterable[tuple[str, ...]] = product(*poles.values())
    if prod(map(len, poles.values())) > MOST_PLACES:
        chance = random.Random(f"{state} {sorted(moving)}")
        places = [tuple(map(chance.choice, poles.values())) for _ in range(MOST_PLACES)]
    found: dict[str, set[str]] = {motor.name: set() for motor in seen.circuit.motors}
    for place in places:
        then = in_the_moment(seen.judge, dict(zip(poles, place, strict=True)), state)
        if then is not None and not then.judged(state).shorted:
            for motor, word in zip(seen.circuit.motors, then.judged(state).motors, strict=True):
                found[motor.name].add(word)
    return found


def _sides(circuit: Circuit, pole: str) -> list[str]:
    """Where a pole may be while it moves; one that has a single contact is open or closed, and no more."""
    several = sum(one.tail == pole for one in circuit.conductors if one.closed) > 1
    return [*SIDES] if several else [*SIDES][:2]


def _never_pushes(seen: Seen, motor: Motor) -> bool:
    """From no rest at which a motor is driven do any steps lead, past no brake, to one at which what it makes would
    raise a supply that takes no current back."""
    load = seen.circuit.loads[motor.windings[0].load]
    free = motor.figures.free_amps[0] if motor.figures.free_amps else 0.0
    for state in seen.rests:
        volts = seen.judge.judged(state).volts[motor.windings[0].load]
        if abs(volts) >= 0.25 * motor.volts - 1e-9:
            made = (abs(volts) - free * load.ohms) * (1 if volts > 0 else -1)
            turning = following(
                {state}, partial(_moved_on, seen), lambda there: seen.word(motor.name, there) == "braked"
            )
            if any(_is_pushed(seen, motor, made, there) for there in turning if seen.is_rest(there)):
                return False
    return True


def _moved_on(seen: Seen, state: State) -> set[State]:
    return {there for there in seen.judge.successors(state) - {state} if not passes_off(seen, state, there)}


def _is_pushed(seen: Seen, motor: Motor, made: float, state: State) -> bool:
    """Does a source in the motor's winding raise the terminals of a supply that gives nothing itself?"""
    for supply in seen.circuit.supplies:
        if (supply.limit_amps or supply.withstands_volts) and state[supply.digit] == 1:
            then = view(_with_source(seen.circuit, motor, made, supply), state)
            volts = network_volts(_with_source(seen.circuit, motor, made, supply), then)
            raised = float(volts[then.group[supply.plus]] - volts[then.group[supply.minus]])
            if raised > (supply.withstands_volts or supply.volts) + 0.05:
                return True
    return False


def _with_source(circuit: Circuit, motor: Motor, made: float, supply: Supply) -> Circuit:
    """The circuit with a source in the motor's winding and a mere resistor in place of the supply."""
    number = motor.windings[0].load
    winding = circuit.loads[number]
    ends = ("source.1", winding.b) if made > 0 else (winding.b, "source.1")
    source = Supply("source", *ends, abs(made), 1.0, supply.digit)
    meter = Load("meter", "meter", "resistor", supply.plus, supply.minus, 0.0, 1e6, False, False, winding.place)
    loads = [*circuit.loads, meter]
    loads[number] = winding._replace(b="source.1")
    inside = PartInfo("source", "splice", "", ("1",), frozenset(), {}, winding.place)
    supplies = (*(one for one in circuit.supplies if one is not supply), source)
    return circuit._replace(parts={**circuit.parts, "source": inside}, loads=tuple(loads), supplies=supplies)
