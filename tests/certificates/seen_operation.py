"""What is claimed of operation, looked at in each state that the judge comes to."""

from collections.abc import Callable
from functools import partial

import networkx as nx

from circuitcheck.certificates.verifier import (
    BRAKED,
    FOUND,
    NOT_THROWN,
    SETTLES,
    STAYS_STILL,
    TURNS_BACK,
)
from circuitcheck.circuit.model import Axis
from tests.certificates.seen import DRIVEN, Seen, changed, following, passes_off
from tests.judge.claims import directions
from tests.judge.one_state import State


def looks(seen: Seen) -> dict[str, Callable[[], bool]]:
    """How the judge looks at each claim."""
    circuit = seen.circuit
    found: dict[str, Callable[[], bool]] = {}
    for motor in (one.name for one in circuit.motors):
        found[f"{motor} {BRAKED}"] = partial(_is_held, seen, motor)
        found[f"{motor} {NOT_THROWN}"] = partial(_is_never_thrown, seen, motor)
        found[f"{motor} {STAYS_STILL}"] = partial(_stays_still, seen, motor)
    for axis in (one.name for one in circuit.axes):
        found[f"{axis} {TURNS_BACK}"] = partial(_turns_back, seen, axis)
        found[f"{axis} {FOUND}"] = partial(_is_found, seen, axis)
    return found | {f"{one.name} {SETTLES}": partial(_settles, seen, one.name) for one in circuit.relays}


def _is_held(seen: Seen, motor: str) -> bool:
    return seen.words(motor, seen.rests) <= {*DRIVEN, "braked"}


def _settles(seen: Seen, name: str) -> bool:
    """Do no changes lead to where the relay goes on moving and never gets out of it?"""
    (digit,) = (one.digit for one in seen.circuit.relays if one.name == name)
    endless = (group for graph in seen.changes for group in nx.attracting_components(graph))
    return not any(len({one.state[digit] for one in group}) > 1 for group in endless)


def _is_never_thrown(seen: Seen, motor: str) -> bool:
    """From no rest at which it is driven one way do a step and then relays lead, past no brake, to a rest at which
    it is driven the other way. A switch that passes off rests there."""
    for state in seen.rests:
        before = seen.word(motor, state)
        if before in DRIVEN:
            onward = seen.judge.successors(state) - {state}
            first = {there for there in onward if not passes_off(seen, state, there)}
            passed = following(first, partial(_going_on, seen), lambda there: seen.word(motor, there) == "braked")
            other = "reverse" if before == "forward" else "forward"
            if any(seen.is_rest(there) and seen.word(motor, there) == other for there in passed):
                return False
    return True


def _going_on(seen: Seen, state: State) -> set[State]:
    """Relays, and switches that are between positions."""
    between = [number for number, one in enumerate(seen.circuit.digits) if state[number] >= len(one.values)]
    hands = {there for there in seen.judge.successors(state) if any(there[one] != state[one] for one in between)}
    return hands | set(seen.judge.relays_moved(state))


def _stays_still(seen: Seen, motor: str) -> bool:
    """With hands off what springs back, no motor that stands still without power is driven once all supplies are
    on again, in whatever order they return."""
    supplies = [supply.digit for supply in seen.circuit.supplies]
    springing = [(number, one.springs_to) for number, one in enumerate(seen.circuit.digits)]
    hands_off = [one for one in seen.rests if all(to is None or one[number] == to for number, to in springing)]
    dark = {one for one in hands_off if not all(one[digit] for digit in supplies)}
    still = {one for one in dark if seen.word(motor, one) not in DRIVEN}

    def by_itself(state: State) -> set[State]:
        own = {*(one.digit for one in seen.circuit.relays), *(one.digit for one in seen.circuit.axes)}
        onward = [(there, changed(state, there)) for there in seen.judge.successors(state) if there != state]
        return {there for there, digit in onward if digit in own or (digit in supplies and there[digit])}

    after = following(still, by_itself)
    lit = [one for one in after if seen.is_rest(one) and all(one[digit] for digit in supplies)]
    return not seen.words(motor, lit) & {*DRIVEN}


def _has_moved(axis: Axis, since: State, state: State) -> bool:
    return state[axis.digit] != since[axis.digit]


def _is_found(seen: Seen, name: str) -> bool:
    """From each state of power-up, do steps lead to a zone in which a limit switch of the axis is pressed?"""
    axis = seen.axis(name)
    known = {zone for one in seen.circuit.limits for zone in one.zones if seen.circuit.axes[one.axis] is axis}
    home = {state for state in seen.reached if state[axis.digit] in known}
    leading: dict[State, set[State]] = {}
    for state in seen.reached:
        for there in seen.judge.successors(state):
            leading.setdefault(there, set()).add(state)
    found = following(home, lambda state: leading.get(state, set()))
    return found.issuperset(seen.judge.beginnings())


def _turns_back(seen: Seen, name: str) -> bool:
    """From each rest at or past an end, steps of all but the axis lead to a rest at which it is driven inward."""
    axis = seen.axis(name)
    for state in seen.rests:
        inward = {-way for way in seen.outward(axis, state)}
        led_to = following({state}, seen.judge.successors, partial(_has_moved, axis, state))
        back = any(inward & directions(seen.judge, one, axis) and seen.is_rest(one) for one in led_to)
        if inward and not back:
            return False
    return True
