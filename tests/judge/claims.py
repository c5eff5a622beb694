"""What a finding of each check claims of one state, in the judge's own terms."""

from collections.abc import Callable
from itertools import pairwise
from typing import NamedTuple

import networkx as nx

from circuitcheck.circuit.model import Axis, Terminal
from tests.judge.one_state import State
from tests.judge.steps import Judge
from tests.judge.times import ticked_through


class Shown(NamedTuple):
    """A state in which a finding is said to be seen, with the finding's parts and path."""

    judge: Judge
    state: State
    parts: tuple[str, ...]
    path: tuple[Terminal, ...]


Holds = Callable[[Shown], bool]
"""Whether a check's claim holds of what is shown."""

MOST_LOOKED_AT = 3_000


def is_shorted(shown: Shown) -> bool:
    """Conductors close a loop through a supply."""
    return shown.judge.judged(shown.state).shorted


def stops_unbraked(shown: Shown) -> bool:
    """The motor neither turns nor brakes, and it stays so until something is moved."""
    word = motor_words(shown.judge, shown.state)[shown.parts[0]]
    return word in ("coasting", "braked one way", "weak") and shown.judge.is_at_rest(shown.state)


def is_driven(shown: Shown) -> bool:
    """The motor is driven, either way."""
    return motor_words(shown.judge, shown.state)[shown.parts[0]] in ("forward", "reverse")


def is_driven_on(shown: Shown) -> bool:
    """In its last zone, or past it, the axis is still driven outward."""
    axis = axis_among(shown.judge, shown.parts)
    zone, (first, last) = shown.state[axis.digit], axis.range
    return (zone >= last and 1 in directions(shown.judge, shown.state, axis)) or (
        zone <= first and -1 in directions(shown.judge, shown.state, axis)
    )


def is_fed_or_shorted(shown: Shown) -> bool:
    """There are volts across the part's load, or a short."""
    verdict = shown.judge.judged(shown.state)
    loads = zip(shown.judge.circuit.loads, verdict.volts, strict=True)
    return verdict.shorted or any(load.part == shown.parts[0] and abs(volts) > 0.1 for load, volts in loads)


def has_a_driven_motor(shown: Shown) -> bool:
    """A motor among the parts is driven, and it stays so until something is moved."""
    words = motor_words(shown.judge, shown.state)
    driven = any(words.get(part) in ("forward", "reverse") for part in shown.parts)
    return driven and shown.judge.is_at_rest(shown.state)


def has_no_fuse(shown: Shown) -> bool:
    """The current's way goes over no fuse."""
    fuses = {frozenset((one.tail, one.head)) for one in shown.judge.circuit.conductors if one.kind == "fuse"}
    return not any(frozenset(step) in fuses for step in pairwise(shown.path))


def comes_back_by_itself(shown: Shown) -> bool:
    """Motors and relays alone, with no hand, lead away from the state and back to it."""
    own = {relay.digit for relay in shown.judge.circuit.relays} | {axis.digit for axis in shown.judge.circuit.axes}
    found: set[State] = set()
    waiting = [shown.state]
    while waiting:
        here = waiting.pop()
        for there in shown.judge.successors(here):
            if there not in found and all(
                there[digit] == here[digit] for digit in range(len(here)) if digit not in own
            ):
                found.add(there)
                waiting.append(there)
    return shown.state in found


def never_leaves(shown: Shown) -> bool:
    """Whatever is done, the axis is never driven back from its end."""
    axis = axis_among(shown.judge, shown.parts)
    inward = -1 if shown.state[axis.digit] >= axis.range[1] else 1
    found, waiting = {shown.state}, [shown.state]
    while waiting and len(found) < MOST_LOOKED_AT:
        for there in shown.judge.successors(waiting.pop()):
            if there[axis.digit] == shown.state[axis.digit] + inward:
                return False
            if there not in found and there[axis.digit] == shown.state[axis.digit]:
                found.add(there)
                waiting.append(there)
    return True


def may_end_apart(shown: Shown) -> bool:
    """Relays alone, in every order that their times leave, lead to several standstills, to no short and into no endless
    round."""
    outcomes = outcomes_of(shown)
    return not outcomes.shorted and outcomes.standstills > 1 and not outcomes.endless


def may_never_rest(shown: Shown) -> bool:
    """Relays alone lead into an endless round, and to no short."""
    outcomes = outcomes_of(shown)
    return not outcomes.shorted and outcomes.endless


class Outcomes(NamedTuple):
    """Whether relays may come to a short, at how many states they may stand still, and whether they may never."""

    shorted: bool
    standstills: int
    endless: bool


def outcomes_of(shown: Shown) -> Outcomes:
    """What relays alone may come to, all of them beginning to wait in the state shown."""
    graph = ticked_through(shown.judge, shown.state)
    groups = list(nx.attracting_components(graph))
    standing = [{one.state for one in group} for group in groups]
    shorted = any(shown.judge.judged(one.state).shorted for one in graph)
    return Outcomes(shorted, sum(len(states) == 1 for states in standing), any(len(states) > 1 for states in standing))


def axis_among(judge: Judge, parts: tuple[str, ...]) -> Axis:
    """The axis that is among the parts."""
    return next(axis for axis in judge.circuit.axes if axis.name in parts)


def motor_words(judge: Judge, state: State) -> dict[str, str]:
    """What each motor does."""
    words = judge.judged(state).motors
    return {motor.name: word for motor, word in zip(judge.circuit.motors, words, strict=True)}


def directions(judge: Judge, state: State, axis: Axis) -> set[int]:
    """Where motors drive the axis: 1 toward higher zones, -1 toward lower."""
    found = set()
    for motor in judge.circuit.motors:
        word = motor_words(judge, state)[motor.name]
        if motor.axis is not None and judge.circuit.axes[motor.axis] == axis and word in ("forward", "reverse"):
            found.add(1 if (word == "forward") == motor.upward else -1)
    return found


def breaks_a_requirement(shown: Shown) -> bool:
    """A motor drives an axis among the parts outward at its end, or it is driven with an emergency stop pressed."""
    if any(axis.name in shown.parts for axis in shown.judge.circuit.axes):
        return is_driven_on(shown)
    stops = [number for number, digit in enumerate(shown.judge.circuit.digits) if digit.name == shown.parts[0]]
    return all(shown.state[number] == 1 for number in stops) and has_a_driven_motor(shown)


CLAIMS: dict[str, Holds] = {
    "supply-short": is_shorted,
    "unbraked-stop": stops_unbraked,
    "broken-requirement": breaks_a_requirement,
    "limit-not-cutting": is_driven_on,
    "missing-flyback": is_fed_or_shorted,
    "coil-volts-mismatch": is_fed_or_shorted,
    "supply-without-fuse": has_no_fuse,
    "hunting-axis": comes_back_by_itself,
    "starts-by-itself": has_a_driven_motor,
    "emergency-stop": has_a_driven_motor,
    "chattering-limit": has_a_driven_motor,
    "trapped-at-limit": never_leaves,
    "wrong-way-pulse": is_driven,
    "plugged-motor": is_driven,
    "order-dependent": may_end_apart,
    "never-settles": may_never_rest,
}
"""Checks whose claim is about one state. What the others say of a state is held by their own tests."""
