"""What follows of an event while hands are off the controls, one state after the other."""

from collections.abc import Callable, Iterable, Iterator
from itertools import product

import networkx as nx

from circuitcheck.circuit.model import Axis, Limit
from tests.judge.one_state import State
from tests.judge.steps import Judge, with_value

Follow = Callable[[State], Iterable[State]]


def by_itself(judge: Judge, state: State, helped: frozenset[int] = frozenset(), value: int = 0) -> set[State]:
    """What follows with no hand: relays, timers and axes move, or one of the digits `helped` is turned to `value`."""
    own = {relay.digit for relay in judge.circuit.relays} | {axis.digit for axis in judge.circuit.axes}
    return {
        there
        for there in judge.successors(state)
        if moved(state, there) in own or is_helped(judge, state, there, helped, value)
    }


def returned(judge: Judge, state: State, digits: frozenset[int]) -> set[State]:
    """What follows where one of these digits is a supply that returns now, whatever relays are about to do."""
    supplies = {supply.digit for supply in judge.circuit.supplies} & digits
    return {with_value(state, one, 1) for one in supplies if not state[one] and not judge.judged(state).shorted}


def is_helped(judge: Judge, state: State, there: State, helped: frozenset[int], value: int) -> bool:
    """Is one of the digits turned to the value, or into the moment on the way there?"""
    digit = moved(state, there)
    positions = len(judge.circuit.digits[digit].values)
    if digit not in helped or there[digit] < positions:
        return digit in helped and there[digit] == value
    return (state[digit], value) in judge.circuit.digits[digit].moments[there[digit] - positions].moves


def moved(state: State, there: State) -> int:
    """The digit that differs; -1 for none, where an axis is driven on in its last zone."""
    return next((digit for digit, pair in enumerate(zip(state, there, strict=True)) if pair[0] != pair[1]), -1)


def after_all(start: Iterable[State], follow: Follow) -> set[State]:
    """Everything that follows, `start` included."""
    found = set(start)
    waiting = list(found)
    while waiting:
        for there in follow(waiting.pop()):
            if there not in found:
                found.add(there)
                waiting.append(there)
    return found


def hands_off(judge: Judge, state: State, but: frozenset[int] = frozenset()) -> bool:
    """Have all controls that spring back done so, but these?"""
    digits = enumerate(zip(state, judge.circuit.digits, strict=True))
    return all(
        digit.springs_to is None or value == digit.springs_to for number, (value, digit) in digits if number not in but
    )


def is_driven(judge: Judge, state: State, motor: int) -> bool:
    """Forward or reverse."""
    return judge.judged(state).motors[motor] in ("forward", "reverse")


def starts(judge: Judge, reached: set[State], motor: int, digits: frozenset[int], value: int) -> set[State]:
    """The rests in which a motor is driven after one of the digits was turned to the value, when it was not before.
    Supplies return at any moment."""

    def follow(state: State) -> set[State]:
        return by_itself(judge, state, digits, value) | returned(judge, state, digits)

    before = [
        state
        for state in reached
        if judge.is_proper(state) and judge.is_at_rest(state) and hands_off(judge, state, digits)
        if any(state[digit] != value for digit in digits) and not is_driven(judge, state, motor)
    ]
    turned = {there for state in before for there in follow(state) if moved(state, there) in digits}
    return {
        state
        for state in after_all(turned, follow)
        if judge.is_proper(state) and is_driven(judge, state, motor) and judge.is_at_rest(state)
    }


def driven_for_good(judge: Judge, reached: set[State], motor: int, digit: int, value: int) -> set[State]:
    """The rests with `digit` at `value` in which a motor is driven and which relays and timers never leave for good."""
    relays = {relay.digit for relay in judge.circuit.relays}

    def follow(state: State) -> set[State]:
        return {there for there in judge.successors(state) if moved(state, there) in relays}

    return {
        state
        for state in reached
        if state[digit] == value and judge.is_proper(state) and is_driven(judge, state, motor)
        if judge.is_at_rest(state) and all(state in after_all([there], follow) for there in after_all([state], follow))
    }


def with_stuck(judge: Judge, reached: set[State], relay: int, value: int) -> tuple[Judge, set[State]]:
    """The judge of the circuit in which a relay never moves, and what follows once it has stuck at the value."""
    relays = judge.circuit.relays
    held = Judge(judge.circuit._replace(relays=relays[:relay] + relays[relay + 1 :]))
    return held, after_all((state for state in reached if state[relays[relay].digit] == value), held.successors)


def lost(judge: Judge, axis: Axis) -> set[State]:
    """The states of power-up from which nothing leads to a limit switch of the axis that is pressed, nor to a short."""
    known = {zone for one in judge.circuit.limits if judge.circuit.axes[one.axis] == axis for zone in one.zones}
    graph: nx.DiGraph[State] = nx.DiGraph()
    for state in judge.reachable():
        graph.add_node(state)
        graph.add_edges_from((there, state) for there in judge.successors(state))
    home = [state for state in graph if state[axis.digit] in known or judge.judged(state).shorted]
    return set(judge.beginnings()) - after_all(home, lambda state: graph.successors(state))


def chatters(judge: Judge, reached: set[State], axis: Axis, motors: list[int]) -> Iterator[tuple[str, State]]:
    """Each limit switch with each state from which its axis goes back off it, is driven from there, and comes to the
    same state by itself and by going back again, off whichever switch."""
    limits = [one for one in judge.circuit.limits if judge.circuit.axes[one.axis] == axis]

    def off(limit: Limit, state: State) -> set[State]:
        words = [judge.judged(state).motors[motor] for motor in motors]
        holding = ("forward", "reverse", *(() if axis.springs_back else ("braked",)))
        still = judge.is_proper(state) and judge.is_at_rest(state) and hands_off(judge, state)
        if state[axis.digit] not in limit.zones or not still or set(words) & set(holding):
            return set()
        return {with_value(state, axis.digit, one) for one in zones_beside(axis, state[axis.digit]) - limit.zones}

    def going(state: State) -> set[State]:
        return by_itself(judge, state).union(*(off(limit, state) for limit in limits))

    def waiting(state: State) -> set[State]:
        return {there for there in by_itself(judge, state) if moved(state, there) != axis.digit}

    gone = {there for limit in limits for state in reached for there in off(limit, state)}
    for limit, state in product(limits, reached | after_all(gone, going)):
        for beside in off(limit, state):
            stood = after_all([beside], waiting)
            driven = {there for one in stood for there in by_itself(judge, one) if moved(one, there) == axis.digit}
            if state in after_all(driven, going):
                yield limit.name, state


def zones_beside(axis: Axis, zone: int) -> frozenset[int]:
    """Those of the axis' range beside one of it; none beside one that is not of it."""
    first, last = axis.range
    around = (zone - 1, zone + 1)
    beside = {one % (last + 1) for one in around} if axis.turning else set(around)
    return frozenset(one for one in beside - {zone} if first <= zone <= last and first <= one <= last)
