"""A finding, confirmed or refused by the judge: its steps are walked, its path is traced, its claim is looked at.

The steps are read as they are told to people. Digits that a finding leaves out have no say in it; relays among them may
have to settle before the next step can be taken.
"""

from collections import deque
from collections.abc import Callable, Iterator
from functools import partial
from itertools import islice, pairwise, product
from typing import NamedTuple, Protocol

from circuitcheck.circuit.model import Circuit, Terminal
from tests.judge.changeovers import in_the_moment
from tests.judge.claims import CLAIMS, Shown, directions
from tests.judge.faults import STICKS, with_stuck_relay
from tests.judge.one_state import State, is_closed, supply_rails
from tests.judge.orders import Order, refuse_orders
from tests.judge.sequels import returned
from tests.judge.steps import Judge, with_value
from tests.judge.times import in_time
from tests.judge.told_faults import FAULT, STAYS, may_come, told_fault

MOST_COMPLETIONS = 20_000
RETURNING = ("starts-by-itself", "broken-promise")
"""Checks of what follows when power returns: to several supplies at once, it may be."""
VERBS = {
    "operates": "operated",
    "releases": "released",
    "sticks operated": "operated",
    "sticks released": "released",
    "ends its pulse": "spent",
    "pauses": "pausing",
    "fails": "off",
    "is switched on": "on",
    "press": "pressed",
    "release": "released",
}


class Told(Protocol):
    """What the judge reads of a finding."""

    @property
    def check(self) -> str:
        """The check's name."""

    @property
    def what(self) -> str:
        """What is so, in words."""

    @property
    def reached(self) -> str:
        """operation, changeover, fault or combination."""

    @property
    def parts(self) -> tuple[str, ...]:
        """The parts involved, the most telling first."""

    @property
    def example(self) -> dict[str, str]:
        """Digit name to position."""

    @property
    def path(self) -> tuple[Terminal, ...]:
        """Terminal by terminal."""

    @property
    def steps(self) -> tuple[str, ...]:
        """From power-up, in words."""

    @property
    def orders(self) -> tuple[Order, ...]:
        """What may follow the steps, where it hangs on which relay is quicker."""


class Turn(NamedTuple):
    """A digit that a told step turns, and the value it gets."""

    digit: int
    value: int


class Walked(NamedTuple):
    """The states that a story has passed, relays that it leaves out included; under which judge it goes on."""

    judge: Judge
    passed: tuple[State, ...]


def replay(circuit: Circuit, finding: Told) -> str:
    """Why the judge cannot confirm the finding; "" where it can, or where no state is told."""
    if not finding.example:
        return ""
    confirms = confirmation(circuit, finding)
    if finding.reached == "combination":
        states = islice(completions(circuit, turns(circuit, finding)), MOST_COMPLETIONS)
        return "" if any(confirms(Judge(circuit), state) for state in states) else "no state with the example shows it"
    state = beginning(circuit, finding.steps[0])
    if not begins(circuit, state):
        return f"power-up is never like this: {finding.steps[0]}"
    walked = Walked(Judge(circuit), (state,))
    told = {turn.digit for turn in turns(circuit, finding)}
    for step in [step for step in finding.steps[1:] if not step.endswith(" on the way")]:
        further = step_taken(walked, step, finding.check)
        if further is None:
            return f"this step cannot be taken: {step}"
        told |= set() if step.startswith(FAULT) or step.endswith(STAYS) else {turn_of(circuit, step).digit}
        if STICKS in step and not in_time(walked.judge, walked.passed, told):
            return "relays' times exclude these steps"
        walked = further
    end = settled_until(walked.judge, walked.passed[-1], partial(confirms, walked.judge))
    if not end:
        return "the steps lead to a state that does not show it"
    if not in_time(walked.judge, (*walked.passed, *end[1:]), told):
        return "relays' times exclude these steps"
    told |= {turn_of(circuit, step).digit for order in finding.orders for step in order.steps}
    return refuse_orders(walked, finding.orders, told, lambda one, step: step_taken(one, step, finding.check))


def turns(circuit: Circuit, finding: Told) -> list[Turn]:
    """The digits of a finding's example; where contacts are on their way is told besides."""
    poles = {one.tail for one in circuit.conductors if one.closed and finding.reached == "changeover"}
    return [turn_of(circuit, f"{name} {value}") for name, value in finding.example.items() if name not in poles]


def confirmation(circuit: Circuit, finding: Told) -> Callable[[Judge, State], bool]:
    """Whether a state shows what the finding says."""
    example, holds = turns(circuit, finding), CLAIMS.get(finding.check)

    def confirms(judge: Judge, state: State) -> bool:
        seen = in_the_moment(Judge(circuit), finding.example, state) if finding.reached == "changeover" else judge
        return (
            seen is not None
            and all(state[turn.digit] == turn.value for turn in example)
            and traces(seen.circuit, state, finding.path)
            and (holds is None or holds(Shown(seen, state, finding.parts, finding.path)))
        )

    return confirms


def step_taken(walked: Walked, step: str, check: str) -> Walked | None:
    """The story with one told step more. None where it cannot be taken. A relay that sticks begins it anew."""
    judge, state = walked.judge, walked.passed[-1]
    if step.startswith(FAULT):
        called = step.removeprefix(FAULT)
        comes = may_come(judge.circuit, called, state)
        return Walked(Judge(told_fault(judge.circuit, called)), (state,)) if comes else None
    if step.endswith(STAYS):
        return walked
    turn = turn_of(judge.circuit, step)
    if STICKS in step:
        stuck = any(relay.digit == turn.digit for relay in judge.circuit.relays) and state[turn.digit] == turn.value
        return Walked(with_stuck_relay(judge, step), (state,)) if stuck else None
    further = at_once(judge, state, turn) if check in RETURNING else []
    back = gone_back(judge, state, turn) if check == "chattering-limit" else []
    if back[:-1] == [state]:
        # From here it goes back at once; relays that never rest might drive it the same way later.
        further = back
    further = further or after_step(judge, state, turn) or back
    return Walked(judge, (*walked.passed, *further[1:])) if further else None


def at_once(judge: Judge, state: State, turn: Turn) -> list[State]:
    """The states up to where a supply has returned, whatever relays are about to do. None where it can't."""
    there = with_value(state, *turn)
    is_supply = any(supply.digit == turn.digit for supply in judge.circuit.supplies)
    return (
        [state, there] if is_supply and turn.value and there in returned(judge, state, frozenset({turn.digit})) else []
    )


def gone_back(judge: Judge, state: State, turn: Turn) -> list[State]:
    """The states up to where an axis that nothing drives has gone off a limit switch, at a rest. None where it
    hasn't."""
    switches = [one for one in judge.circuit.limits if judge.circuit.axes[one.axis].digit == turn.digit]
    axis = next((one for one in judge.circuit.axes if one.digit == turn.digit), None)
    if axis is None or not any(state[turn.digit] in one.zones and turn.value not in one.zones for one in switches):
        return []
    ready = settled_until(judge, state, lambda one: judge.is_at_rest(one) and not directions(judge, one, axis))
    return [*ready, with_value(ready[-1], *turn)] if ready else []


def begins(circuit: Circuit, state: State) -> bool:
    """Is this a power-up: relays released (latching ones anyhow), axes within their range, switches at positions?"""
    return (
        all(state[relay.digit] == 0 for relay in circuit.relays if relay.function != "latching")
        and all(axis.range[0] <= state[axis.digit] <= axis.range[1] for axis in circuit.axes)
        and all(value < len(digit.values) for value, digit in zip(state, circuit.digits, strict=True))
    )


def beginning(circuit: Circuit, words: str) -> State:
    """The state that the first step describes; what it leaves out stands at its first position."""
    state = tuple(0 for _ in circuit.digits)
    for axis in circuit.axes:
        state = with_value(state, axis.digit, axis.range[0])
    for phrase in words.removeprefix("begin with ").split(", "):
        if phrase != "anything":
            state = with_value(state, *turn_of(circuit, phrase))
    return state


def turn_of(circuit: Circuit, words: str) -> Turn:
    """The digit and value that some words speak of: "S1 raise", "deck at top", "K1 operates", "press PB1"."""
    number, digit = next(pair for pair in enumerate(circuit.digits) if pair[1].name in words.split())
    rest = " ".join(word for word in words.split() if word != digit.name)
    named = [(digit.value_name(value), value) for value in range(digit.radix)]
    named += [(verb, value) for verb, name in VERBS.items() for known, value in tuple(named) if known == name]
    fitting = [(len(name), value) for name, value in named if f" {name} " in f" {rest} "]
    return Turn(number, max(fitting)[1])


def after_step(judge: Judge, state: State, turn: Turn) -> list[State]:
    """The states up to the one after the step; relays may have to settle first. None where it cannot be taken."""
    ready = settled_until(judge, state, lambda one: with_value(one, *turn) in judge.successors(one))
    return [*ready, with_value(ready[-1], *turn)] if ready else []


def settled_until(judge: Judge, state: State, wanted: Callable[[State], bool]) -> list[State]:
    """The states, by relays moving alone, up to the first that is as wanted; none where none is."""
    found, waiting = {state}, deque([[state]])
    while waiting:
        passed = waiting.popleft()
        if wanted(passed[-1]):
            return passed
        for there in judge.relays_moved(passed[-1]):
            if there not in found:
                found.add(there)
                waiting.append([*passed, there])
    return []


def completions(circuit: Circuit, example: list[Turn]) -> Iterator[State]:
    """Every state with the example's values, hand switches at positions."""
    given = dict(example)
    return product(
        *(
            (given[number],) if number in given else range(len(digit.values))
            for number, digit in enumerate(circuit.digits)
        )
    )


def traces(circuit: Circuit, state: State, path: tuple[Terminal, ...]) -> bool:
    """Does each step of the path run over a closed conductor, a load, or through a supply that is on?"""
    closed = {(one.tail, one.head) for one in circuit.conductors if is_closed(one, state)}
    closed |= {(one.head, one.tail) for one in circuit.conductors if is_closed(one, state) and not one.one_way}
    closed |= {ends for load in circuit.loads for ends in ((load.a, load.b), (load.b, load.a))}
    on = [pair for pair, one in zip(supply_rails(circuit), circuit.supplies, strict=True) if state[one.digit] == 1]
    return all(
        step in closed or step[0] == step[1] or any(goes_through(step, *pair) for pair in on) for step in pairwise(path)
    )


def goes_through(step: tuple[Terminal, Terminal], plus: frozenset[Terminal], minus: frozenset[Terminal]) -> bool:
    """Does the step lead from one rail of a supply to its other, or along the same rail?"""
    return any({*step} <= one | other and step[0] in one for one, other in ((plus, minus), (minus, plus)))
